"""Facts of the boat as they are asked and answered: whether a place encloses buoyancy is one for each place."""

from __future__ import annotations

from dataclasses import replace

from triage.knowledge.model import BUOYANCY
from triage.survey.model import COULD_NOT_TELL, Boat


def fact_of(boat: Boat, fact: str, zone: str = "") -> str | None:
    """What was answered about a fact: its value, "could not tell", or None."""
    where = zone if fact == BUOYANCY else ""
    told = boat.encloses_buoyancy.get(zone) if fact == BUOYANCY else boat.facts.get(fact)
    return told or (COULD_NOT_TELL if (fact, where) in boat.attempted else None)


def with_fact(boat: Boat, fact: str, value: str | None, zone: str) -> Boat:
    """The boat with this answered: a value, "could not tell", or None any more."""
    where = zone if fact == BUOYANCY else ""
    boat = replace(
        boat,
        facts={name: told for name, told in boat.facts.items() if name != fact},
        encloses_buoyancy={
            name: told for name, told in boat.encloses_buoyancy.items() if (BUOYANCY, name) != (fact, where)
        },
        attempted=boat.attempted - {(fact, where)},
    )
    return boat if value is None else boat.knowing(fact, None if value == COULD_NOT_TELL else value, zone)
