"""What is to be shown of a boat: her places and how each stands, and the marks with their numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

Status = Literal["plain", "not_looked", "seen", "tried", "passed", "found"]
"""Plain: of a boat on which nobody has looked or not looked. Seen: looked at, not tried. Tried: in vain."""

Kind = Literal["looks", "watch", "weakened", "open", "plain"]
"""A marker by the role of its verdict, open while it is not settled; plain where it only counts."""

View = Literal["deck", "inside", "under", "rig"]
VIEWS: tuple[View, ...] = ("deck", "inside", "under", "rig")

Spot = tuple[str, str]
"""A zone and its side; the side is empty for a part that is one, and where both sides are meant."""


@dataclass(frozen=True)
class DrawnPlace:
    """How a place stands, the same in words, and where more of it is told (a link; may be empty)."""

    status: Status
    says: str
    href: str = ""


@dataclass(frozen=True)
class Marker:
    """A mark: where it is, the number or sign in its marker, its kind, the same in words, and where it is told."""

    spot: Spot
    text: str
    kind: Kind
    says: str
    href: str = ""


@dataclass(frozen=True)
class Chart:
    """A boat to be drawn. What is not among ``places`` she has not, and it is not drawn.

    ``tapped``: her places are what the page is for, so each link is reached by keyboard and says what it is.
    """

    places: Mapping[Spot, DrawnPlace]
    markers: Sequence[Marker] = ()
    tapped: bool = False

    def place(self, zone: str, side: str) -> DrawnPlace | None:
        """How the place stands on this side; None when she has it not."""
        return self.places.get((zone, side)) or self.places.get((zone, ""))

    def has(self, zone: str) -> bool:
        """Whether she has the place, on one side at least."""
        return any(named == zone for named, _ in self.places)
