"""What to look at next on this boat: the checks that causes and findings demand, most worthwhile first.

A check is worth the chance that it finds something, times how much the worst it can find would matter, for each minute
of trouble. Everything here hangs on a path: from a finding, or from somebody's word, over a cause or a rule to the
check. What is suspected keeps the boat open and stands here until it is closed; what a cause asks for is advice, and
drops out once somebody has tried it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from triage.asking.effort import trouble
from triage.causes.descriptions import Descriptions
from triage.causes.gravity import worst_verdict
from triage.causes.nodes import cause_node, check_node, mark_node, source_and_suspect
from triage.causes.noisy_or import Effect, Posterior
from triage.causes.rank import Ranked
from triage.causes.referrals import Suspected, loads_what_is_weak, rules_told, weak_places
from triage.conclusions.diagnosis import PlanLine, Reason, Stop
from triage.conclusions.ranges import range_between
from triage.coverage import Coverage
from triage.knowledge.model import OTHER_SIDE, VERDICT, Check
from triage.knowledge.model.cause import FollowUp, Mark
from triage.knowledge.model.event import Look
from triage.survey.model import Finding, Happened


@dataclass(frozen=True, eq=False)
class Demand:
    """Somebody ought to make this check there, on these sides (``""``: a part that is one), for this reason.

    By a cause, with the chance that there is something if it happened; because a sign is suspected; or because of what
    was ``told``, as advice.
    """

    zone: str
    check: str
    sides: tuple[str, ...]
    reasons: tuple[Reason, ...]
    findings: tuple[str, ...]
    by: Ranked | None = None
    strength: float = 1.0
    suspected: Suspected | None = None
    told: bool = False

    @property
    def weight(self) -> float:
        """What the demand counts for, from 0 to 1: its strength, times the chance of the cause that makes it."""
        return self.strength * (self.by.chance if self.by else 1.0)


class Planner:
    """Plans the next checks on one boat."""

    def __init__(
        self, coverage: Coverage, described: Descriptions, posterior: Posterior[Mark], open_: Sequence[Suspected]
    ) -> None:
        self.coverage, self.described, self.posterior, self.open = coverage, described, posterior, open_
        self.kb, self.boat, self.weights = coverage.kb, coverage.survey.boat, described.weights
        self.weak = weak_places(coverage)

    def plan(self) -> tuple[Stop, ...]:
        """The checks by where one stands and what has to come off; the stop with the most worthwhile check first."""
        demands: dict[tuple[str, str], list[Demand]] = {}
        for demand in (*self._of_causes(), *self._of_suspicions(), *self._of_events()):
            if demand.sides and self.boat.has(self.kb.zones[demand.zone]):
                demands.setdefault((demand.zone, demand.check), []).append(demand)
        chances = {key: self._chance(some) for key, some in demands.items()}
        worth = {key: self._worth(some, chances[key]) for key, some in demands.items()}
        wanted = [key for key, some in demands.items() if worth[key] > 0 or any(one.suspected for one in some)]
        stops: dict[tuple[str, str], list[PlanLine]] = {}
        for rank, key in enumerate(sorted(wanted, key=lambda key: -round(worth[key], 9)), start=1):
            zone, check = self.kb.zones[key[0]], self.kb.checks[key[1]]
            stops.setdefault((zone.leg, check.dismantling), []).append(self._line(rank, demands[key], chances[key]))
        legs = {leg.id: leg for leg in self.kb.walk}
        return tuple(
            Stop(legs[leg].name, legs[leg].stand, takes_off, sum(line.minutes for line in lines), tuple(lines))
            for (leg, takes_off), lines in stops.items()
        )

    def _of_causes(self) -> Iterator[Demand]:
        for one in self.described.ranked:
            if self.weights.at_least(one.word, self.weights.follow_from):
                for follow_up in one.cause.follow_ups:
                    yield self._demand(one, follow_up)

    def _demand(self, one: Ranked, follow_up: FollowUp) -> Demand:
        cause, left = one.cause, self.described.left_by(one)
        steps = cause.name, follow_up.because, self.kb.checks[follow_up.check].name
        nodes = cause_node(cause.id), check_node(follow_up.zone, follow_up.check)
        if left:
            mark, finding = self.described.strongest(one)
            reason = Reason(finding.id, steps, (mark_node(*mark), *nodes))
        else:
            reason = Reason("", (self._word_for(one), *steps), nodes)
        return Demand(
            zone=follow_up.zone,
            check=follow_up.check,
            sides=self._still_to_make(follow_up, self._wanted(follow_up, left)),
            reasons=(reason,),
            findings=tuple(finding.id for finding in left),
            by=one,
            strength=self.weights.strengths[follow_up.strength].chance,
        )

    def _of_suspicions(self) -> Iterator[Demand]:
        for one in self.open:
            if one.check is not None:
                yield Demand(
                    zone=one.zone,
                    check=one.check.id,
                    sides=one.sides,
                    reasons=tuple(self._reasons(one, one.check)),
                    findings=tuple(dict.fromkeys(referral.finding.id for referral in one.referrals)),
                    suspected=one,
                )

    def _reasons(self, one: Suspected, check: Check) -> Iterator[Reason]:
        looks_for = f"{self.kb.signs[one.sign].name}?", check.name
        for referral in one.referrals:
            mark = (referral.finding.zone, referral.finding.sign)
            nodes = source_and_suspect(self.kb, mark, referral.rule, referral.suspect)
            yield Reason(referral.finding.id, (referral.rule.because, *looks_for), nodes)
        for sent in one.by_events:
            path = (self._event(sent.told), sent.rule.because, *looks_for)
            yield Reason("", path, (mark_node(one.zone, one.sign),))

    def _of_events(self) -> Iterator[Demand]:
        """What rules about events advise, on the side of the event where it was told."""
        for told, rule in rules_told(self.coverage):
            for look in rule.looks:
                sides = self.coverage.sides(look.zone)
                path = (self._event(told), rule.because, self.kb.checks[look.check].name)
                nodes = (check_node(look.zone, look.check),)
                yield Demand(
                    zone=look.zone,
                    check=look.check,
                    sides=self._still_to_make(look, (told.side,) if told.side in sides else sides),
                    reasons=(Reason("", path, nodes),),
                    findings=(),
                    strength=self.weights.suspected,
                    told=True,
                )

    def _event(self, told: Happened) -> str:
        return self.kb.happenings.events[told.event].sentence

    def _word_for(self, one: Ranked) -> str:
        """Somebody's word for a cause of which nothing was found: the event that was told, or a yes."""
        by = self.described.evidence.by_events.get(one.cause.id, ())
        return self.kb.happenings.events[by[0]].sentence if by else f"{one.cause.ask} Yes."

    def _wanted(self, follow_up: FollowUp, left: Iterable[Finding]) -> tuple[str, ...]:
        """The sides that a follow-up is about; both when it is not known on which side the marks are."""
        sides = self.coverage.sides(follow_up.zone)
        known = {finding.side for finding in left if finding.side}
        if follow_up.side == "both" or not known or len(sides) == 1:
            return sides
        return tuple(side for side in sides if (side if follow_up.side == "same" else OTHER_SIDE[side]) in known)

    def _still_to_make(self, follow_up: FollowUp | Look, wanted: tuple[str, ...]) -> tuple[str, ...]:
        """Those of the sides on which nobody has made or tried the check, nor would it load what is weak already."""
        zone, check = follow_up.zone, self.kb.checks[follow_up.check]
        return tuple(
            side
            for side in wanted
            if self.coverage.check(zone, check.id, side) in ("not made", "partly")
            and not loads_what_is_weak(check, zone, side, self.weak)
        )

    def _chance(self, demands: Sequence[Demand]) -> float:
        """The chance that there is something: the causes as parents, what rules suspect as a leak."""
        strengths = {demand.by.cause.id: demand.strength for demand in demands if demand.by}
        suspected = self.weights.suspected if any(demand.suspected or demand.told for demand in demands) else 0.0
        return self.posterior.of_effect(Effect(strengths, suspected)) if strengths else suspected

    def _worth(self, demands: Sequence[Demand], chance: float) -> float:
        zone, check = self.kb.zones[demands[0].zone], self.kb.checks[demands[0].check]
        matters = self.weights.gravity[worst_verdict(self.kb, self.boat, zone.id, check.id)]
        matters *= self.weights.criticality[zone.criticality]
        return chance * (1 - check.misses) * matters / trouble(check, self._minutes(check, demands))

    def _minutes(self, check: Check, demands: Sequence[Demand]) -> float:
        return check.minutes * len(_sides(demands))

    def _line(self, rank: int, demands: Sequence[Demand], chance: float) -> PlanLine:
        zone, check = self.kb.zones[demands[0].zone], self.kb.checks[demands[0].check]
        first = sorted(demands, key=lambda demand: -demand.weight)
        hunted = [demand.suspected for demand in demands if demand.suspected]
        scale = hunted[0].scale if hunted else check.reads[0]
        verdict = worst_verdict(self.kb, self.boat, zone.id, check.id)
        return PlanLine(
            check=check.id,
            name=check.name,
            scale=scale,
            question=self.kb.scales[scale].asks,
            zone=zone.id,
            place=zone.name,
            side=_side(demands),
            minutes=self._minutes(check, demands),
            dismantling=check.dismantling,
            helper=check.helper,
            tools=check.tools,
            steps=check.steps,
            care=check.care,
            wait=check.wait,
            rank=rank,
            likelihood=self.weights.word(chance),
            at_worst=range_between(self.kb, VERDICT, verdict, verdict),
            reasons=tuple(dict.fromkeys(reason for demand in first for reason in demand.reasons)),
            causes=tuple(dict.fromkeys(demand.by.cause.id for demand in first if demand.by)),
            findings=tuple(dict.fromkeys(id_ for demand in first for id_ in demand.findings)),
            suspects=tuple(one.sign for one in hunted),
            attempted=bool(hunted) and all(one.attempted for one in hunted),
            after_mending=any(one.after_mending for one in hunted),
        )


def _sides(demands: Sequence[Demand]) -> list[str]:
    return sorted({side for demand in demands for side in demand.sides})


def _side(demands: Sequence[Demand]) -> str | None:
    """The side to look at, "both sides", or None for a part that is one."""
    sides = _sides(demands)
    return "both sides" if len(sides) > 1 else sides[0] or None
