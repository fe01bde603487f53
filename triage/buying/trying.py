"""What trying a place is worth to a buyer: the chance that it finds something, times what is lost by not finding it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.buying.offer import Offer
from triage.buying.places import short_name, tells_whose
from triage.buying.repairs import hidden
from triage.conclusions.assessment import Assessment, Job, Suspicion
from triage.knowledge.model import Check, KnowledgeBase, Zone


@dataclass(frozen=True)
class ViewingLine:
    """A place to try, in plain words and in those of the ``trade``, by which checks and for how many
    minutes; ``rank`` 1 tells most for its minutes.

    ``value`` is what is lost on average by not trying it; ``because`` the mark that somebody has seen or suspects
    there; without the checks that are ``left`` the place is not passed. ``first``: it is tried before all
    that is reckoned by its minutes, because nothing is paid before that is known.
    """

    zone: str
    place: str
    trade: str
    both_sides: bool
    checks: tuple[Check, ...]
    minutes: float
    value: float
    rank: int = 0
    because: str = ""
    left: tuple[Check, ...] = ()
    first: bool = False

    def tells(self, check: Check) -> float:
        """What one of the checks that pass the place is worth: its part of the value, less what it misses."""
        return self.value * (1 - check.misses) / (len(self.checks) or 1)


def waited(check: Check) -> float:
    """The minutes that a check takes, with what has to be waited for."""
    return check.minutes + (60 * check.wait.hours if check.wait else 0)


def places_to_try(kb: KnowledgeBase, assessment: Assessment, offer: Offer) -> Iterator[ViewingLine]:
    """The places on which she depends, or that are open, and that nobody has passed, each with what it is worth."""
    return _Places(kb, assessment, offer).lines()


class _Places:
    """Every place of the boat with what trying it is worth."""

    def __init__(self, kb: KnowledgeBase, assessment: Assessment, offer: Offer) -> None:
        self.kb, self.assessment, self.offer = kb, assessment, offer
        self.figures = {key: one.values for key, one in kb.purchase.figures.items()}
        self.open: dict[str, Job | Suspicion] = {}
        self.told = {
            place.zone: job for job in assessment.jobs if job.verdict.roles[1] == "weakened" for place in job.places
        }
        self.open |= self.told
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
        done |= {zone.id for zone in [zone for zone in self.kb.zones.values() if tells_whose(zone)][1:]}
        for zone in self.kb.zones.values():
            main = zone.criticality == "primary" or tells_whose(zone) or zone.id in self.open
            if not main or zone.id in done or not self.has(zone):
                continue
            checks = self.quickest(zone)
            if checks:
                yield self.line(zone, checks)

    def has(self, zone: Zone) -> bool:
        """Whether the boat has the place; what belongs to gear that does not come with her is not there to be tried."""
        gear = [one.id for one in self.kb.purchase.gear.values() if zone.id in one.at]
        if gear and set(gear) <= set(self.offer.missing):
            return False
        return all(self.assessment.facts.get(fact, value) == value for fact, value in zone.only_if.items())

    def quickest(self, zone: Zone) -> tuple[Check, ...]:
        """The checks of the quickest way of passing the place; none where something has to come off."""
        ways = [*zone.passed_by]
        if zone.id not in self.open:
            ways += [way.by for way in zone.passed_alone if way.where.items() <= self.assessment.facts.items()]
        found = [checks for way in ways if (checks := self.checks(zone, way))]
        return min(found, key=lambda checks: sum(map(waited, checks)), default=())

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
        return ViewingLine(
            zone=zone.id,
            place=zone.name,
            trade=short_name(self.kb, zone.id),
            both_sides=zone.sided,
            checks=checks,
            minutes=0.0,
            value=self.chance(zone) * self.loss(zone) * (2 if zone.sided and not open_ else 1),
            left=checks,
            first=tells_whose(zone) or (zone.criticality == "primary" and zone.id in self.told),
            because="" if open_ is None else open_.mark if isinstance(open_, Suspicion) else open_.name,
        )

    def loss(self, zone: Zone) -> float:
        """What is lost by not finding it: the mending, or all of her where it tells whose she is."""
        if tells_whose(zone) and self.offer.asking is not None:
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
