"""How a purchase stands: the observed scales of the rules of buying, computed from an assessment and an offer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.buying.identity import GRAVE, number_doubts
from triage.buying.offer import Offer
from triage.buying.places import NUMBER_AND_PAPERS, BuyersView, JobKind, PlaceAt
from triage.buying.price import Sums
from triage.conclusions.assessment import FindingAssessment, Job, Suspicion
from triage.conclusions.checks import OpenCheck
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Reading

A_TENTH_TOO_HEAVY = "mass_gain"
"""The scale of the boat that says how heavy she is."""


@dataclass(frozen=True)
class Evidence:
    """What stands behind a scale: words for it, the findings, and the check that would tell more.

    ``suspected``: nobody has seen it; these findings, or an event, make somebody look for it.
    """

    name: str
    findings: tuple[str, ...] = ()
    check: OpenCheck | None = None
    suspected: bool = False


@dataclass(frozen=True)
class Standing:
    """The readings of the purchase, with what is behind each; a scale that is left out nobody can tell."""

    readings: dict[str, Reading]
    behind: dict[str, tuple[Evidence, ...]]


def standing_of(judging: KnowledgeBase, view: BuyersView, offer: Offer, sums: Sums, this_year: int) -> Standing:
    """Every scale that can be told."""
    maker = _Maker(judging, view, offer, sums, this_year)
    told = {scale: (reading, tuple(behind)) for scale, reading, behind in maker.scales()}
    return Standing(
        {scale: one for scale, (one, _) in told.items()}, {scale: them for scale, (_, them) in told.items()}
    )


Told = tuple[str, Reading, Sequence[Evidence]]


class _Maker:
    def __init__(self, judging: KnowledgeBase, view: BuyersView, offer: Offer, sums: Sums, this_year: int) -> None:
        self.judging, self.view, self.offer, self.sums, self.this_year = judging, view, offer, sums, this_year

    def scales(self) -> Iterator[Told]:
        yield from self.damage()
        yield from self.untried()
        yield self.weight()
        yield from self.road()
        yield self.identity()
        yield from self.sale()
        yield from self.money()

    def count(self, scale: str, things: Sequence[Evidence]) -> Told:
        """As many as there are, up to the worst level."""
        return scale, Reading.at(min(len(things), self.judging.scales[scale].top)), things

    def damage(self) -> Iterator[Told]:
        known = {kind: self.view.known_structural(kind) for kind in (JobKind.MAIN, JobKind.OTHER)}
        accepted = [
            job
            for jobs in known.values()
            for job in jobs
            if (quote := self.view.quote_for(job, self.offer)) and quote.accepted
        ]
        for scale, kind in (("weak_main", JobKind.MAIN), ("weak_other", JobKind.OTHER)):
            yield self.count(scale, [self.of(job) for job in known[kind] if job not in accepted])
        yield self.count("priced", [self.of(job) for job in accepted])
        for scale, kind in (("open_main", JobKind.MAIN), ("open_other", JobKind.OTHER)):
            yield self.count(scale, [self.of(one) for one in self.view.open_structural(kind)])

    def of(self, one: Job | Suspicion) -> Evidence:
        if isinstance(one, Suspicion):
            return Evidence(self.view.suspected(one), one.come_from, one.check, suspected=True)
        return Evidence(self.view.name(one), one.findings, one.checks[0] if one.checks else None)

    def untried(self) -> Iterator[Told]:
        yield self.measured("untried", self.view.untried_share, [Evidence(_place(one)) for one in self.view.untried])

    def measured(self, scale: str, value: float, behind: Sequence[Evidence] = ()) -> Told:
        measure = self.judging.scales[scale].measure
        assert measure is not None, f"{scale} has no limits"
        return scale, Reading.at(measure.level(value), f"{value:.0f} {measure.unit}"), behind

    def weight(self) -> Told:
        """The hull is a tenth too heavy where its scale is at its worst for certain; loose parts do not count."""
        worst = self.view.kb.scales[A_TENTH_TOO_HEAVY].top
        heavy = [
            Evidence(f"{finding.place}: {finding.mark}", (finding.id,))
            for finding in self.view.assessment.findings
            for reading in finding.readings
            if reading.scale == A_TENTH_TOO_HEAVY and reading.low == worst and self.view.is_hull(finding.zone)
        ]
        return self.count("heavy", heavy)

    def road(self) -> Iterator[Told]:
        """What bars her from the road, or may; nothing where nobody has looked at anything."""
        seen = self.view.assessment
        if not (seen.findings or seen.suspicions):
            return
        every: list[Job | Suspicion] = [*self.view.jobs, *seen.suspicions]
        barring = [one for one in every if one.tow.range.roles[1] == "barred"]
        level = 1 if seen.tow.range.roles[1] == "barred" else 0
        yield "road", Reading.at(level), [self.of(one) for one in barring]

    def identity(self) -> Told:
        """The graver of what number and papers were found to say and of what the numbers themselves say."""
        readings = [
            (finding, reading)
            for finding in self.view.assessment.findings
            for reading in finding.readings
            if reading.scale == NUMBER_AND_PAPERS and reading.low is not None and reading.high is not None
        ]
        told = {finding.id for finding, _ in readings}
        odd = [one for one in self.view.assessment.findings if one.id not in told and self.is_of_papers(one)]
        lows, highs = [reading.low or 0 for _, reading in readings], [reading.high or 0 for _, reading in readings]
        if odd or not readings:
            lows.append(1)
            highs.append(self.view.kb.scales[NUMBER_AND_PAPERS].top if odd else 1)
        low, high = max(lows), max(highs)
        doubts = tuple(number_doubts(self.offer, self.this_year))
        least = 2 if set(GRAVE) & set(doubts) else 1 if doubts else 0
        behind = [Evidence(f"{one.place}: {one.mark}", (one.id,)) for one in odd]
        behind += [Evidence(reading.phrase, (finding.id,)) for finding, reading in readings if reading.high]
        behind += [Evidence(doubt) for doubt in doubts]
        return "identity", Reading(max(low, least), max(high, least), "from number and papers"), behind

    def is_of_papers(self, one: FindingAssessment) -> bool:
        """Whether it is a mark on number or papers, which at best is one gap."""
        return bool(self.view.kb.signs[one.sign].least.get(NUMBER_AND_PAPERS))

    def sale(self) -> Iterator[Told]:
        known = [self.view.kb.purchase.sale[id_] for id_ in self.offer.sale]
        for scale in ("refusal", "pattern"):
            yield self.count(scale, [Evidence(one.say) for one in known if one.counts == scale])

    def money(self) -> Iterator[Told]:
        """What depends on figures that the buyer named; nothing on those that he did not."""
        yield from self.mending()
        from_new = self.offer.from_new
        for scale, value in (
            ("asking", None if from_new and from_new.ours else self.sums.worth_less),
            ("over_budget", self.sums.over_budget),
        ):
            if value is not None:
                yield self.measured(scale, value)
        if self.sums.beyond is not None and self.sums.own_beyond is not None:
            rough = self.sums.beyond > max(0, self.sums.own_beyond)
            level = 2 if self.sums.own_beyond > self.bargain() else int(rough)
            yield "beyond_budget", Reading.at(level), ()

    def bargain(self) -> float:
        """By how much the seller may be expected to come down."""
        (part,) = self.view.kb.purchase.figures["bargain"].values
        return part * (self.offer.asking or 0)

    def mending(self) -> Iterator[Told]:
        """Mending against what is asked. Figures that nobody quoted go no further than terms, and ask for a quote."""
        if self.sums.share is None or self.sums.quoted_share is None:
            return
        (scale, every, _), (_, quoted, _) = (
            self.measured("share", value) for value in (self.sums.share, self.sums.quoted_share)
        )
        most = self.judging.scales[scale].top
        unquoted = every.low == most and quoted.low != most
        yield scale, Reading.at(most - 1, every.said) if unquoted else every, ()
        yield "unquoted", Reading.at(int(unquoted)), ()


def _place(one: PlaceAt) -> str:
    return f"{one.place}{f', {one.side}' if one.side else ''}"
