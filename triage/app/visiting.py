"""A visit that is talked about: opened from what keeps it, one step on, and kept before anything of it is shown."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from triage.app.said import sentences
from triage.app.screen import Program
from triage.asking.suggest import WITH_ALL
from triage.dialogue import keeping
from triage.dialogue.events import Change, Event
from triage.dialogue.messages import PROMPTS, Left, Message, Report
from triage.dialogue.state import Asking, State
from triage.dialogue.step import begin, present, step
from triage.log.boats import Kept
from triage.phrases import conversation as phrases
from triage.phrases import screens as words
from triage.survey.model import Survey


@dataclass(frozen=True)
class Visit:
    """A visit as it was opened: what was kept, where the conversation stands, and what it asks."""

    kept: Kept
    state: State
    asks: tuple[Message, ...]

    @property
    def survey(self) -> Survey:
        """The survey as it stands."""
        return self.state.survey


@dataclass(frozen=True)
class Came:
    """What came of a step, kept: whether it asks for the report, or to leave."""

    kept: Kept
    reports: bool = False
    leaves: bool = False


def open_visit(program: Program, visit: str) -> Visit:
    """The visit, carried on where it was left. Raises NoSuch."""
    kept = program.boats.open(visit)
    state, messages = begin(program.kb, kept.survey, WITH_ALL)
    return Visit(kept, state, tuple(one for one in messages if isinstance(one, PROMPTS)))


def take(program: Program, visit: str, events: Iterable[Event], token: str = "") -> Came:
    """These steps, one after the other, and kept. ``token`` is that of the question they answer: where something else
    is asked meanwhile, an answer still goes to its own question, and any other choice is not taken. Raises NoSuch.
    """
    opened = open_visit(program, visit)
    state, said = opened.state, list[Message]()
    if token and token != token_of(state.asking):
        back = _asked_before(token)
        if back is None:
            return Came(keep(program, opened.kept, state, [words.MEANWHILE]))
        state, _ = step(program.kb, state, back)
        if token != token_of(state.asking):
            return Came(keep(program, opened.kept, opened.state, [words.MEANWHILE]))
    for event in events:
        state, messages = step(program.kb, state, event)
        shown = present(program.kb, state) if state.asking.what == "story" else ()
        said += [one for one in messages if not isinstance(one, PROMPTS) and one not in shown]
    kept = keep(program, opened.kept, state, sentences(said))
    return Came(kept, any(isinstance(one, Report) for one in said), any(isinstance(one, Left) for one in said))


def keep(program: Program, opened: Kept, state: State, said: Sequence[str] = ()) -> Kept:
    """The visit with where it stands now; where somebody else said otherwise meanwhile, that is said too."""
    survey = keeping.kept(state)
    kept = program.boats.save(opened, survey, said)
    if kept.clashes:
        told = [phrases.clash_sentence(program.kb, kept.survey, one) for one in kept.clashes]
        kept = program.boats.save(kept, kept.survey, [*said, *told])
    return kept


def token_of(asking: Asking) -> str:
    """What a form says of the question that it answers."""
    if asking.what == "answer":
        return f"answer/{asking.mark}/{asking.ask}"
    return f"{asking.what}/{hashlib.sha256(repr(asking).encode()).hexdigest()[:12]}"


def _asked_before(token: str) -> Event | None:
    """What asks the question of this token again; None where it cannot be asked again."""
    what, _, rest = token.partition("/")
    mark, _, ask = rest.rpartition("/")
    return Change(mark, ask) if what == "answer" and mark and ask else None
