"""Edits as what a file can hold, and back: what a conversation keeps so that it can be undone another day."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from triage.dialogue.edits import (
    AddFinding,
    AddPhoto,
    DropEvent,
    Edit,
    NameBoat,
    NoteVisit,
    RemoveFinding,
    RemovePhoto,
    SeeOn,
    SetFact,
    SetNote,
    SetReading,
    TellEvent,
)
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Day
from triage.survey.read import survey_from
from triage.survey.readings import reading_of
from triage.survey.write import event_entries, finding_entries


def plain(edit: Edit) -> dict[str, Any]:
    """The edit as what a file can hold; `edit_from` makes it an edit again."""
    match edit:
        case AddFinding(finding):
            seen = {"on": finding.seen_on.isoformat()} if finding.seen_on else {}
            return {"do": "add mark", "finding": {**finding_entries(finding), **seen}}
        case RemoveFinding(mark):
            return {"do": "remove mark", "mark": mark}
        case SetReading(mark, scale, reading):
            return {"do": "set reading", "mark": mark, "ask": scale, **_said(reading.said if reading else None)}
        case SetNote(mark, note):
            return {"do": "set note", "mark": mark, "said": note}
        case SeeOn(mark, on):
            return {"do": "see on", "mark": mark, **_said(on.isoformat() if on else None)}
        case AddPhoto(mark, name):
            return {"do": "add photo", "mark": mark, "said": name}
        case RemovePhoto(mark, name):
            return {"do": "remove photo", "mark": mark, "said": name}
        case SetFact(fact, value, zone):
            return {"do": "set fact", "ask": fact, **({"zone": zone} if zone else {}), **_said(value)}
        case NameBoat(name):
            return {"do": "name boat", "said": name}
        case NoteVisit(note):
            return {"do": "note visit", "said": note}
        case TellEvent(happened):
            told = {"on": happened.on.isoformat()} if happened.on else {}
            return {"do": "tell event", "happened": {**event_entries(happened), **told}}
        case DropEvent(event):
            return {"do": "drop event", "said": event}


def _said(said: str | None) -> dict[str, str]:
    return {} if said is None else {"said": said}


def edit_from(kb: KnowledgeBase, entries: Mapping[str, Any]) -> Edit:
    """The edit that was written so. Raises KeyError or ValueError for what is none, BadSurvey for an odd finding."""
    said = entries.get("said")
    match entries["do"]:
        case "add mark":
            held = survey_from({"boat": {"name": "the boat"}, "findings": [entries["finding"]]}, kb)
            return AddFinding(held.findings[0])
        case "remove mark":
            return RemoveFinding(entries["mark"])
        case "set reading":
            scale = kb.scales[entries["ask"]]
            return SetReading(entries["mark"], scale.id, None if said is None else reading_of(scale, said))
        case "set note":
            return SetNote(entries["mark"], entries["said"])
        case "see on":
            return SeeOn(entries["mark"], None if said is None else Day.fromisoformat(said))
        case "add photo":
            return AddPhoto(entries["mark"], entries["said"])
        case "remove photo":
            return RemovePhoto(entries["mark"], entries["said"])
        case "set fact":
            return SetFact(entries["ask"], said, entries.get("zone", ""))
        case "name boat":
            return NameBoat(entries["said"])
        case "note visit":
            return NoteVisit(entries["said"])
        case "tell event":
            held = survey_from({"boat": {"name": "the boat"}, "happened": [entries["happened"]]}, kb)
            return TellEvent(held.events[0])
        case "drop event":
            return DropEvent(entries["said"])
    raise ValueError(entries["do"])
