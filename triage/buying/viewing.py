"""A plan for a viewing: of all that could be tried on this boat, what tells most within the minutes there are."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from itertools import groupby

from triage.buying.identity import Doubt, number_doubts
from triage.buying.offer import Offer
from triage.buying.places import rules_of_buying, short_name
from triage.buying.trying import ViewingLine, places_to_try
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.purchase import SettingUp

MOST_ASKED = 8
"""Questions to a seller; more would be an insult."""

MOST_OF_MARKS = 3
"""Of these, questions about marks that were seen already."""


@dataclass(frozen=True)
class ViewingStop:
    """What is tried from one place to stand, in the order of the walk, and what has to be done first, once."""

    leg: str
    stand: str
    lines: tuple[ViewingLine, ...]
    setting_up: SettingUp | None = None


@dataclass(frozen=True)
class ViewingPlan:
    """The whole of it. ``left_out`` are main places for which the minutes do not suffice."""

    boat: str
    minutes: float
    used: float
    stops: tuple[ViewingStop, ...]
    left_out: tuple[str, ...]
    bring: tuple[str, ...]
    asks: tuple[str, ...]
    about_marks: tuple[tuple[str, str], ...]
    photos_show: tuple[str, ...]
    photos_hide: tuple[str, ...]
    doubts: tuple[Doubt, ...]
    lives: str = ""


def plan_viewing(
    assessment: Assessment, offer: Offer, kb: KnowledgeBase, minutes: float, this_year: int
) -> ViewingPlan:
    """The plan for so many minutes. ``assessment`` is of what is known already, from photographs or a first look.

    Raises BadRules when the knowledge has no rules of buying.
    """
    rules_of_buying(kb)
    lines = list(places_to_try(kb, assessment, offer))
    known = kb.purchase.viewing
    setting_up = {zone.id: known.setting_up.get(zone.leg) for zone in kb.zones.values()} if known else {}
    chosen, used = _within(lines, minutes, kb.purchase.figures["minutes_again"].values[0], setting_up)
    zones = {line.zone for line in chosen}
    about = tuple(_questions(kb, assessment))[:MOST_OF_MARKS]
    tools = [
        *(known.bring if known else ()),
        *(tool for line in chosen for check in line.checks for tool in check.tools),
    ]
    return ViewingPlan(
        boat=assessment.boat,
        minutes=minutes,
        used=used,
        stops=tuple(_stops(kb, chosen, setting_up)),
        left_out=tuple(
            line.place for line in lines if kb.zones[line.zone].criticality == "primary" and line.zone not in zones
        ),
        bring=tuple(dict.fromkeys(tools)),
        asks=tuple(_asks(kb, offer))[: MOST_ASKED - len(about)],
        about_marks=about,
        photos_show=known.photos_show if known else (),
        photos_hide=known.photos_hide if known else (),
        doubts=tuple(number_doubts(offer, this_year)),
        lives=offer.lives,
    )


def _within(
    lines: Sequence[ViewingLine], minutes: float, again: float, setting_up: Mapping[str, SettingUp | None]
) -> tuple[list[ViewingLine], float]:
    """The lines that tell most for their minutes, one after the other while they fit, and the minutes for all.

    A check that was made elsewhere already takes only the part ``again`` of its minutes: its tools are at hand. What
    has to be done before a place can be reached is done once, and what is then in reach shares it.
    """
    waiting, chosen, made, ready = list(lines), list[ViewingLine](), set[str](), set[SettingUp]()
    used = 0.0
    while True:
        costed = [replace(line, minutes=_minutes(line, made, again)) for line in waiting]
        first = {line.zone: one for line in costed if (one := setting_up.get(line.zone)) and one not in ready}
        sharing: Counter[SettingUp | None] = Counter(first.values())
        before = {zone: one.minutes for zone, one in first.items()}
        worth = {
            line.zone: line.value / (line.minutes + before.get(line.zone, 0) / (sharing[first.get(line.zone)] or 1))
            for line in costed
            if used + line.minutes + before.get(line.zone, 0) <= minutes
        }
        if not worth:
            return chosen, used
        zone = max(worth, key=worth.__getitem__)
        best = next(line for line in costed if line.zone == zone)
        chosen.append(replace(best, rank=len(chosen) + 1))
        waiting = [line for line in waiting if line.zone != zone]
        made |= {check.id for check in best.checks}
        ready |= {first[zone]} if zone in first else set()
        used += best.minutes + before.get(zone, 0)


def _minutes(line: ViewingLine, made: Set[str], again: float) -> float:
    """The minutes for a line when these checks were made elsewhere; a second side is the same check again."""
    each = [check.minutes * (again if check.id in made else 1) for check in line.checks]
    if line.both_sides:
        each += [check.minutes * again for check in line.checks]
    return math.ceil(sum(each))


def _stops(
    kb: KnowledgeBase, chosen: Sequence[ViewingLine], setting_up: Mapping[str, SettingUp | None]
) -> Iterator[ViewingStop]:
    legs = {leg.id: leg for leg in kb.walk}
    in_order = sorted(chosen, key=lambda line: kb.zones[line.zone].order)
    for leg, grouped in groupby(in_order, key=lambda line: kb.zones[line.zone].leg):
        lines = tuple(grouped)
        yield ViewingStop(legs[leg].name, legs[leg].stand, lines, setting_up.get(lines[0].zone))


def _asks(kb: KnowledgeBase, offer: Offer) -> Iterator[str]:
    """What is asked of every seller, as far as the offer does not tell it."""
    known = kb.purchase.viewing
    for ask in known.asks if known else ():
        if not (ask.unless == "number" and offer.number) and not (ask.unless == "ages" and _ages_told(kb, offer)):
            yield ask.say


def _ages_told(kb: KnowledgeBase, offer: Offer) -> bool:
    """Whether every age is known that a buyer is asked for."""
    return all(one.id in offer.ages for one in kb.purchase.gear.values() if one.asks_age)


def _questions(kb: KnowledgeBase, assessment: Assessment) -> Iterator[tuple[str, str]]:
    """For marks that were seen: a test that takes nothing off, and where."""
    seen: set[tuple[str, str]] = set()
    for job in assessment.jobs:
        for check in () if job.verdict.settled else job.checks:
            key = (check.name, short_name(kb, check.zone) if check.zone else "")
            if check.check and check.dismantling == "none" and key not in seen:
                seen.add(key)
                yield key
                break
