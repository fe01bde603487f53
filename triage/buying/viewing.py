"""A plan for a viewing: of all that could be tried on this boat, what tells most within the minutes there are."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from triage.buying.afloat import afloat
from triage.buying.identity import Doubt, number_doubts
from triage.buying.offer import Offer
from triage.buying.places import rules_of_buying
from triage.buying.trying import ViewingLine, places_to_try, waited
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import Check, KnowledgeBase
from triage.knowledge.model.purchase import Afloat, SettingUp

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
    """The whole of it. ``left_out`` are places for which the minutes do not suffice, ``beyond`` those that cannot be
    reached while she is ``afloat``.
    """

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
    afloat: Afloat | None = None
    beyond: tuple[str, ...] = ()


def plan_viewing(
    assessment: Assessment, offer: Offer, kb: KnowledgeBase, minutes: float, this_year: int
) -> ViewingPlan:
    """The plan for so many minutes. ``assessment`` is of what is known already, from photographs or a first look.

    Raises BadRules when the knowledge has no rules of buying.
    """
    rules_of_buying(kb)
    in_water = afloat(kb, offer)
    every = list(places_to_try(kb, assessment, offer))
    lines = [line for line in every if not (in_water and kb.zones[line.zone].leg in in_water.beyond)]
    known = kb.purchase.viewing
    setting_up = {zone.id: known.setting_up.get(zone.leg) for zone in kb.zones.values()} if known else {}
    chooser = _chosen(lines, minutes, kb.purchase.figures["minutes_again"].values[0], setting_up)
    chosen = tuple(chooser.chosen.values())
    zones = {line.zone for line in chosen}
    about = tuple(_questions(kb, assessment))[:MOST_OF_MARKS]
    tools = [
        *(known.bring if known else ()),
        *(tool for line in chosen for check in line.checks for tool in check.tools),
    ]
    return ViewingPlan(
        boat=assessment.boat,
        minutes=minutes,
        used=chooser.used,
        stops=tuple(_stops(kb, chosen, setting_up, in_water)),
        left_out=tuple(line.place for line in lines if line.zone not in zones),
        bring=tuple(dict.fromkeys(tools)),
        asks=tuple(dict.fromkeys(_asks(kb, offer, in_water)))[: MOST_ASKED - len(about)],
        about_marks=about,
        photos_show=known.photos_show if known else (),
        photos_hide=known.photos_hide if known else (),
        doubts=tuple(number_doubts(offer, this_year)),
        lives=offer.lives,
        afloat=in_water,
        beyond=tuple(line.place for line in every if line not in lines),
    )


def _chosen(
    lines: Sequence[ViewingLine], minutes: float, again: float, setting_up: Mapping[str, SettingUp | None]
) -> _Chooser:
    """What is chosen in so many minutes: what tells most for each of them, or the check that tells most of those for
    which no time was left, and then what tells most for each, where that tells more in all.
    """
    by_the_minute, first = (_Chooser(lines, again, setting_up) for _ in range(2))
    for chooser in (by_the_minute, first):
        chooser.begin(minutes)
    by_the_minute.choose(minutes)
    missed = [one for one in by_the_minute.waiting if first.used + first.costs(*one) <= minutes]
    if not missed:
        return by_the_minute
    first.take(*max(missed, key=lambda one: one[0].tells(one[1])))
    first.choose(minutes)
    return max(by_the_minute, first, key=lambda one: one.told)


class _Chooser:
    """What tells most for its minutes, one check after the other while they fit.

    A check that was made elsewhere already takes only the part ``again`` of its minutes: its tools are at hand. What
    has to be done before a place can be reached is done once. Both are shared by all that comes after.
    """

    def __init__(self, lines: Sequence[ViewingLine], again: float, setting_up: Mapping[str, SettingUp | None]) -> None:
        self.waiting = [(line, check) for line in lines for check in line.checks]
        self.again, self.setting_up = again, setting_up
        self.made: set[str] = set()
        self.ready: set[SettingUp] = set()
        self.chosen: dict[str, ViewingLine] = {}
        self.used = self.told = 0.0

    def begin(self, minutes: float) -> None:
        """Take what comes first, as far as it fits."""
        for line, check in [one for one in self.waiting if one[0].first]:
            if self.used + self.costs(line, check) <= minutes:
                self.take(line, check)

    def choose(self, minutes: float) -> None:
        """Take what fits into so many minutes; the place that is chosen first ranks first."""
        while fitting := [one for one in self.waiting if self.used + self.costs(*one) <= minutes]:
            checks = Counter(check.id for _, check in self.waiting)
            reached = Counter(self.first(line) for line, _ in self.waiting)
            self.take(*max(fitting, key=lambda one: one[0].tells(one[1]) / self.shared(one, checks, reached)))

    def shared(
        self, one: tuple[ViewingLine, Check], checks: Mapping[str, int], reached: Mapping[SettingUp | None, int]
    ) -> float:
        """The minutes of a check where what is done once is shared by all that still waits for it."""
        line, check = one
        anew = 0.0 if check.id in self.made else (1 - self.again) * waited(check)
        before = self.before(line)
        return self.costs(line, check) - before - anew + anew / checks[check.id] + before / reached[self.first(line)]

    def take(self, line: ViewingLine, check: Check) -> None:
        minutes = self.minutes(line, check)
        self.used += self.costs(line, check)
        self.told += line.tells(check)
        self.ready |= {one for one in [self.first(line)] if one}
        self.made.add(check.id)
        self.waiting.remove((line, check))
        so_far = self.chosen.get(line.zone) or replace(line, checks=(), rank=len(self.chosen) + 1)
        self.chosen[line.zone] = replace(
            so_far,
            checks=(*so_far.checks, check),
            minutes=so_far.minutes + minutes,
            left=tuple(one for one in so_far.left if one is not check),
        )

    def costs(self, line: ViewingLine, check: Check) -> float:
        return self.minutes(line, check) + self.before(line)

    def minutes(self, line: ViewingLine, check: Check) -> float:
        """With what is waited for; a second side is the same check again."""
        once = waited(check) * (self.again if check.id in self.made else 1)
        return math.ceil(once + (waited(check) * self.again if line.both_sides else 0))

    def before(self, line: ViewingLine) -> float:
        one = self.first(line)
        return one.minutes if one else 0.0

    def first(self, line: ViewingLine) -> SettingUp | None:
        one = self.setting_up.get(line.zone)
        return None if one in self.ready else one


def _stops(
    kb: KnowledgeBase,
    chosen: Sequence[ViewingLine],
    setting_up: Mapping[str, SettingUp | None],
    in_water: Afloat | None,
) -> Iterator[ViewingStop]:
    legs = {leg.id: leg for leg in kb.walk}
    in_order = sorted(chosen, key=lambda line: kb.zones[line.zone].order)
    for leg, grouped in groupby(in_order, key=lambda line: kb.zones[line.zone].leg):
        lines = tuple(grouped)
        stand = in_water.stands.get(leg) if in_water else None
        yield ViewingStop(legs[leg].name, stand or legs[leg].stand, lines, setting_up.get(lines[0].zone))


def _asks(kb: KnowledgeBase, offer: Offer, in_water: Afloat | None) -> Iterator[str]:
    """What is asked of a seller: about where she lies, about what was noticed of the sale, and of every one what the
    offer does not tell.
    """
    known = kb.purchase.viewing
    yield from in_water.asks if in_water else ()
    yield from (ask for id_ in offer.sale if (ask := kb.purchase.sale[id_].asks))
    told = {"number": bool(offer.number), "ages": _ages_told(kb, offer), "afloat": bool(in_water)}
    yield from (ask.say for ask in (known.asks if known else ()) if not told.get(ask.unless))


def _ages_told(kb: KnowledgeBase, offer: Offer) -> bool:
    """Whether every age is known that a buyer is asked for."""
    return all(one.id in offer.ages for one in kb.purchase.gear.values() if one.asks_age)


def _questions(kb: KnowledgeBase, assessment: Assessment) -> Iterator[tuple[str, str]]:
    """For marks that were seen: a test that takes nothing off, and where."""
    seen: set[tuple[str, str]] = set()
    for job in assessment.jobs:
        for check in () if job.verdict.settled else job.checks:
            key = (check.name, kb.zones[check.zone].name if check.zone else "")
            if check.check and check.dismantling == "none" and key not in seen:
                seen.add(key)
                yield key
                break
