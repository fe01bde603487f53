"""One judged finding, with its reasons, its checks and what mending it takes."""

from __future__ import annotations

from dataclasses import replace

from triage.asking.awaiting import Waiting
from triage.asking.settles import suggestions
from triage.concluding.mending import mendings
from triage.concluding.reasons import Explanation
from triage.concluding.working import workings
from triage.conclusions.answers import Answer
from triage.conclusions.assessment import FindingAssessment, Note
from triage.conclusions.ranges import range_between, range_of, reported
from triage.conclusions.repairs import RepairAdvice
from triage.coverage import Coverage
from triage.inference.evaluation import BOUNDS, Evaluation
from triage.inference.whatif import WhatIf
from triage.knowledge.model import AFLOAT, HANDS, NOTHING_SEEN, TOW, VERDICT, KnowledgeBase
from triage.knowledge.model.rule import stated_at
from triage.survey.model import Finding


def assess_finding(coverage: Coverage, judged: Evaluation, whatif: WhatIf) -> FindingAssessment:
    """What one mark means."""
    kb, finding = coverage.kb, judged.finding
    zone, sign = kb.zones[finding.zone], kb.signs[finding.sign]
    explanation, checks = Explanation(kb, judged, whatif), suggestions(kb, judged, whatif)
    verdict = range_of(kb, judged, VERDICT)
    checked = explanation.checked()
    now, at_worst, hands = mendings(kb, whatif.boat, judged)
    return FindingAssessment(
        id=finding.id,
        zone=zone.id,
        place=zone.name,
        trade=zone.trade,
        side=finding.side,
        sign=sign.id,
        mark=_called(kb, finding),
        harmless=sign.harmless,
        note=finding.note,
        photos=finding.photos,
        seen_on=finding.seen_on,
        readings=reported(kb, finding),
        looked_at_only=False,
        passed=False,
        verdict=verdict,
        afloat=_permission(AFLOAT, explanation),
        tow=_permission(TOW, explanation),
        hands=_hands(kb, _answer(HANDS, explanation), hands, at_worst or now),
        why=explanation.chain(judged.lower, VERDICT),
        at_worst=() if verdict.settled else explanation.chain(judged.upper, VERDICT),
        held_up=explanation.held_up(),
        checked=checked,
        presumed=explanation.presumed(),
        pulls_apart=explanation.pulls_apart(),
        would_change=explanation.would_change() if verdict.settled else (),
        checks=checks,
        notes=_notes(judged),
        mending=now,
        mending_at_worst=at_worst,
        estimated=explanation.estimated(checked) if verdict.settled else (),
        workings=workings(kb, finding),
    )


def _called(kb: KnowledgeBase, finding: Finding) -> str:
    """What a mark is called: by its sign, or, where only a test told of it, by what the test found."""
    if finding.sign != NOTHING_SEEN:
        return kb.signs[finding.sign].name
    worse = (one for one in reported(kb, finding) if one.high)
    found = "; ".join(f"{one.name} {one.measured}" if one.measured else one.phrase for one in worse)
    return found[:1].upper() + found[1:]


def _answer(scale: str, explanation: Explanation) -> Answer:
    kb, judged = explanation.kb, explanation.judged
    range_ = range_of(kb, judged, scale)
    rule, because = explanation.because(judged.upper, scale)
    return Answer(range_, rule, because, kb.scales[scale].levels[range_.levels[1]].means, range_.worst)


def _permission(scale: str, explanation: Explanation) -> Answer:
    """May she: with what a better answer waits for."""
    waiting = Waiting(explanation.kb, explanation.judged, explanation.whatif, scale)
    return replace(_answer(scale, explanation), now=waiting.now, awaits=waiting.awaits(), then=waiting.then)


def _hands(kb: KnowledgeBase, asked: Answer, levels: tuple[int, int], repair: RepairAdvice | None) -> Answer:
    """Who can mend it, as the rules ask and the repairs do; what brought the graver end says why."""
    range_ = range_between(kb, HANDS, *levels)
    if repair is None or levels[1] == asked.range.levels[1]:
        return replace(asked, range=range_, now=range_.worst)
    return replace(
        asked,
        range=range_,
        now=range_.worst,
        rule=repair.id,
        because=repair.outline[0],
        means=kb.scales[HANDS].levels[levels[1]].means,
    )


def _notes(judged: Evaluation) -> tuple[Note, ...]:
    """Cautions for what may be, everything else for what is known."""
    found: dict[Note, None] = {}
    for bound in reversed(BOUNDS):
        for firing in judged.end(bound).firings:
            for advice in firing.rule.advises:
                if stated_at(advice.kind) == bound:
                    found[Note(advice.kind, advice.say, advice.weeks)] = None
    return tuple(found)
