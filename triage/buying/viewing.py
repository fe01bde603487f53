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
from triage.buying.repairs import hidden
from triage.buying.standing import NUMBER_AND_PAPERS
from triage.conclusions.assessment import Assessment, Job, Suspicion
from triage.knowledge.model import Check, KnowledgeBase, Zone
from triage.knowledge.model.purchase import SettingUp

MOST_ASKED = 8
"""Questions to a seller; more would be an insult."""

MOST_OF_MARKS = 3
"""Of these, questions about marks that were seen already."""


@dataclass(frozen=True)
class ViewingLine:
    """A place to try, by which checks and for how many minutes; ``rank`` 1 tells most for its minutes.

    ``because`` is the mark that somebody has seen or suspects there.
    """

    zone: str
    place: str
    both_sides: bool
    checks: tuple[Check, ...]
    minutes: float
    value: float
    rank: int = 0
    because: str = ""


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
    planner = _Planner(kb, assessment, offer)
    lines = list(planner.lines())
    known = kb.purchase.viewing
    setting_up = {zone.id: known.setting_up.get(zone.leg) for zone in kb.zones.values()} if known else {}
    chosen, used = _within(lines, minutes, planner.figures["minutes_again"][0], setting_up)
    zones = {line.zone for line in chosen}
    about = tuple(planner.questions())[:MOST_OF_MARKS]
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
        asks=tuple(planner.asks())[: MOST_ASKED - len(about)],
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


class _Planner:
    """Every place of the boat with what trying it is worth."""

    def __init__(self, kb: KnowledgeBase, assessment: Assessment, offer: Offer) -> None:
        self.kb, self.assessment, self.offer = kb, assessment, offer
        self.figures = {key: one.values for key, one in kb.purchase.figures.items()}
        self.open: dict[str, Job | Suspicion] = {}
        for suspicion in assessment.suspicions:
            self.open.setdefault(suspicion.zone, suspicion)
        for job in assessment.jobs:
            for place in () if job.verdict.settled else job.places:
                self.open.setdefault(place.zone, job)
        for job in assessment.jobs:
            for id_ in set(job.findings) & set(offer.only_in_photos):
                self.open.setdefault(assessment.finding(id_).zone, job)

    def lines(self) -> Iterator[ViewingLine]:
        """The places on which she depends, or that are open, not passed yet, to be tried with nothing taken off.

        Number and papers are laid side by side once.
        """
        done = {finding.zone for finding in self.assessment.findings if finding.passed}
        done |= {zone.id for zone in [zone for zone in self.kb.zones.values() if _tells_whose(zone)][1:]}
        for zone in self.kb.zones.values():
            main = zone.criticality == "primary" or _tells_whose(zone) or zone.id in self.open
            if not main or zone.id in done or not self.has(zone):
                continue
            checks = self.quickest(zone)
            if checks:
                yield self.line(zone, checks)

    def has(self, zone: Zone) -> bool:
        return all(self.assessment.facts.get(fact, value) == value for fact, value in zone.only_if.items())

    def quickest(self, zone: Zone) -> tuple[Check, ...]:
        """The checks of the quickest way of passing the place; none where something has to come off."""
        ways = [*zone.passed_by]
        if zone.id not in self.open:
            ways += [way.by for way in zone.passed_alone if way.where.items() <= self.assessment.facts.items()]
        found = [checks for way in ways if (checks := self.checks(zone, way))]
        return min(found, key=lambda checks: sum(check.minutes for check in checks), default=())

    def checks(self, zone: Zone, way: Sequence[str]) -> tuple[Check, ...]:
        chosen: dict[str, Check] = {}
        for scale in way:
            here = [one for one in self.kb.checks_for(scale, zone.id) if one.dismantling != "off"]
            if not here:
                return ()
            check = next((one for one in here if one.id in chosen), here[0])
            chosen[check.id] = check
        return tuple(chosen.values())

    def line(self, zone: Zone, checks: tuple[Check, ...]) -> ViewingLine:
        open_ = self.open.get(zone.id)
        misses = max(check.misses for check in checks)
        return ViewingLine(
            zone=zone.id,
            place=short_name(self.kb, zone.id),
            both_sides=zone.sided,
            checks=checks,
            minutes=0.0,
            value=self.chance(zone) * (1 - misses) * self.loss(zone) * (2 if zone.sided and not open_ else 1),
            because="" if open_ is None else open_.mark if isinstance(open_, Suspicion) else open_.name,
        )

    def loss(self, zone: Zone) -> float:
        """What is lost by not finding it: the mending, or all of her where it tells whose she is."""
        if _tells_whose(zone) and self.offer.asking is not None:
            return self.offer.asking / self.offer.one_unit
        return hidden(self.kb, zone.id)

    def chance(self, zone: Zone) -> float:
        """The chance that trying it finds something that counts; a number that does not match ends a purchase."""
        open_ = self.open.get(zone.id)
        main = zone.criticality == "primary"
        if isinstance(open_, Suspicion):
            return self.figures["chance_suspected"][0]
        if open_ is not None:
            return self.figures["chance_open_main" if main else "chance_open_other"][0]
        return self.figures["chance_not_looked"][0]

    def asks(self) -> Iterator[str]:
        """What is asked of every seller, as far as the offer does not tell it."""
        known = self.kb.purchase.viewing
        for ask in known.asks if known else ():
            if not (ask.unless == "number" and self.offer.number) and not (ask.unless == "ages" and self.ages_told()):
                yield ask.say

    def ages_told(self) -> bool:
        """Whether every age is known that a buyer is asked for."""
        return all(one.id in self.offer.ages for one in self.kb.purchase.gear.values() if one.asks_age)

    def questions(self) -> Iterator[tuple[str, str]]:
        """For marks that were seen: a test that takes nothing off, and where."""
        seen: set[tuple[str, str]] = set()
        for job in self.assessment.jobs:
            for check in () if job.verdict.settled else job.checks:
                key = (check.name, short_name(self.kb, check.zone) if check.zone else "")
                if check.check and check.dismantling == "none" and key not in seen:
                    seen.add(key)
                    yield key
                    break


def _tells_whose(zone: Zone) -> bool:
    return any(NUMBER_AND_PAPERS in way for way in zone.passed_by)
