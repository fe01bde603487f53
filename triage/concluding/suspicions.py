"""What is suspected where nobody has looked yet, judged: it raises nothing, and keeps the boat open."""

from __future__ import annotations

from triage.causes.referrals import Suspected
from triage.concluding.permission import of_suspicion
from triage.conclusions.assessment import Suspicion
from triage.conclusions.checks import OpenCheck
from triage.conclusions.ranges import range_of
from triage.inference.forward import forward
from triage.knowledge.model import AFLOAT, TOW, VERDICT, KnowledgeBase
from triage.survey.model import Boat, Finding


def suspicion_of(kb: KnowledgeBase, boat: Boat, one: Suspected) -> Suspicion:
    """The suspicion with what it may come to: such a mark, with nothing answered."""
    zone, sign = kb.zones[one.zone], kb.signs[one.sign]
    side = one.sides[0] if zone.sided and len(one.sides) == 1 else None
    (judged,) = forward(kb, boat, [Finding("suspected", zone.id, sign.id, side)])
    check = _check(kb, one, side)
    can_tell = None if one.attempted or one.after_mending else check
    return Suspicion(
        zone=zone.id,
        place=zone.name,
        side=side,
        sign=sign.id,
        mark=sign.name,
        picture=sign.picture,
        because=one.rule.because,
        rule=one.rule.id,
        come_from=tuple(dict.fromkeys(referral.finding.id for referral in one.referrals)),
        events=tuple(dict.fromkeys(referral.told.event for referral in one.by_events)),
        verdict=range_of(kb, judged, VERDICT),
        afloat=of_suspicion(kb, AFLOAT, range_of(kb, judged, AFLOAT), one.rule, can_tell, sign.name),
        tow=of_suspicion(kb, TOW, range_of(kb, judged, TOW), one.rule, can_tell, sign.name),
        check=check,
        how=zone.how_passed,
    )


def _check(kb: KnowledgeBase, one: Suspected, side: str | None) -> OpenCheck | None:
    check, zone = one.check, kb.zones[one.zone]
    if check is None:
        return None
    return OpenCheck(
        check=check.id,
        name=check.name,
        scale=one.scale,
        question=kb.scales[one.scale].asks,
        zone=zone.id,
        place=zone.name,
        side="both sides" if len(one.sides) > 1 else side,
        minutes=check.minutes * len(one.sides),
        dismantling=check.dismantling,
        helper=check.helper,
        tools=check.tools,
        steps=check.steps,
        care=check.care,
        wait=check.wait,
    )
