"""Where findings and events send people: what rules that certainly hold suspect, and what of it is still open."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from triage.coverage import Coverage
from triage.knowledge.model import VERDICT, Check, Rule, Suspect
from triage.knowledge.model.event import UNKNOWN, EventRule
from triage.survey.model import Finding, Happened

Place = tuple[str, str | None]
"""A zone and a side; None where a part is one, or where nobody has said."""


@dataclass(frozen=True, eq=False)
class Referral:
    """A rule that certainly holds for a finding sends people somewhere.

    ``there`` are the findings that are there; ``unlooked`` the sides on which nobody has looked for it.
    """

    finding: Finding
    rule: Rule
    suspect: Suspect
    there: tuple[Finding, ...]
    unlooked: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class EventReferral:
    """A rule about events sends people somewhere, because of what was told; ``unlooked`` as for a `Referral`."""

    told: Happened
    rule: EventRule
    suspect: Suspect
    unlooked: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Suspected:
    """A sign that is suspected at a place on these sides, by these referrals from findings and those from events, and
    how to look for it.

    ``check`` answers ``scale``. ``attempted``: all that could tell was tried, and nobody could. ``after_mending``: the
    part is weak already, and every check would load it.
    """

    zone: str
    sign: str
    sides: tuple[str, ...]
    referrals: tuple[Referral, ...]
    check: Check | None
    scale: str
    attempted: bool
    after_mending: bool
    by_events: tuple[EventReferral, ...] = ()

    @property
    def rule(self) -> Rule | EventRule:
        """The first rule that sends people there; one about a finding comes first."""
        return self.referrals[0].rule if self.referrals else self.by_events[0].rule


def rules_told(coverage: Coverage) -> Iterator[tuple[Happened, EventRule]]:
    """The rules about events that hold on this boat, with what was told, in the order of the events and the rules."""
    survey = coverage.survey
    for told in survey.events:
        for rule in coverage.kb.happenings.rules:
            if rule.holds(told.event, told.force or UNKNOWN, told.ago(survey.seen_on), survey.boat.facts):
                yield told, rule


def event_referrals_of(coverage: Coverage) -> tuple[EventReferral, ...]:
    """Every referral from an event."""
    return tuple(
        EventReferral(told, rule, suspect, _unlooked(coverage, told.side, suspect))
        for told, rule in rules_told(coverage)
        for suspect in rule.suspects
    )


def referrals_of(coverage: Coverage) -> tuple[Referral, ...]:
    """Every referral, in the order of the findings and their rules."""
    return tuple(
        Referral(
            one.finding,
            firing.rule,
            suspect,
            _there(coverage, one.finding, suspect),
            _unlooked(coverage, one.finding.side, suspect),
        )
        for one in coverage.evaluations
        for firing in one.lower.firings
        for suspect in firing.rule.suspects
    )


def weak_places(coverage: Coverage) -> frozenset[Place]:
    """The places that are at the gravest verdict for certain."""
    gravest = coverage.kb.scales[VERDICT].top
    weak = (one.finding for one in coverage.evaluations if one.lower.level(VERDICT) == gravest)
    return frozenset((finding.zone, finding.side) for finding in weak)


def loads_what_is_weak(check: Check, zone: str, side: str, weak: Collection[Place]) -> bool:
    """Whether the check would load a part that is weak already."""
    return check.loads and any(place == zone and (where or side) == side for place, where in weak)


def suspected(
    coverage: Coverage, referrals: Sequence[Referral], by_events: Sequence[EventReferral] = ()
) -> tuple[Suspected, ...]:
    """What is suspected and still open: one for each sign at a place, in the order of the walk-round."""
    found: dict[tuple[str, str], list[Referral | EventReferral]] = {}
    every: tuple[Referral | EventReferral, ...] = (*referrals, *by_events)
    for referral in every:
        if referral.unlooked:
            found.setdefault((referral.suspect.zone, referral.suspect.sign), []).append(referral)
    weak = weak_places(coverage)
    order = {zone: number for number, zone in enumerate(coverage.kb.zones)}
    return tuple(_suspected(coverage, *key, found[key], weak) for key in sorted(found, key=lambda key: order[key[0]]))


def _suspected(
    coverage: Coverage, zone: str, sign: str, referrals: Sequence[Referral | EventReferral], weak: Collection[Place]
) -> Suspected:
    kb = coverage.kb
    wanted = {side for referral in referrals for side in referral.unlooked}
    sides = tuple(side for side in coverage.sides(zone) if side in wanted)
    statuses = {scale: {coverage.reading(zone, scale, side) for side in sides} for scale in coverage.tells(zone, sign)}
    unanswered = [scale for scale, status in statuses.items() if status != {"answered"}]
    untried = [scale for scale in unanswered if "not made" in statuses[scale]]
    ways = [(scale, check) for scale in untried or unanswered for check in kb.checks_for(scale, zone)]
    bearable = [way for way in ways if not any(loads_what_is_weak(way[1], zone, side, weak) for side in sides)]
    scale, check = next(iter(bearable or ways), ("", None))
    by_findings = tuple(one for one in referrals if isinstance(one, Referral))
    by_events = tuple(one for one in referrals if isinstance(one, EventReferral))
    barred = bool(ways) and not bearable
    return Suspected(zone, sign, sides, by_findings, check, scale, not untried, barred, by_events)


def _unlooked(coverage: Coverage, side: str | None, suspect: Suspect) -> tuple[str, ...]:
    """On the side of what sends there; on both when it is on neither, or nobody has said."""
    if not coverage.survey.boat.has(coverage.kb.zones[suspect.zone]):
        return ()
    sides = coverage.sides(suspect.zone)
    wanted = (side,) if side in sides else sides
    return coverage.unlooked(suspect.zone, suspect.sign, [side for side in wanted if side is not None])


def _there(coverage: Coverage, finding: Finding, suspect: Suspect) -> tuple[Finding, ...]:
    return tuple(
        other
        for other in coverage.survey.findings
        if (other.zone, other.sign) == (suspect.zone, suspect.sign)
        and other is not finding
        and not _opposite(finding, other)
    )


def _opposite(one: Finding, other: Finding) -> bool:
    """Whether the two are known to be on opposite sides."""
    return one.side is not None and other.side is not None and one.side != other.side
