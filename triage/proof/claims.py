"""A claim about every survey, or that there is some survey: as a formula for the solver, and as a check of surveys.

The two are written apart on purpose. Whatever the solver brings forward is written down, read like anybody's survey,
judged by `evaluate` and by `forward`, and believed only if the check says so too.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.proof.scopes import ZoneSign
from triage.proof.symbolic import Formula, Solver
from triage.proof.symbolic_survey import OpenSurvey, SymbolicSurvey
from triage.survey.model import Boat
from triage.survey.read import survey_from_text

Kind = Literal["promise", "law", "use"]


@dataclass(frozen=True)
class Question:
    """Is there a survey, or several that belong together, of which ``formula`` holds?

    ``plain`` is what had better hold too, in an example that people are to read.
    """

    formula: Formula
    surveys: tuple[OpenSurvey, ...]
    plain: Iterable[Formula] = ()

    def answer(self, solver: Solver, *, plain: bool = True) -> list[str] | None:
        """Such surveys, as files, the plainest ones if wanted; None: there are none. Raises Undecided."""
        wishes = itertools.chain(self.plain, *(survey.plain() for survey in self.surveys))
        truth = solver.find(self.formula, wishes if plain else ())
        return None if truth is None else [survey.written(truth) for survey in self.surveys]


@dataclass(frozen=True)
class Seen:
    """One survey and how an engine judged it."""

    kb: KnowledgeBase
    boat: Boat
    judged: tuple[Evaluation, ...]


@dataclass(frozen=True, eq=False)
class Claim:
    """Something claimed of every survey on a ground; or, ``somewhere``, of at least one survey on some ground.

    ``goals`` are the derived scales it speaks of, and ``text`` is what it says, in a form that changes when it does:
    together with the rules that can raise the goals they decide the answer.
    ``candidates`` are those it is asked of for a sign in a zone: none where it says nothing, several where it speaks of
    other findings too. ``ask`` asks for the surveys that break it, or show it; ``shown`` says of judged surveys whether
    they do. ``likely`` says where to begin to look, and where ``hope`` cannot be, no context on the boat helps.
    """

    kind: Kind
    id: str
    says: str
    goals: frozenset[str]
    text: str
    candidates: Callable[[ZoneSign], list[tuple[ZoneSign, ...]]]
    ask: Callable[[SymbolicSurvey], Question]
    shown: Callable[[Sequence[Seen]], bool]
    somewhere: bool = False
    likely: Callable[[ZoneSign], bool] = lambda pair: True  # noqa: ARG005
    hope: Callable[[SymbolicSurvey], Formula] = lambda ground: True  # noqa: ARG005


def confirmed(claim: Claim, kb: KnowledgeBase, texts: Sequence[str]) -> bool:
    """Whether the written surveys show what the solver says they do, to both engines."""
    surveys = [survey_from_text(text, kb) for text in texts]
    return all(
        claim.shown([Seen(kb, survey.boat, engine(kb, survey.boat, survey.findings)) for survey in surveys])
        for engine in (evaluate, forward)
    )
