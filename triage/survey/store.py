"""The file that a survey is kept in, which others may write too: nothing of theirs or ours is lost."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from pathlib import Path

from triage.errors import BadSurvey, Place, Problem, TriageError
from triage.files import write_whole
from triage.knowledge.model import KnowledgeBase
from triage.parsing.documents import MAX_BYTES
from triage.survey.lock import held
from triage.survey.merge import Clash, merge
from triage.survey.model import Survey
from triage.survey.read import checked, survey_from_text
from triage.survey.write import survey_text


@dataclass(frozen=True)
class Saved:
    """What is in the file now: more than was given, when somebody else had written to it meanwhile.

    ``beside`` is the file that was left alone, if what it holds could not be joined with ours.
    """

    survey: Survey
    file: Path
    clashes: tuple[Clash, ...] = ()
    joined: bool = False
    beside: Path | None = None


@dataclass(frozen=True)
class NotSaved:
    """Nothing was written, and why."""

    why: str


class Store:
    """A survey file as it was when it was last read or written here."""

    def __init__(self, kb: KnowledgeBase, file: Path, new: Survey) -> None:
        """``new`` is the survey to begin with when there is no such file. Raises BadSurvey when it holds something
        else, or cannot be read.
        """
        self.kb, self.file, self.survey = kb, file, checked(new, kb)
        self._raw: bytes | None = None
        self._had_folder = file.parent.is_dir()
        if file.exists():
            self._raw = _read(file)
            self.survey = replace(survey_from_text(self._raw, kb, source=str(file)), source="")

    @property
    def exists(self) -> bool:
        """Whether anything was read from it, or written to it here."""
        return self._raw is not None

    def save(self, survey: Survey) -> Saved | NotSaved:
        """Have the survey on the disk, with whatever somebody else has put there since, before this returns."""
        if self._had_folder and not self.file.parent.is_dir():
            return NotSaved(f"the folder {self.file.parent} is not there any more.")
        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            with held(self.file):
                return self._save(survey)
        except BadSurvey as error:
            return NotSaved(f"{error.problems[0].what}. {error.problems[0].hint}".strip())
        except OSError as error:
            return NotSaved(f"{error.strerror or error}.")
        except TriageError as error:
            return NotSaved(str(error))

    def _save(self, survey: Survey) -> Saved | NotSaved:
        there = _read(self.file) if self.file.exists() else None
        if there is None or there == self._raw:
            return self._write(self.file, survey)
        try:
            theirs = replace(survey_from_text(there, self.kb), source="")
            if survey.boat.name != self.survey.boat.name != theirs.boat.name != survey.boat.name:
                return self._beside(survey)
            both, clashes = merge(self.survey, survey, theirs)
            both = checked(both, self.kb)
        except BadSurvey:
            return self._beside(survey)
        return self._write(self.file, both, clashes, joined=True)

    def _beside(self, survey: Survey) -> Saved | NotSaved:
        """Leave the file alone, and carry on in another one."""
        left, free = self.file, free_name(self.file)
        with held(free):
            saved = self._write(free, survey)
        if isinstance(saved, NotSaved):
            return saved
        self.file = free
        return replace(saved, beside=left)

    def _write(
        self, file: Path, survey: Survey, clashes: tuple[Clash, ...] = (), *, joined: bool = False
    ) -> Saved | NotSaved:
        survey, text = self._readable(survey)
        write_whole(file, text)
        raw = text.encode("utf-8")
        if _read(file) != raw:
            return NotSaved("the disk does not give back what was written to it.")
        self._raw, self.survey, self._had_folder = raw, survey, True
        return Saved(survey, file, clashes, joined)

    def _readable(self, survey: Survey) -> tuple[Survey, str]:
        """The survey and its text, which reads back as the same. Raises BadSurvey when no text does.

        What could be taken back is left out where the file would get too large with it.
        """
        survey = survey.in_walk_order(self.kb)
        short = replace(survey, conversation={**survey.conversation, "undo": []}) if survey.conversation else survey
        if len(survey_text(survey).encode("utf-8")) > MAX_BYTES:
            survey = short
        text = survey_text(survey)
        again = replace(survey_from_text(text, self.kb), source="")
        if again != survey:
            raise BadSurvey([Problem(Place(str(self.file)), "it would not read back as what it is")])
        return survey, text


def free_name(file: Path) -> Path:
    """The file, or the first of its name with a number that does not exist."""
    numbered = (file.with_stem(f"{file.stem}-{number}") for number in itertools.count(2))
    return next(one for one in itertools.chain([file], numbered) if not one.exists())


def _read(file: Path) -> bytes:
    """What is in a file, of one without an end no more than is needed to see that it is one. Raises BadSurvey."""
    try:
        with file.open("rb") as opened:
            return opened.read(MAX_BYTES + 1)
    except OSError as error:
        problem = Problem(Place(str(file)), f"cannot be opened: {error.strerror}", "Check the name and the folder.")
        raise BadSurvey([problem]) from None
