"""Small pieces that sentences are made of: lists, places, ranges, spans."""

from __future__ import annotations

from collections.abc import Sequence

from triage.conclusions.values import Range
from triage.knowledge.model import Basis, Wait

TAKES_OFF = {"none": "", "partial": ", a cover or hatch has to come off", "off": ", something has to come off"}
"""What has to be taken apart for a check, as the end of a phrase."""


LOAD = {
    "rig": "the pull of mast and sails",
    "crew": "the weight of people",
    "grounding": "knocks from beaches, slips and stones",
    "foil": "the sideways push of the board",
    "steering": "the pull of the rudder",
    "lifting": "the weight of the boat on its supports",
    "pressure": "the push of the water",
    "road": "the bumps of the road",
    "none": "nothing much",
}
"""What a place carries, as a person would say it."""


def listed(parts: Sequence[str]) -> str:
    """The parts as a list in a sentence."""
    return "".join(parts) if len(parts) < 2 else ", ".join(parts[:-1]) + " and " + parts[-1]


def plus_waiting(*waits: Wait | None) -> str:
    """What goes by besides the work, as the end of a phrase: the longest wait, because one waits for all at once."""
    longest = max((wait for wait in waits if wait), key=lambda wait: wait.hours, default=None)
    return f", plus {longest.say}" if longest else ""


def counted(number: int, thing: str) -> str:
    """A number with its thing, in the singular or the plural; ``no`` for none."""
    return f"{number or 'no'} {thing}{'' if number == 1 else 's'}"


FORCE = {"light": "a light touch", "hard": "hard"}
"""How hard an event was, as it stands in brackets after its name."""


def capital(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def uncapital(text: str) -> str:
    """The text with its first letter small."""
    return text[:1].lower() + text[1:]


def at_side(place: str, side: str | None) -> str:
    """A place with its side."""
    return f"{place}, {side}" if side else place


def mark_at(place: str, side: str | None, mark: str) -> str:
    """A mark with its place."""
    return f"{at_side(place, side)}: {mark}"


def between(verdict: Range) -> str:
    """A range of levels: the level where it is settled, both ends where it is not."""
    return verdict.best if verdict.settled else f"between {verdict.best} and {verdict.worst}"


def in_words(verdict: Range) -> str:
    """A range of levels as what something would come to."""
    return verdict.best if verdict.settled else f"still {between(verdict)}"


def basis_words(basis: Basis) -> str:
    """Where a statement comes from; what was carried over from another trade names that trade, and limits what a sum
    makes of them.
    """
    argued = f". {basis.argued.rstrip('.')}" if basis.argued else ""
    if basis.kind != "published":
        return f"{basis.kind}{argued}"
    carried = f" by analogy with {basis.analogy}" if basis.analogy else ""
    return f"published{carried}: {basis.source}, {basis.where}{argued}"


def hours_of(ends: tuple[float, float]) -> str:
    """How long work takes, from the least to the most hours; what is less than one is told in minutes, to the
    nearest five.
    """
    units = ["minutes" if hours < 1 else "hours" for hours in ends]
    least, most = (f"{5 * round(hours * 12)}" if hours < 1 else f"{hours:g}" for hours in ends)
    last = f"{most} {'hour' if ends[1] == 1 else units[1]}"
    if ends[0] == ends[1]:
        return last
    return f"{least} to {last}" if units[0] == units[1] else f"{least} {units[0]} to {last}"


def span(ends: tuple[float, float]) -> str:
    """From the least, if that is more than nothing, to the most."""
    least, most = ends
    if least == most:
        return f"{least:g}"
    return f"{least:g} to {most:g}" if least else f"up to {most:g}"
