"""The lines of a price: what each is for, what it comes to and how likely, and where that comes from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from triage.buying.amounts import Line, ThreePoint
from triage.buying.offer import Offer, Quote
from triage.buying.places import BuyersView, JobKind, short_name, tells_whose
from triage.buying.repairs import worst_repair
from triage.conclusions.assessment import Job, Suspicion
from triage.conclusions.repairs import RepairAdvice
from triage.conclusions.values import Range
from triage.knowledge.model import HANDS, Basis
from triage.knowledge.model.repair import Repair, Span

Kind = Literal["mending", "risk", "not tried", "missing", "spent", "extra"]

QUOTED = "your quote"
"""How what a line rests on begins, where that is a quote."""

OWN = "your figure"
"""What a line for gear rests on, where its figure is the buyer's own."""

BACK = ("back_face", "backing")
"""The scales that tell of a back which was seen."""


@dataclass(frozen=True)
class PriceLine:
    """One line: what it is for, what it comes to and how likely, and where that comes from.

    ``about`` are ids of findings; ``zones`` where damage is; ``gear`` the id of gear, and ``takes_in`` the damage that
    renewing it mends; ``margin`` is what was added because the back was not, or not wholly, seen. ``otherwise``: what
    is to pay where it does not come.
    ``counted`` says how often the line stands (places that were not tried are told together). ``basis`` and ``note``
    are those of gear, as the rules have them.
    """

    kind: Kind
    name: str
    about: tuple[str, ...]
    amount: ThreePoint
    chance: float = 1.0
    otherwise: ThreePoint | None = None
    cause: str = ""
    margin: float = 0.0
    rests_on: str = ""
    counted: int = 1
    accepted: bool = False
    zones: tuple[str, ...] = ()
    gear: str = ""
    takes_in: tuple[str, ...] = ()
    basis: Basis | None = None
    note: str = ""

    def lines(self) -> Iterator[Line]:
        """As it goes into a sum."""
        for _ in range(self.counted):
            yield Line(self.amount, self.chance, self.otherwise, self.cause)

    @property
    def mean(self) -> float:
        """What it comes to on average."""
        return sum(line.mean for line in self.lines())


@dataclass(frozen=True)
class Unpriced:
    """Damage for which there is no figure: ask for a quote."""

    name: str
    about: tuple[str, ...]


@dataclass(frozen=True)
class Build:
    """The lines, what there is no figure for, and the places of quotes that meet no damage."""

    lines: tuple[PriceLine, ...]
    unpriced: tuple[Unpriced, ...]
    unused_quotes: tuple[str, ...]


def build_up(view: BuyersView, offer: Offer) -> Build:
    """All lines: damage, what is suspected, what nobody tried, and gear."""
    builder = _Builder(view, offer)
    lines = (*builder.jobs(), *builder.suspicions(), *builder.untried(), *builder.gear())
    return Build(lines, tuple(builder.unpriced), tuple(builder.unused_quotes()))


