"""What is being talked about, and by what: a mark in words, a story, a part that it says is well, or a question."""

from __future__ import annotations

from triage.dialogue.answering import Answering
from triage.dialogue.describing import Describing
from triage.dialogue.messages import Refused
from triage.dialogue.moves import Option
from triage.dialogue.state import DESCRIBING, STORY, State
from triage.dialogue.telling import Telling
from triage.dialogue.trying import Trying
from triage.knowledge.model import KnowledgeBase
from triage.phrases.words import capital

Talk = Describing | Answering | Telling | Trying


def talk_of(kb: KnowledgeBase, state: State) -> Talk:
    """What answers to what is asked now."""
    if state.asking.what in STORY:
        return Trying(kb, state) if state.asking.what == "tried" else Telling(kb, state)
    return Describing(kb, state) if state.asking.what in DESCRIBING else Answering(kb, state)


def letters(kb: KnowledgeBase, state: State) -> frozenset[str]:
    """Those that name a mark that a choice is about."""
    options: list[Option] = talk_of(kb, state).options() if state.asking.what in STORY else []
    return frozenset(option.letter for option in options if option.letter)


def refused(kb: KnowledgeBase, state: State, what: str, hint: str = "") -> Refused:
    """Said with the choices as they are shown, so that nobody counts them in another way."""
    options: list[Option] = talk_of(kb, state).options()
    return Refused(capital(what), hint, tuple(option.text for option in options))
