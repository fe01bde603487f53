"""A part that was looked at without a mark: passed, or looked at and not tried. It raises nothing either way."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from triage.asking.effort import WITH_ALL, Resources, at_hand, trouble
from triage.asking.suggest import Option, ranked
from triage.asking.told import open_check
from triage.conclusions.answers import Answer
from triage.conclusions.assessment import FindingAssessment
from triage.conclusions.checks import OpenCheck
from triage.conclusions.ranges import estimated, range_between, reported
from triage.conclusions.reasons import HeldUp
from triage.coverage import Coverage
from triage.inference.evaluate import evaluate
from triage.inference.whatif import WhatIf
from triage.knowledge.model import AFLOAT, HANDS, TOW, VERDICT, KnowledgeBase
from triage.survey.model import Boat, Finding


def assess_look(coverage: Coverage, look: Finding, suspected: Collection[str]) -> FindingAssessment:
    """What one look means. ``suspected`` are the places where something is suspected: no short way passes these."""
    kb = coverage.kb
    zone, sign = kb.zones[look.zone], kb.signs[look.sign]
    passed = coverage.passes(look) if zone.id in suspected else coverage.passes_alone(look)
    return FindingAssessment(
        id=look.id,
        zone=zone.id,
        place=zone.name,
        trade=zone.trade,
        side=look.side,
        sign=sign.id,
        mark=sign.name,
        harmless=sign.harmless,
        note=look.note,
        photos=look.photos,
        seen_on=look.seen_on,
        readings=reported(kb, look),
        looked_at_only=not passed,
        passed=passed,
        verdict=range_between(kb, VERDICT, 0, 0),
        afloat=_nothing_against(kb, AFLOAT),
        tow=_nothing_against(kb, TOW),
        hands=_nothing_against(kb, HANDS),
        why=(),
        at_worst=(),
        held_up=HeldUp("nothing"),
        checked=(),
        presumed=(),
        pulls_apart=(),
        would_change=(),
        checks=() if passed else _checks(coverage, look),
        notes=(),
        estimated=estimated(kb, look.answered) if passed else (),
    )


def _checks(coverage: Coverage, look: Finding) -> tuple[OpenCheck, ...]:
    options = would_pass(coverage.kb, coverage.survey.boat, look)
    return tuple(open_check(coverage.kb, look, option.ask, option.check) for option in options)


def would_pass(kb: KnowledgeBase, boat: Boat, look: Finding, means: Resources = WITH_ALL) -> tuple[Option, ...]:
    """What would still pass the part: the shortest way, or what that leaves open once it was gone."""
    zone = kb.zones[look.zone]
    ways = [*(way.by for way in zone.passed_alone if not way.where), *zone.passed_by]
    if not any(look.answered >= set(way) for way in ways):
        left = [[scale for scale in way if scale not in look.answered] for way in ways]
        possible = [tuple(_option(kb, look, scale, means) for scale in way) for way in left if _untried(kb, look, way)]
        return min(possible, key=lambda way: (len(way), sum(option.effort for option in way)), default=())
    (judged,) = evaluate(kb, boat, [look])
    return ranked(kb, judged, WhatIf(kb, boat, look, [look]), means)


def _untried(kb: KnowledgeBase, look: Finding, way: Sequence[str]) -> bool:
    return all(scale not in look.readings and kb.checks_for(scale, look.zone) for scale in way)


def _option(kb: KnowledgeBase, look: Finding, scale: str, means: Resources) -> Option:
    check = at_hand(kb.checks_for(scale, look.zone), means)
    return Option(scale, check, (0,), trouble(check, check.minutes), 0.0)


def _nothing_against(kb: KnowledgeBase, scale: str) -> Answer:
    range_ = range_between(kb, scale, 0, 0)
    return Answer(range_, "", "", kb.scales[scale].levels[0].means, range_.worst)
