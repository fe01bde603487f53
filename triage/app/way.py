"""A buyer's way, from the advert over the plan and the viewing to the decision, and where he is on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from triage.phrases import screens as words

if TYPE_CHECKING:
    from triage.app.screen import Program
    from triage.app.visiting import Visit

SCREENS = {"advert": "advert", "viewing": "viewing", "decision": "buy"}
"""The steps that have a screen of their own; every other screen of a visit is part of looking at her."""

AT_THE_BOAT = "walk"


@dataclass(frozen=True)
class Step:
    """One step: where it leads, what it is called, and ``sends`` the button of the advert that keeps it first.

    ``stands``: "here", "back" or "on" for the two beside it, else empty.
    """

    to: str
    says: str
    sends: str
    stands: str


def way_of(asked: Program, visit: Visit, screen: str) -> Sequence[Step]:
    """The steps as they stand on this screen; none where nobody thinks of buying her."""
    here = SCREENS.get(screen, AT_THE_BOAT)
    buying = here != AT_THE_BOAT or visit.survey.boat.name == words.FOR_SALE or asked.boats.offer(visit.kept.boat)
    if not buying or asked.kb.purchase.judging is None:
        return ()
    steps = list(words.WAY)
    at = steps.index(here)
    stands = {at - 1: "back", at: "here", at + 1: "on"}
    sends = {"viewing": "viewing", "walk": "walk", "buy": "decide"}
    return [Step(to, words.WAY[to], sends.get(to, ""), stands.get(n, "")) for n, to in enumerate(steps)]
