"""An assessment as a buyer sees it: which damage is where main loads enter, what is open, what nobody tried."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from functools import cached_property

from triage.buying.offer import Offer, Quote
from triage.buying.repairs import hidden
from triage.conclusions.assessment import Assessment, FindingAssessment, Job, Suspicion
from triage.errors import BadRules, Place, Problem
from triage.knowledge.model import KnowledgeBase, Zone

NUMBER_AND_PAPERS = "id_match"
"""The scale of the boat that says whether her papers agree."""


def rules_of_buying(kb: KnowledgeBase) -> KnowledgeBase:
    """The small knowledge base by which a purchase is judged. Raises BadRules where these rules hold none."""
    if kb.purchase.judging is None:
        raise BadRules([Problem(Place("the rules"), "hold nothing about buying", "Add the folder buying/ to them.")])
    return kb.purchase.judging


class JobKind(Enum):
    """Where a damage is."""

    MAIN = "where main loads enter"
    OTHER = "elsewhere"
    ROAD = "on what carries her by road"


@dataclass(frozen=True)
class PlaceAt:
    """A place, or one side of it."""

    zone: str
    place: str
    side: str | None


@dataclass(frozen=True, eq=False)
class BuyersView:
    """One assessment, read for a purchase. ``photographed`` are ids of marks that were seen in photographs alone."""

    kb: KnowledgeBase
    assessment: Assessment
    photographed: tuple[str, ...] = ()

    @cached_property
    def jobs(self) -> tuple[Job, ...]:
        """The damages, each once: one told without its side and seen at a side since is not a second one."""
        return tuple(
            one for one in self.assessment.jobs if not any(self._tells_again(one, it) for it in self.seen_at_a_side)
        )

    @cached_property
    def seen_at_a_side(self) -> tuple[Job, ...]:
        """The damages of which it is known at which side they are."""
        return tuple(job for job in self.assessment.jobs if job.side)

    def _tells_again(self, one: Job, other: Job) -> bool:
        """Whether every mark of a damage whose side nobody told is one of the other's, and makes it no graver."""
        marks, others = (
            {(mark.zone, mark.sign) for mark in map(self.assessment.finding, job.findings)} for job in (one, other)
        )
        sideless = all(place.side is None and self.kb.zones[place.zone].sided for place in one.places)
        milder = all(end <= its for end, its in zip(one.verdict.levels, other.verdict.levels, strict=True))
        return sideless and marks <= others and milder

    def kind(self, job: Job) -> JobKind:
        """Where a damage is, by the place that matters most."""
        return min((self._kind_of(place.zone) for place in job.places), key=list(JobKind).index)

    def _kind_of(self, zone: str) -> JobKind:
        known = self.kb.zones[zone]
        if known.load == "road":
            return JobKind.ROAD
        return JobKind.MAIN if known.criticality == "primary" else JobKind.OTHER

    def known_structural(self, kind: JobKind) -> tuple[Job, ...]:
        """The damages there that are structural for certain."""
        return tuple(job for job in self.jobs if job.verdict.roles[0] == "weakened" and self.kind(job) is kind)

    def open_structural(self, kind: JobKind) -> tuple[Job | Suspicion, ...]:
        """What may be structural there and is not known to be: marks, and what they make suspect elsewhere."""
        jobs = [
            job
            for job in self.jobs
            if job.verdict.roles[1] == "weakened" != job.verdict.roles[0] and self.kind(job) is kind
        ]
        suspected = [
            one
            for one in self.assessment.suspicions
            if one.verdict.roles[1] == "weakened" and self._kind_of(one.zone) is kind
        ]
        return (*jobs, *suspected)

    @cached_property
    def untried(self) -> tuple[PlaceAt, ...]:
        """Those of the places that nobody tried where nothing is suspected; elsewhere the suspicion counts."""
        suspected = {one.zone for one in self.assessment.suspicions}
        return tuple(one for one in self.not_tried if one.zone not in suspected)

    @cached_property
    def not_tried(self) -> tuple[PlaceAt, ...]:
        """Main places at which nobody looked, or looked without trying, or saw a mark in a photograph alone; where such
        a mark may be structural, that counts. What may be dearest there comes first.
        """
        unlooked = [
            PlaceAt(one.zone, self.kb.zones[one.zone].name, one.side)
            for leg in self.assessment.not_looked_at
            for one in leg.places
        ]
        only_seen = [
            PlaceAt(one.zone, self.kb.zones[one.zone].name, one.side)
            for one in self.assessment.findings
            if one.looked_at_only
        ]
        in_photos = [
            PlaceAt(one.zone, self.kb.zones[one.zone].name, one.side)
            for one in self.only_in_photos
            if one.verdict.roles[1] != "weakened"
        ]
        both = sorted({*unlooked, *only_seen, *in_photos}, key=self._by_weight)
        return tuple(one for one in both if self._kind_of(one.zone) is JobKind.MAIN)

    def _by_weight(self, one: PlaceAt) -> tuple[float, int, str]:
        return -hidden(self.kb, one.zone), self.kb.zones[one.zone].order, one.side or ""

    @property
    def only_in_photos(self) -> tuple[FindingAssessment, ...]:
        """The marks that nobody has seen but in a photograph."""
        return tuple(one for one in self.assessment.findings if one.id in self.photographed)

    @cached_property
    def untried_share(self) -> float:
        """The part of the main places that nobody tried, in percent."""
        main = [
            zone
            for zone in self.kb.zones.values()
            if self._kind_of(zone.id) is JobKind.MAIN
            and all(self.assessment.facts.get(fact, value) == value for fact, value in zone.only_if.items())
        ]
        halves = sum(1 if one.side or not self.kb.zones[one.zone].sided else 2 for one in self.untried)
        return 100 * halves / (sum(2 if zone.sided else 1 for zone in main) or 1)

    def is_hull(self, zone: str) -> bool:
        """Whether the place is a part of the hull, and nothing that can be taken off and weighed by itself."""
        return "laid_glass" in self.kb.zones[zone].groups

    def quote_for(self, job: Job, offer: Offer) -> Quote | None:
        """The buyer's own figure for a damage."""
        for quote in offer.quotes:
            for place in job.places:
                if place.zone == quote.zone and (quote.side is None or place.side in (None, quote.side)):
                    return quote
        return None

    def cause_of(self, findings: Sequence[str]) -> str:
        """The likeliest cause that may have left one of these marks; lines with the same share its throw."""
        for cause in self.assessment.causes:
            if cause.worth_telling and cause.answer != "no" and set(findings) & set(cause.findings):
                return cause.id
        return ""

    def name(self, job: Job) -> str:
        """What a damage is called: the mark with its place."""
        first = self.assessment.finding(job.findings[0])
        return self._at(first.zone, first.side, first.mark)

    def suspected(self, one: Suspicion) -> str:
        """What is suspected, with its place."""
        return self._at(one.zone, one.side, one.mark)

    def _at(self, zone: str, side: str | None, mark: str) -> str:
        return f"{short_name(self.kb, zone)}{f', {side}' if side else ''}: {mark[:1].lower()}{mark[1:]}"


def tells_whose(zone: Zone) -> bool:
    """Whether a place tells whose boat she is, and is nothing to mend."""
    return any(NUMBER_AND_PAPERS in way for way in zone.passed_by)


def short_name(kb: KnowledgeBase, zone: str) -> str:
    """A place by the first of its trade names, which are short; a screen has little room."""
    known = kb.zones[zone]
    return (known.trade if " or " in known.trade else known.trade.split(",")[0].strip()) or known.name
