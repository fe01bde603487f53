"""What to look at next on this boat: the checks that causes and findings demand, most worthwhile first.

A check is worth the chance that it finds something, times how much the worst it can find would matter, for each minute
of trouble. Everything here hangs on a path: from a finding, or from somebody's word, over a cause or a rule to the
check. What has been answered drops out.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass

from triage.asking.suggest import ANSWERING, PENALTY
from triage.causes.descriptions import Teller
from triage.causes.gravity import worst_verdict
from triage.causes.nodes import cause_node, check_node, mark_node, source_and_suspect
from triage.causes.noisy_or import Effect, Posterior
from triage.causes.rank import Ranked
from triage.causes.referrals import Referral
from triage.conclusions.diagnosis import PlanLine, Reason, Stop
from triage.knowledge.model import NOTHING_SEEN, OTHER_SIDE, SIDES, VERDICT, Check, KnowledgeBase
from triage.knowledge.model.cause import FollowUp, Mark
from triage.survey.model import Finding, Survey


@dataclass(frozen=True, eq=False)
class Demand:
    """Somebody ought to make this check there, on these sides (``""``: a part that is one), for this reason.

    By a cause, with the chance that there is something if it happened; or without one, by a rule that certainly holds.
    """

    zone: str
    check: str
    sides: tuple[str, ...]
    reason: Reason
    findings: tuple[str, ...]
    by: Ranked | None = None
    strength: float = 1.0

    @property
    def weight(self) -> float:
        return self.strength * (self.by.chance if self.by else 1.0)


class Planner:
    """Plans the next checks on one boat. ``weak`` are the places, with their sides, that are structural for certain."""

    def __init__(
        self,
        kb: KnowledgeBase,
        survey: Survey,
        teller: Teller,
        posterior: Posterior[Mark],
        led: Sequence[Referral],
        weak: Collection[tuple[str, str | None]],
    ) -> None:
        self.kb, self.survey, self.teller, self.posterior, self.led = kb, survey, teller, posterior, led
        self.weak = weak
        self.weights = teller.weights

    def plan(self) -> tuple[Stop, ...]:
        """The checks by where one stands and what has to come off; the stop with the most worthwhile check first."""
        demands: dict[tuple[str, str], list[Demand]] = {}
        for demand in (*self._of_causes(), *self._of_findings()):
            if demand.sides and self.survey.boat.has(self.kb.zones[demand.zone]):
                demands.setdefault((demand.zone, demand.check), []).append(demand)
        chances = {key: self._chance(some) for key, some in demands.items()}
        worth = {key: self._worth(some, chances[key]) for key, some in demands.items()}
        order = sorted((key for key in demands if worth[key] > 0), key=lambda key: -round(worth[key], 9))
        stops: dict[tuple[str, str], list[PlanLine]] = {}
        for rank, key in enumerate(order, start=1):
            zone, check = self.kb.zones[key[0]], self.kb.checks[key[1]]
            stops.setdefault((zone.leg, check.dismantling), []).append(self._line(rank, demands[key], chances[key]))
        legs = {leg.id: leg for leg in self.kb.walk}
        return tuple(
            Stop(legs[leg].name, legs[leg].stand, takes_off, sum(line.minutes for line in lines), tuple(lines))
            for (leg, takes_off), lines in stops.items()
        )

    def _of_causes(self) -> Iterator[Demand]:
        for one in self.teller.ranked:
            if self.weights.at_least(one.word, self.weights.follow_from):
                for follow_up in one.cause.follow_ups:
                    yield self._demand(one, follow_up)

    def _demand(self, one: Ranked, follow_up: FollowUp) -> Demand:
        cause, left = one.cause, self.teller.left_by(one)
        steps = cause.name, follow_up.because, self.kb.checks[follow_up.check].name
        nodes = cause_node(cause.id), check_node(follow_up.zone, follow_up.check)
        if left:
            mark, finding = self.teller.strongest(one)
            reason = Reason((self.teller.mark(finding), *steps), (mark_node(*mark), *nodes))
        else:
            reason = Reason((f"{cause.ask} Yes.", *steps), nodes)
        return Demand(
            zone=follow_up.zone,
            check=follow_up.check,
            sides=self._open_sides(follow_up.zone, follow_up.check, self._wanted(follow_up, left)),
            reason=reason,
            findings=tuple(finding.id for finding in left),
            by=one,
            strength=self.weights.strengths[follow_up.strength].chance,
        )

    def _of_findings(self) -> Iterator[Demand]:
        for lead in self.led:
            zone, sign = lead.suspect.zone, lead.suspect.sign
            scale = next((scale for scale in self.kb.about(zone, sign) or self.kb.applicable(zone, sign)), "")
            check = next(iter(self.kb.checks_for(scale, zone)), None)
            if check is None or lead.there:
                continue
            mark = self.teller.mark(lead.finding)
            wanted = {lead.finding.side} if lead.finding.side and self.kb.zones[zone].sided else set(SIDES)
            yield Demand(
                zone=zone,
                check=check.id,
                sides=tuple(s for s in self._open_sides(zone, check.id, wanted) if not self._passed(zone, s)),
                reason=Reason(
                    (mark, lead.rule.because, f"{self.kb.signs[sign].name}?", check.name),
                    source_and_suspect(self.kb, (lead.finding.zone, lead.finding.sign), lead.rule, lead.suspect),
                ),
                findings=(lead.finding.id,),
            )

    def _wanted(self, follow_up: FollowUp, left: Iterable[Finding]) -> set[str]:
        """The sides that a follow-up is about; both when it is not known on which side the marks are."""
        known = {finding.side for finding in left if finding.side}
        if follow_up.side == "both" or not known:
            return set(SIDES)
        return known if follow_up.side == "same" else {OTHER_SIDE[side] for side in known}

    def _open_sides(self, zone: str, check: str, wanted: set[str]) -> tuple[str, ...]:
        """Those of the sides on which the check is still to be made; of a part that is one, ``("",)`` or nothing.

        What somebody has tried drops out, and so does a load on what is weak already.
        """
        reads = self.kb.checks[check].reads
        tried = [f for f in self.survey.findings if f.zone == zone and not f.readings.keys().isdisjoint(reads)]
        sides = [side for side in SIDES if side in wanted] if self.kb.zones[zone].sided else [""]
        done = [f.side for f in tried]
        if self.kb.checks[check].loads:
            done += [side for weak, side in self.weak if weak == zone]
        return tuple(side for side in sides if not any((other or side) == side for other in done))

    def _passed(self, zone: str, side: str) -> bool:
        return any(
            finding.zone == zone and finding.sign == NOTHING_SEEN and (finding.side or side) == side
            for finding in self.survey.findings
        )

    def _chance(self, demands: Sequence[Demand]) -> float:
        """The chance that there is something: the causes as parents, what rules suspect as a leak."""
        strengths = {demand.by.cause.id: demand.strength for demand in demands if demand.by}
        suspected = self.weights.suspected if any(demand.by is None for demand in demands) else 0.0
        return self.posterior.of_effect(Effect(strengths, suspected)) if strengths else suspected

    def _worth(self, demands: Sequence[Demand], chance: float) -> float:
        zone, check = self.kb.zones[demands[0].zone], self.kb.checks[demands[0].check]
        matters = self.weights.gravity[worst_verdict(self.kb, self.survey.boat, zone.id, check.id)]
        matters *= self.weights.criticality[zone.criticality]
        trouble = (self._minutes(check, demands) + ANSWERING) * PENALTY[check.dismantling]
        return chance * (1 - check.misses) * matters / trouble

    def _minutes(self, check: Check, demands: Sequence[Demand]) -> float:
        return check.minutes * len(_sides(demands))

    def _line(self, rank: int, demands: Sequence[Demand], chance: float) -> PlanLine:
        zone, check = self.kb.zones[demands[0].zone], self.kb.checks[demands[0].check]
        first = sorted(demands, key=lambda demand: -demand.weight)
        verdict = worst_verdict(self.kb, self.survey.boat, zone.id, check.id)
        return PlanLine(
            rank=rank,
            zone=zone.id,
            place=zone.name,
            side=_side(demands),
            check=check.id,
            name=check.name,
            question=self.kb.scales[check.reads[0]].asks,
            minutes=self._minutes(check, demands),
            helper=check.helper,
            tools=check.tools,
            steps=check.steps,
            care=check.care,
            likelihood=self.weights.word(chance),
            at_worst=self.kb.level_name(VERDICT, verdict),
            reasons=tuple(dict.fromkeys(demand.reason for demand in first)),
            causes=tuple(dict.fromkeys(demand.by.cause.id for demand in first if demand.by)),
            findings=tuple(dict.fromkeys(id_ for demand in first for id_ in demand.findings)),
        )


def _sides(demands: Sequence[Demand]) -> list[str]:
    return sorted({side for demand in demands for side in demand.sides})


def _side(demands: Sequence[Demand]) -> str | None:
    """The side to look at, "both sides", or None for a part that is one."""
    sides = _sides(demands)
    return "both sides" if len(sides) > 1 else sides[0] or None