class _Builder:
    """Makes the lines of one offer; ``unpriced`` is what there is no figure for, once they were made."""

    def __init__(self, view: BuyersView, offer: Offer) -> None:
        self.view, self.offer = view, offer
        self.assessment = view.assessment
        self.figures = {key: one.values for key, one in view.kb.purchase.figures.items()}
        self.unpriced: list[Unpriced] = []

    def figure(self, name: str) -> float:
        return self.figures[name][0]

    def ours(self, ends: Sequence[float]) -> ThreePoint:
        """A range of the rules, in the buyer's currency."""
        least, most = ends[0], ends[-1]
        likely = ends[1] if len(ends) == 3 else least + self.figure("likely_part") * (most - least)
        return ThreePoint(least, likely, most).scaled(self.offer.one_unit)

    def jobs(self) -> Iterator[PriceLine]:
        """A line for every damage that is more than looks, or has a quote."""
        for job in self.view.jobs:
            quote = self.view.quote_for(job, self.offer)
            if job.verdict.roles[1] != "looks" or quote:
                line = self.job(job, quote)
                if line is None and not all(tells_whose(self.view.kb.zones[place.zone]) for place in job.places):
                    self.unpriced.append(Unpriced(self.view.name(job), job.findings))
                elif line is not None:
                    yield line

    def unused_quotes(self) -> Iterator[str]:
        """Where the buyer has a quote and no damage is."""
        used = [self.view.quote_for(job, self.offer) for job in self.assessment.jobs]
        yield from (short_name(self.view.kb, one.zone) for one in self.offer.quotes if one not in used)

    def job(self, job: Job, quote: Quote | None) -> PriceLine | None:
        margin = 0.0 if quote and quote.fixed else self.margin(job)
        worst = quote.price if quote else self.amount(job.mending_at_worst or job.mending)
        if worst is None:
            return None
        known = None if job.verdict.roles[0] == "looks" else self.amount(job.mending)
        certain = job.verdict.settled or (known is not None and job.mending_at_worst is None)
        return PriceLine(
            kind="mending" if certain else "risk",
            name=self.view.name(job),
            about=job.findings,
            amount=worst.scaled(1 + margin),
            chance=1.0 if certain else self.chance(job),
            otherwise=None if certain else known,
            cause=self.view.cause_of(job.findings),
            margin=margin,
            rests_on=f"{QUOTED}{f' from {quote.by}' if quote.by else ''}" if quote else "",
            accepted=bool(quote and quote.accepted),
            zones=tuple(place.zone for place in job.places),
        )

    def amount(self, repair: RepairAdvice | None) -> ThreePoint | None:
        """A repairer's figure where a repairer is needed, else materials; the other where one is not known."""
        if repair is None:
            return None
        ends = self.ends(repair, by_hand=repair.who_role != "professional")
        return self.ours(ends) if ends else None

    def ends(self, repair: RepairAdvice | Repair, *, by_hand: bool) -> Span | None:
        return (repair.materials or repair.repairer) if by_hand else (repair.repairer or repair.materials)

    def margin(self, job: Job) -> float:
        """What hidden damage adds, by whether the back was seen wherever there is one."""
        seen = []
        for mark in (self.assessment.finding(id_) for id_ in job.findings):
            told = {reading.scale for reading in mark.readings if reading.low is not None}
            seen += [scale in told for scale in self.view.kb.applicable(mark.zone, mark.sign) if scale in BACK]
        if all(seen):
            return self.figure("margin_back_seen")
        return self.figure("margin_part_seen" if any(seen) else "margin_not_seen")

    def chance(self, job: Job) -> float:
        main = self.view.kind(job) is JobKind.MAIN and job.verdict.roles[1] == "weakened"
        return self.figure("chance_open_main" if main else "chance_open_other")

    def suspicions(self) -> Iterator[PriceLine]:
        """What marks and events make somebody suspect where nobody has looked."""
        for one in self.assessment.suspicions:
            if _may_cost(one.verdict):
                yield PriceLine(
                    kind="risk",
                    name=self.view.suspected(one),
                    about=one.come_from,
                    amount=self.suspected(one),
                    chance=self.figure("chance_suspected"),
                    cause=self.view.cause_of(one.come_from),
                    zones=(one.zone,),
                )

    def suspected(self, one: Suspicion) -> ThreePoint:
        """What the worst of such a mark costs."""
        repair = worst_repair(self.view.kb, one.zone, one.sign)
        professional = self.view.kb.level_of(HANDS, "professional")
        ends = self.ends(repair, by_hand=repair.who < professional) if repair else None
        return self.ours(ends or self.figures["hidden_damage"])

    def untried(self) -> Iterator[PriceLine]:
        """Main places that nobody tried, together."""
        if places := self.view.untried:
            yield PriceLine(
                kind="not tried",
                name="",
                about=(),
                amount=self.ours(self.figures["hidden_damage"]),
                chance=self.figure("chance_not_looked"),
                counted=len(places),
            )

    def gear(self) -> Iterator[PriceLine]:
        """What is missing, spent, or comes with her beyond a complete boat."""
        known = self.view.kb.purchase.gear
        sections: tuple[tuple[Kind, tuple[str, ...]], ...] = (
            ("missing", self.offer.missing),
            ("spent", self.spent()),
            ("extra", self.offer.extra),
        )
        for kind, ids in sections:
            for gear in (known[id_] for id_ in ids):
                own = self.offer.gear_prices.get(gear.id)
                amount = own or self.ours(gear.spent if kind == "spent" else gear.missing)
                yield PriceLine(
                    kind=kind,
                    name=gear.name,
                    about=(),
                    gear=gear.id,
                    amount=amount.turned() if kind == "extra" else amount,
                    rests_on=OWN if own else self.age(gear.id) if kind == "spent" else "",
                    basis=None if own else gear.basis,
                    note=gear.note,
                )

    def spent(self) -> tuple[str, ...]:
        """What the buyer calls spent, and what is so by the age that he was told."""
        known, offer = self.view.kb.purchase.gear, self.offer
        old = [id_ for id_, years in offer.ages.items() if 0 < known[id_].spent_after <= years]
        named = {*offer.spent, *offer.missing, *offer.extra}
        return (*offer.spent, *(id_ for id_ in old if id_ not in named))

    def age(self, gear: str) -> str:
        years = self.offer.ages.get(gear)
        return "" if years is None else f"{years} years old"


def _may_cost(verdict: Range) -> bool:
    return verdict.roles[1] == "weakened"
