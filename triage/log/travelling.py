"""A boat as one file: her visits as they stand in survey files, and her diary, to keep or to take to another machine.

Photographs stay with whoever took them, and what a buyer noted is nobody else's.
"""

from __future__ import annotations

import contextlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from triage.errors import BadSurvey, NoSuch, Place, Problem, TriageError
from triage.knowledge.model import OTHER_SIDE, KnowledgeBase
from triage.log.boats import Boats, Entry, Kept
from triage.log.visits import NO_BOAT, entry_of, entry_words, plain_survey
from triage.survey.model import Survey
from triage.survey.read import survey_from

FORM = 1
"""Of the file; a later one is not read."""

_NAMED = "boat_over_time"
"""The word by which such a file is known, before its form."""

_LONGEST = 200
"""Letters of a name or an id in a diary."""


@dataclass(frozen=True)
class Travelled:
    """What such a file holds: the visits, the oldest first, and the diary as it was written."""

    visits: tuple[Survey, ...]
    diary: tuple[Entry, ...]


def boat_text(boats: Boats, boat: str) -> str:
    """All that is known of a boat, as JSON. Raises NoSuch."""
    visits = next((one.visits for one in boats.boats() if one.id == boat), None)
    if visits is None:
        raise NoSuch(NO_BOAT)
    told = {
        _NAMED: FORM,
        "visits": [json.loads(plain_survey(boats.open(one.id).survey)) for one in reversed(visits)],
        "diary": [entry_words(line) for line in boats.diary(boat)],
    }
    return json.dumps(told, ensure_ascii=False, indent=1) + "\n"


def is_boat(text: bytes) -> bool:
    """Whether a file is meant to be one of these, and not a survey."""
    return text.lstrip().startswith(b"{") and f'"{_NAMED}"'.encode() in text[:_LONGEST]


def read_boat(text: bytes, kb: KnowledgeBase, source: str) -> Travelled:
    """What a file holds. Raises BadSurvey where it is none, or anything in it is none of what these rules know."""
    try:
        told = json.loads(text)
    except (ValueError, RecursionError):
        raise _bad(source, "this file is not whole", "Save it again where it came from.") from None
    if not isinstance(told, dict) or told.get(_NAMED) != FORM:
        raise _bad(source, "another version of the program wrote this file", "Bring this one up to date.")
    visits, lines = told.get("visits"), told.get("diary", [])
    if not (isinstance(visits, list) and visits and isinstance(lines, list)):
        raise _bad(source, "there are no visits in this file", "Save it again where it came from.")
    surveys = tuple(_visit(one, kb, f"{source}, visit {number}") for number, one in enumerate(visits, start=1))
    diary = tuple(_line(one, kb, f"{source}, line {number} of the diary") for number, one in enumerate(lines, start=1))
    return Travelled(surveys, diary)


def arrive(boats: Boats, travelled: Travelled) -> Kept:
    """Keep her as a boat of her own; her last visit. Nothing of her stays where not all of her can be kept."""
    begun: list[Kept] = []
    try:
        for survey in travelled.visits:
            begun.append(boats.begin(survey, begun[0].boat if begun else None))
        for line in travelled.diary:
            boats.write(begun[0].boat, line)
    except TriageError:
        for one in begun:
            with contextlib.suppress(TriageError):
                boats.remove(one.visit)
        raise
    return begun[-1]


def _visit(told: Any, kb: KnowledgeBase, source: str) -> Survey:
    if not isinstance(told, dict):
        raise _bad(source, "this is no survey")
    return survey_from(told, kb, source=source)


def _line(told: Any, kb: KnowledgeBase, source: str) -> Entry:
    """A line of the diary. Raises BadSurvey."""
    if not _is_words(told):
        raise _bad(source, "this is no line of a diary")
    try:
        line = entry_of(told)
    except (ValueError, KeyError):
        raise _bad(source, "this is no line of a diary") from None
    if line.zone not in kb.zones or line.sign not in kb.signs or (line.side and line.side not in OTHER_SIDE):
        raise _bad(source, "these rules know no such mark", "Bring the program up to date.")
    return line


def _is_words(told: Any) -> bool:
    return isinstance(told, Mapping) and all(
        isinstance(word, str) and len(word) <= _LONGEST and word.isprintable() for word in told.values()
    )


def _bad(source: str, why: str, hint: str = "") -> BadSurvey:
    return BadSurvey([Problem(Place(source), why, hint)])
