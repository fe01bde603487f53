"""Where a conversation stands: the survey, what is being asked, and how each step so far is taken back."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from triage.asking.effort import WITH_ALL, Resources
from triage.dialogue.edits import Edit
from triage.survey.model import Survey

MAX_UNDO = 100
"""Steps that can be taken back; older ones stay as they are."""

What = Literal[
    "describe", "place", "leg", "spot", "mark", "confirm", "side", "story", "which", "whose", "tried", "answer",
    "answers", "marks", "ended",
]  # fmt: skip
DESCRIBING: tuple[What, ...] = ("place", "leg", "spot", "mark", "confirm", "side")
STORY: tuple[What, ...] = ("story", "which", "whose", "tried")


@dataclass(frozen=True)
class Asking:
    """What is being asked.

    A question about ``mark`` has ``ask``, the scale or the fact. A description that is not complete has its ``text``
    and, as far as they are known, its ``zone``, ``sign`` and ``side`` ("both", or "unknown" once asked in vain);
    ``offered`` are the ids of the places or marks on offer, ``ask`` the part of the boat that is gone round. ``sized``:
    its sizes count. ``sure``: the person has seen place and mark and said that they are right.
    Of a story ``offered`` holds what was decided about each mark, and ``ask`` which of them, or of the parts that are
    said to be well, is asked about.
    """

    what: What
    mark: str = ""
    ask: str = ""
    text: str = ""
    zone: str = ""
    sign: str = ""
    side: str = ""
    offered: tuple[str, ...] = ()
    sized: bool = True
    sure: bool = False


DESCRIBE = Asking("describe")


@dataclass(frozen=True)
class TakenBack:
    """What takes one step back: what to do to the survey, and what was being asked before it."""

    asking: Asking
    edits: tuple[Edit, ...] = ()


@dataclass(frozen=True)
class State:
    """One conversation about one boat. ``explained`` holds the names of the checks that were told how to do.

    ``means``: what the person has at hand; ``minutes``: for the walk round her, nothing until somebody says.
    """

    survey: Survey
    asking: Asking = DESCRIBE
    undo: tuple[TakenBack, ...] = ()
    explained: frozenset[str] = frozenset()
    means: Resources = WITH_ALL
    minutes: int = 0

    def moved(self, asking: Asking, survey: Survey | None = None, edits: tuple[Edit, ...] = ()) -> State:
        """The state after a step, which ``edits`` and what is being asked now take back."""
        after = replace(self, survey=self.survey if survey is None else survey, asking=asking)
        if (after.survey, after.asking) == (self.survey, self.asking):
            return self
        return replace(after, undo=(*self.undo, TakenBack(self.asking, edits))[-MAX_UNDO:])
