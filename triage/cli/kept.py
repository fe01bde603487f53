"""The survey that a conversation is kept in: written after every answer, so that nothing is lost."""

from __future__ import annotations

import datetime
import itertools
from dataclasses import replace
from pathlib import Path

from triage.cli.terminal import choose, say
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Survey
from triage.survey.read import read_survey
from triage.survey.write import write_survey

DEFAULT = Path("survey.yaml")
NAMELESS = "My boat"


class Kept:
    """A survey and the file it is kept in."""

    def __init__(self, file: Path, survey: Survey) -> None:
        self.file, self.survey = file, survey

    @classmethod
    def at(cls, kb: KnowledgeBase, file: Path, boat: str | None) -> Kept:
        """What is in the file, or a new survey. Raises BadSurvey when the file holds something else."""
        survey = read_survey(file, kb) if file.exists() else Survey(Boat(NAMELESS), (), datetime.date.today())
        return cls(file, replace(survey, boat=replace(survey.boat, name=boat)) if boat else survey)

    def keep(self, survey: Survey) -> None:
        self.survey = survey
        write_survey(survey, self.file)


def find_kept(kb: KnowledgeBase, boat: str | None) -> Kept:
    """The survey in this folder, if it is to be carried on with; otherwise a new one that overwrites nothing."""
    if DEFAULT.exists():
        try:
            kept = Kept.at(kb, DEFAULT, None)
        except BadSurvey:
            say(f"{DEFAULT} holds something else, so this is kept in a file of its own.")
        else:
            marks = len(kept.survey.findings)
            say(f"There is a survey of {kept.survey.boat.name} here, with {marks} mark{'' if marks == 1 else 's'}.")
            if choose("Which shall it be?", ["carry on with it", "start a new one"]) == 0:
                return Kept.at(kb, DEFAULT, boat)
    return Kept.at(kb, _free(DEFAULT), boat)


def _free(file: Path) -> Path:
    """The file, or the first of its name with a number that does not exist."""
    numbered = (file.with_stem(f"{file.stem}-{number}") for number in itertools.count(2))
    return next(one for one in itertools.chain([file], numbered) if not one.exists())
