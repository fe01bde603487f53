"""What rules send people to where nobody has looked yet: suspicions, which raise nothing and keep the boat open."""

from __future__ import annotations

from collections.abc import Sequence

from triage.conclusions.assessment import Suspicion
from triage.inference.evaluation import Evaluation
from triage.inference.forward import forward
from triage.knowledge.model import NOTHING_SEEN, VERDICT, KnowledgeBase
from triage.survey.model import Boat, Finding, Survey


def suspicions_of(
    kb: KnowledgeBase, survey: Survey, judged: Sequence[Evaluation], places: dict[str, str]
) -> tuple[Suspicion, ...]:
    """What rules that certainly hold send people to, where nobody has looked yet."""
    found: dict[tuple[str, str | None, str], Suspicion] = {}
    for one in judged:
        for firing in one.lower.firings:
            for suspect in firing.rule.suspects:
                zone = kb.zones[suspect.zone]
                side = one.finding.side if zone.sided else None
                if _looked_at(kb, survey, suspect.zone, suspect.sign, side):
                    continue
                key = (suspect.zone, side, suspect.sign)
                come_from = places[one.finding.id]
                if key in found:
                    earlier = found[key]
                    come = tuple(dict.fromkeys((*earlier.come_from, come_from)))
                    found[key] = Suspicion(**{**vars(earlier), "come_from": come})
                    continue
                sign = kb.signs[suspect.sign]
                worst = unlooked(kb, survey.boat, suspect.zone, suspect.sign, side).upper.level(VERDICT)
                first = next((s for s in kb.about(zone.id, sign.id) or kb.applicable(zone.id, sign.id)), "")
                check = next(iter(kb.checks_for(first, zone.id)), None)
                found[key] = Suspicion(
                    zone=zone.id,
                    place=zone.name,
                    side=side,
                    sign=sign.id,
                    mark=sign.name,
                    picture=sign.picture,
                    because=firing.rule.because,
                    rule=firing.rule.id,
                    come_from=(come_from,),
                    worst=kb.level_name(VERDICT, worst),
                    check=check.name if check else "",
                    how=zone.how_passed,
                )
    return tuple(sorted(found.values(), key=lambda suspicion: kb.zones[suspicion.zone].order))


def _looked_at(kb: KnowledgeBase, survey: Survey, zone: str, sign: str, side: str | None) -> bool:
    """Whether the survey answers a suspicion: the sign was recorded there, the part was passed, or its reading made."""
    for finding in survey.findings:
        if finding.zone != zone or (side and finding.side and side != finding.side):
            continue
        if finding.sign in (sign, NOTHING_SEEN):
            return True
        if any(scale in finding.answered for scale in kb.about(zone, sign)):
            return True
    return False


def unlooked(kb: KnowledgeBase, boat: Boat, zone: str, sign: str, side: str | None) -> Evaluation:
    """A sign nobody has looked for, with nothing answered."""
    return forward(kb, boat, [Finding("suspected", zone, sign, side)])[0]
