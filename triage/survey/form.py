"""The shape of a survey file."""

from __future__ import annotations

import datetime
import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field
from pydantic_core import PydanticCustomError

from triage.parsing.forms import Form
from triage.survey.validity import MAX_FINDINGS


def _written_out(said: Any) -> Any:
    """Refuse what pydantic would take for seconds since 1970."""
    if not isinstance(said, str) or not re.fullmatch(r"\d{4}-\d{2}-\d{2}", said.strip()):
        raise PydanticCustomError("date_parsing", "year-month-day")
    return said.strip()


Day = Annotated[datetime.date, BeforeValidator(_written_out)]

MOST_ENTRIES = 200
"""In one block of answers: more than there are facts, readings, places or causes to answer for."""


class BoatForm(Form):
    """The boat. ``length`` as "4.2 m"; ``facts`` as the knowledge names them (deck: single)."""

    name: str
    length: str = ""
    facts: dict[str, str] = Field(default={}, max_length=MOST_ENTRIES)
    encloses_buoyancy: dict[str, Literal["yes", "no", "could not tell"]] = Field(default={}, max_length=MOST_ENTRIES)


class VisitForm(Form):
    """When, by whom, anything worth remembering, and what somebody wants to know, in words."""

    on: Day | None = None
    by: str = ""
    note: str = ""
    asked: str = ""


class FindingForm(Form):
    """One sign in one zone. A reading is a level's name or number, a measured quantity, or "could not tell"."""

    zone: str
    sign: str
    side: Literal["port", "starboard"] | None = None
    readings: dict[str, int | float | str] = Field(default={}, max_length=MOST_ENTRIES)
    note: str = ""
    photos: list[str] = []
    on: Day | None = None
    id: str = ""


def _named(said: Any) -> Any:
    """An event by its name alone."""
    return {"event": said} if isinstance(said, str) else said


class HappenedForm(Form):
    """Something that happened or was done: its name alone, or with how hard it was, when, and on which side."""

    event: str
    force: Literal["light", "hard"] | None = None
    when: Literal["today", "this season", "earlier"] | None = None
    on: Day | None = None
    side: Literal["port", "starboard"] | None = None
    said: str = ""


MOST_MINUTES = 1440
"""For a walk round a boat: a day."""


class AskingForm(Form):
    """What was being asked: ``what`` kind of thing, about which ``mark``, and ``ask``, the scale or the fact."""

    what: Literal[
        "describe", "place", "leg", "spot", "mark", "confirm", "side", "story", "which", "whose", "tried", "answer",
        "answers", "marks", "ended",
    ]  # fmt: skip
    mark: str = ""
    ask: str = ""
    text: str = ""
    zone: str = ""
    sign: str = ""
    side: Literal["", "port", "starboard", "both", "unknown"] = ""
    offered: list[str] = Field(default=[], max_length=MOST_ENTRIES)
    sized: Literal["yes", "no"] = "yes"
    sure: Literal["yes", "no"] = "no"


class EditForm(Form):
    """One thing to do to the survey; without ``said`` an answer is taken out."""

    do: Literal[
        "add mark", "remove mark", "set reading", "add photo", "remove photo", "set fact", "name boat", "tell event",
        "drop event", "see on", "set note", "note visit",
    ]  # fmt: skip
    mark: str = ""
    ask: str = ""
    zone: str = ""
    said: str = ""
    finding: FindingForm | None = None
    happened: HappenedForm | None = None


class UndoForm(Form):
    """One step of a conversation taken back: what to do to the survey, and what was being asked."""

    asking: AskingForm
    edits: list[EditForm] = Field(default=[], max_length=MOST_ENTRIES)


class ConversationForm(Form):
    """Where a conversation about the survey was left. Nothing is concluded from it; it may be deleted.

    ``minutes``: those that there are for the walk round her.
    """

    asking: AskingForm
    minutes: int = Field(default=0, ge=0, le=MOST_MINUTES)
    explained: list[str] = Field(default=[], max_length=MOST_ENTRIES)
    undo: list[UndoForm] = Field(default=[], max_length=MOST_ENTRIES)


class SurveyForm(Form):
    """One visit to one boat. ``history``: what its owner answers when asked for a cause, by the cause's name or id.
    ``happened``: what happened to her and was done to her.
    """

    survey: Literal[1] = 1
    boat: BoatForm
    visit: VisitForm = VisitForm()
    history: dict[str, Literal["yes", "no", "unknown"]] = Field(default={}, max_length=MOST_ENTRIES)
    happened: list[Annotated[HappenedForm, BeforeValidator(_named)]] = Field(default=[], max_length=MOST_ENTRIES)
    findings: list[FindingForm] = Field(default=[], max_length=MAX_FINDINGS)
    conversation: ConversationForm | None = None
