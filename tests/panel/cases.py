"""The panel's cases: what somebody tells, the survey of it, and what people of the trade say to that."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

HERE = Path(__file__).resolve().parent
SETS = ("stories", "blind", "one_judge", "second_judge", "third_judge", "fourth_judge")
"""The folders: all but `blind` have been worked towards, `blind` never."""

VERDICTS = ("cosmetic", "monitor", "structural")
AFLOAT = ("sail", "with_limits", "without_part", "ashore")
TOW = ("tow", "do_not_tow")
HANDS = ("nothing", "owner", "handy_owner", "repairer")
NOT_YET = "not_yet"
BUYER = (("go",), ("lower_price", "not_until_repaired"), ("not_until_checked",), ("walk_away",))
"""The panel's words for buying, by the level of our decision that means the same."""


@dataclass(frozen=True)
class Line:
    """What the panel says of one mark among several, by the name that findings give as their ``line``."""

    name: str
    verdict: str
    afloat: str | None


@dataclass(frozen=True)
class Expected:
    """What the panel says; `accept` and its like are what it would not call wrong either.

    ``decisive`` are the scales that would settle it soonest, ``decisive_at`` the places (none: anywhere). ``mentions``
    are ideas that an answer has to hold.
    """

    floor: str
    ceiling: str
    verdict: str
    accept: tuple[str, ...]
    no_defect: bool
    afloat: str
    afloat_accept: tuple[str, ...]
    tow: str | None
    hands: str | None
    hands_accept: tuple[str, ...]
    decisive: tuple[str, ...]
    decisive_at: tuple[str, ...]
    lines: tuple[Line, ...]
    buyer: str | None
    mentions: tuple[str, ...]

    @property
    def settled(self) -> bool:
        """Nothing more has to be known."""
        return self.floor == self.ceiling


@dataclass(frozen=True)
class Case:
    """One case. ``findings`` are as they were written; a finding that `carries` brings the expected verdict."""

    id: str
    group: str
    persona: str
    story: str
    boat: Mapping[str, str]
    history: Mapping[str, str]
    happened: tuple[Any, ...]
    findings: tuple[Mapping[str, Any], ...]
    expected: Expected

    @property
    def carrying(self) -> frozenset[str]:
        """The ids of the findings that bring the expected verdict."""
        return frozenset(one["id"] for one in self.findings if one["carries"])

    def surveys(self) -> tuple[dict[str, Any], ...]:
        """The case in the form of survey files: one, or one for each boat where it tells of several."""
        boats = dict.fromkeys(one.get("survey", "") for one in self.findings)
        return tuple(self._survey(boat) for boat in boats)

    def _survey(self, boat: str) -> dict[str, Any]:
        mine = [one for one in self.findings if one.get("survey", "") == boat]
        return {
            "survey": 1,
            "boat": {"name": f"{self.id}{boat}", "facts": dict(self.boat)},
            "history": dict(self.history),
            "happened": list(self.happened),
            "findings": [{key: one[key] for key in SAID if key in one} for one in mine],
        }


SAID = ("id", "zone", "side", "sign", "readings")
"""What a survey file is told of a finding."""


def cases(which: str) -> tuple[Case, ...]:
    """The cases of one of `SETS`, by id."""
    files = sorted((HERE / which).glob("*.yaml"))
    found = [_case(one) for file in files for one in yaml.safe_load(file.read_text(encoding="utf-8"))]
    return tuple(sorted(found, key=lambda one: one.id))


def _case(said: Mapping[str, Any]) -> Case:
    return Case(
        id=said["id"],
        group=said["group"],
        persona=said["persona"],
        story=said["story"],
        boat=said["boat"],
        history=said["history"],
        happened=tuple(said.get("happened", ())),
        findings=tuple(said["findings"]),
        expected=_expected(said["expected"]),
    )


def _expected(said: Mapping[str, Any]) -> Expected:
    return Expected(
        floor=said["floor"],
        ceiling=said["ceiling"],
        verdict=said["verdict"],
        accept=tuple(said["accept"]),
        no_defect=said["no_defect"],
        afloat=said["afloat"],
        afloat_accept=tuple(said["afloat_accept"]),
        tow=said["tow"],
        hands=said["hands"],
        hands_accept=tuple(said["hands_accept"]),
        decisive=tuple(said["decisive"]),
        decisive_at=tuple(said.get("decisive_at", ())),
        lines=tuple(Line(name, one["verdict"], one.get("afloat")) for name, one in said.get("lines", {}).items()),
        buyer=said.get("buyer"),
        mentions=tuple(said.get("must_mention", ())),
    )
