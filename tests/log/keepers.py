"""What keeps boats, of every kind, and a way to leave it and come back, as a program does that is started again."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Boats
from triage.log.held import HeldBoats
from triage.log.sqlite import SqliteBoats
from triage.survey.model import Boat, Finding, Reading, Survey

DAY = datetime.date(2026, 5, 3)
PLATE = Finding("plate", "chainplate", "fastener_cracks", "port", {"fitting_play": Reading.at(0, "still")})
DECK = Finding("deck", "side_deck", "hairline", "port")


def wagtail(*marks: Finding, on: datetime.date | None = DAY, name: str = "Wagtail") -> Survey:
    return Survey(Boat(name), marks, on)


@dataclass
class Keeper:
    """``boats`` as it runs; ``again`` is what another start of the program finds."""

    boats: Boats
    again: Callable[[], Boats]


def in_a_file(kb: KnowledgeBase, folder: Path) -> Keeper:
    file = folder / "boats.sqlite"
    return Keeper(SqliteBoats(file, kb), lambda: SqliteBoats(file, kb))


def in_memory(kb: KnowledgeBase, _: Path) -> Keeper:
    held = HeldBoats(kb)
    records: dict[str, bytes] = {}

    def again() -> HeldBoats:
        for key, body in held.changed.items():
            records.pop(key, None)
            if body is not None:
                records[key] = body
        held.changed.clear()
        return HeldBoats(kb, records)

    return Keeper(held, again)


KEEPERS = {"sqlite": in_a_file, "held": in_memory}
