"""Which file a conversation is kept in."""

from __future__ import annotations

import datetime
from pathlib import Path

from triage.cli.terminal import choose, say
from triage.dialogue.edits import NameBoat, apply
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Survey
from triage.survey.store import Store, free_name

DEFAULT = Path("survey.yaml")
NAMELESS = "My boat"


def store_at(kb: KnowledgeBase, file: Path) -> Store:
    """What is in the file, or a new survey. Raises BadSurvey when the file holds something else."""
    return Store(kb, file, Survey(Boat(NAMELESS), (), datetime.date.today()))


def find_store(kb: KnowledgeBase) -> Store:
    """The survey in this folder, if it is to be carried on with; otherwise a new one that overwrites nothing."""
    if DEFAULT.exists():
        try:
            store = store_at(kb, DEFAULT)
        except BadSurvey:
            say(f"{DEFAULT} holds something else, so this is kept in a file of its own.")
        else:
            marks = len(store.survey.findings)
            say(f"There is a survey of {store.survey.boat.name} here, with {marks} mark{'' if marks == 1 else 's'}.")
            if choose("Which shall it be?", ["carry on with it", "start a new one"]) == 0:
                return store
    return store_at(kb, free_name(DEFAULT))


def named(kb: KnowledgeBase, survey: Survey, boat: str | None) -> Survey:
    """The survey of a boat that is called so. Raises BadSurvey when nothing can be."""
    return survey if boat is None else apply(kb, survey, NameBoat(boat))[0]
