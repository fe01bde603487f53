"""From a Survey to the text of a survey file, which `read` turns back into the same Survey."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

from triage.files import write_whole
from triage.knowledge.model import BUOYANCY
from triage.survey.model import COULD_NOT_TELL, Boat, Finding, Happened, Survey


def survey_text(survey: Survey) -> str:
    """The survey as YAML, with every answer as it was given."""
    return yaml.dump(survey_entries(survey), Dumper=_InFull, allow_unicode=True, sort_keys=False, width=110)


def survey_entries(survey: Survey) -> dict[str, Any]:
    """The survey as it stands in a survey file, which `survey_from` turns back into the same Survey."""
    visit = {"on": survey.seen_on, "by": survey.by, "note": survey.note, "asked": survey.asked}
    plain = {
        "survey": 1,
        "boat": _boat(survey.boat),
        "visit": _told(visit),
        "history": dict(survey.history),
        "happened": [event_entries(told) for told in survey.events],
        "findings": [finding_entries(finding) for finding in survey.findings],
        "conversation": dict(survey.conversation),
    }
    return _told(plain)


class _InFull(yaml.SafeDumper):
    """Writes a value that stands twice out twice; the short form with anchors is not read here."""

    def ignore_aliases(self, _: Any) -> bool:
        return True


def write_survey(survey: Survey, file: Path) -> None:
    """Write the survey to a file, whole or not at all."""
    write_whole(file, survey_text(survey))


def _boat(boat: Boat) -> dict[str, Any]:
    facts = dict(boat.facts)
    buoyant = dict(boat.encloses_buoyancy)
    for word, zone in sorted(boat.attempted):
        if word == BUOYANCY:
            buoyant.setdefault(zone, COULD_NOT_TELL)
        else:
            facts.setdefault(word, COULD_NOT_TELL)
    length = "" if boat.length is None else f"{boat.length:.9f}".rstrip("0").rstrip(".") + " m"
    return _told({"name": boat.name, "length": length, "facts": facts, "encloses_buoyancy": buoyant})


def finding_entries(finding: Finding) -> dict[str, Any]:
    """A finding as it stands in a survey file."""
    return _told(
        {
            "id": finding.id,
            "zone": finding.zone,
            "side": finding.side,
            "sign": finding.sign,
            "readings": {scale: reading.said for scale, reading in finding.readings.items()},
            "note": finding.note,
            "photos": list(finding.photos),
            "on": finding.seen_on,
        }
    )


def event_entries(told: Happened) -> dict[str, Any]:
    """An event as it stands in a survey file."""
    return _told(vars(told))


def _told(entries: dict[str, Any]) -> dict[str, Any]:
    """The entries that say something."""
    return {key: value for key, value in entries.items() if value not in ("", None, {}, [])}
