"""From a survey to its assessment."""

from __future__ import annotations

from collections.abc import Sequence

from triage.asking.suggest import suggestions
from triage.causes.diagnose import causes
from triage.concluding.mending import mendings
from triage.concluding.reasons import Explanation, told
from triage.concluding.suspicions import suspicions_of, unlooked
from triage.conclusions.assessment import (
    FORMAT,
    Answer,
    Assessment,
    FindingAssessment,
    Note,
    NotLookedAt,
    Range,
    Suggestion,
    Suspicion,
)
from triage.conclusions.ranges import place_of, range_of
from triage.inference.evaluation import Evaluation
from triage.inference.forward import forward
from triage.inference.whatif import what_ifs
from triage.knowledge.model import AFLOAT, HANDS, NOTHING_SEEN, TOW, VERDICT, KnowledgeBase
from triage.survey.model import Boat, Finding, Survey
from triage.version import __version__


def assess_survey(survey: Survey, kb: KnowledgeBase) -> Assessment:
    """Judge a survey. The same findings give the same assessment in whatever order they were written."""
    survey = survey.in_walk_order(kb)
    judged = forward(kb, survey.boat, survey.findings)
    places = {one.finding.id: _place_and_mark(kb, one.finding) for one in judged}
    found = []
    for one, whatif in zip(judged, what_ifs(kb, survey.boat, survey.findings), strict=True):
        found.append(_finding(kb, survey.boat, one, Explanation(kb, one, whatif, places), suggestions(kb, one, whatif)))
    order = {id_: rank for rank, id_ in enumerate(one.finding.id for one in sorted(judged, key=_gravity))}
    findings = tuple(sorted(found, key=lambda finding: order[finding.id]))
    suspicions = suspicions_of(kb, survey, judged, places)
    return _boat(kb, survey, judged, findings, suspicions)


def _gravity(judged: Evaluation) -> tuple[object, ...]:
    """Gravest first: what she must not do, how bad it is for certain, how bad it may be, then the walk-round."""
    ends = (judged.lower, judged.upper)
    return tuple(-end.level(scale) for scale in (VERDICT, AFLOAT) for end in ends)


def _place_and_mark(kb: KnowledgeBase, finding: Finding) -> str:
    return f"{place_of(kb, finding)}: {kb.signs[finding.sign].name}"


def _finding(
    kb: KnowledgeBase, boat: Boat, judged: Evaluation, explanation: Explanation, checks: tuple[Suggestion, ...]
) -> FindingAssessment:
    finding = judged.finding
    verdict = range_of(kb, judged, VERDICT)
    now, at_worst = mendings(kb, boat, judged)
    passed = finding.sign == NOTHING_SEEN and judged.interval(VERDICT) == (0, 0)
    return FindingAssessment(
        id=finding.id,
        zone=finding.zone,
        place=kb.zones[finding.zone].name,
        trade=kb.zones[finding.zone].trade,
        side=finding.side,
        sign=finding.sign,
        mark=kb.signs[finding.sign].name,
        note=finding.note,
        photos=finding.photos,
        seen_on=finding.seen_on,
        readings=told(kb, finding),
        passed=passed,
        verdict=verdict,
        headline="Looked at and passed" if passed else _headline(verdict, checks),
        summary=_summary(kb, judged, explanation, verdict),
        afloat=_answer(kb, judged, AFLOAT, explanation, checks),
        tow=_answer(kb, judged, TOW, explanation, checks),
        hands=_answer(kb, judged, HANDS, explanation, checks),
        why=explanation.chain(judged.lower, VERDICT),
        at_worst=() if verdict.settled else explanation.chain(judged.upper, VERDICT),
        why_not_milder=explanation.why_not_milder(),
        checked=() if passed else explanation.checked(),
        presumed=explanation.presumed(),
        pulls_apart=explanation.pulls_apart(),
        would_change=explanation.would_change() if verdict.settled and not passed else (),
        checks=checks,
        notes=_notes(judged),
        mending=now,
        mending_at_worst=at_worst,
    )


def _headline(verdict: Range, checks: tuple[Suggestion, ...]) -> str:
    """While open, never milder than "not cleared"."""
    if not verdict.settled:
        return f"Not cleared: between {verdict.best} and {verdict.worst}{_until(checks)}"
    return verdict.best.capitalize()


def _until(checks: tuple[Suggestion, ...]) -> str:
    names = list(dict.fromkeys(f"“{check.name}”" for check in checks))[:2]
    return f", until {' and '.join(names)}" if names else ", and no check here can settle it"


def _summary(kb: KnowledgeBase, judged: Evaluation, explanation: Explanation, verdict: Range) -> str:
    """The main reason in one sentence."""
    if not verdict.settled:
        worst = explanation.chain(judged.upper, VERDICT)
        return f"At worst: {worst[0].because}" if worst else ""
    chain = explanation.chain(judged.lower, VERDICT)
    if chain:
        return chain[0].because
    return kb.signs[judged.finding.sign].harmless or "Nothing that was looked at raises it above looks."


def _answer(
    kb: KnowledgeBase, judged: Evaluation, scale: str, explanation: Explanation, checks: tuple[Suggestion, ...]
) -> Answer:
    _, worst = judged.interval(scale)
    range_ = range_of(kb, judged, scale)
    return Answer(
        range=range_,
        because=explanation.because(judged.upper, scale),
        means=kb.scales[scale].levels[worst].means,
        checks=() if range_.settled else tuple(dict.fromkeys(check.name for check in checks[:2])),
    )


def _notes(judged: Evaluation) -> tuple[Note, ...]:
    """Cautions for what may be, everything else for what is known."""
    found: dict[Note, None] = {}
    for end, cautions in ((judged.upper, True), (judged.lower, False)):
        for firing in end.firings:
            for advice in firing.rule.advises:
                if (advice.kind == "caution") == cautions:
                    found[Note(advice.kind, advice.say)] = None
    return tuple(found)


def _boat(
    kb: KnowledgeBase,
    survey: Survey,
    judged: Sequence[Evaluation],
    findings: tuple[FindingAssessment, ...],
    suspicions: tuple[Suspicion, ...],
) -> Assessment:
    verdict = _whole(kb, judged, suspicions, survey, VERDICT)
    afloat = _whole(kb, judged, suspicions, survey, AFLOAT)
    tow = _whole(kb, judged, suspicions, survey, TOW)
    diagnosis = causes(survey, judged, kb)
    cautions = [note for finding in findings for note in (*finding.notes, *_hazards(finding)) if note.kind == "caution"]
    return Assessment(
        format=FORMAT,
        program=__version__,
        boat=survey.boat.name,
        length=survey.boat.length,
        facts=dict(survey.boat.facts),
        unknown_facts=tuple(fact for fact in kb.facts if fact not in survey.boat.facts),
        seen_on=survey.seen_on,
        by=survey.by,
        note=survey.note,
        verdict=verdict,
        headline=_boat_headline(verdict, findings, suspicions),
        afloat=_boat_answer(kb, afloat, AFLOAT, findings, suspicions),
        tow=_boat_answer(kb, tow, TOW, findings, suspicions),
        gravest=findings[0].id if findings else None,
        keeps_ashore=_keeps_ashore(findings),
        findings=findings,
        suspicions=suspicions,
        not_looked_at=_not_looked_at(kb, survey),
        notes=tuple(dict.fromkeys(cautions)),
        causes=diagnosis.causes,
        stories=diagnosis.stories,
        plan=diagnosis.plan,
    )


def _hazards(finding: FindingAssessment) -> tuple[Note, ...]:
    """What can hurt in mending it, where an owner may do so."""
    repair = finding.mending
    if repair is None or repair.who == "repairer":
        return ()
    return tuple(Note("caution", hazard) for hazard in repair.hazards)


def _whole(
    kb: KnowledgeBase, judged: Sequence[Evaluation], suspicions: tuple[Suspicion, ...], survey: Survey, scale: str
) -> Range:
    """The whole boat is at least as grave as its gravest finding, and open while anything is."""
    best = max((one.lower.level(scale) for one in judged), default=0)
    worst = max((one.upper.level(scale) for one in judged), default=0)
    for suspicion in suspicions:
        blank = unlooked(kb, survey.boat, suspicion.zone, suspicion.sign, suspicion.side)
        worst = max(worst, blank.upper.level(scale))
    return Range(kb.level_name(scale, best), kb.level_name(scale, worst), best == worst)


def _boat_headline(verdict: Range, findings: tuple[FindingAssessment, ...], suspicions: tuple[Suspicion, ...]) -> str:
    if not findings:
        return "Nothing was looked at"
    waiting = sum(not finding.verdict.settled for finding in findings) + len(suspicions)
    if verdict.settled:
        return verdict.best.capitalize() + (f"; {waiting} not cleared yet" if waiting else "")
    more = f"; {waiting} not cleared yet" if waiting > 1 else ""
    return f"Not cleared: between {verdict.best} and {verdict.worst}{more}"


def _boat_answer(
    kb: KnowledgeBase,
    range_: Range,
    scale: str,
    findings: tuple[FindingAssessment, ...],
    suspicions: tuple[Suspicion, ...],
) -> Answer:
    """The gravest answer of any finding speaks for the boat."""
    names = [level.name for level in kb.scales[scale].levels]
    answers = [finding.afloat if scale == AFLOAT else finding.tow for finding in findings]
    gravest = max(answers, key=lambda a: (names.index(a.range.worst), names.index(a.range.best)), default=None)
    means = kb.scales[scale].levels[names.index(range_.worst)].means
    if gravest is not None and gravest.range.worst == range_.worst:
        return Answer(range_, gravest.because, means, () if range_.settled else gravest.checks)
    checks = tuple(dict.fromkeys(suspicion.check for suspicion in suspicions[:2]))
    return Answer(range_, suspicions[0].because if suspicions else "", means, checks)


def _keeps_ashore(findings: tuple[FindingAssessment, ...]) -> tuple[str, ...]:
    """Each finding that keeps her ashore, for certain or until it has been checked."""
    found = []
    for finding in findings:
        if finding.afloat.range.worst == "ashore":
            where = f"{finding.place}, {finding.side}" if finding.side else finding.place
            certain = finding.afloat.range.settled
            until = "" if certain else f" (until checked: {', '.join(finding.afloat.checks) or 'see below'})"
            found.append(f"{where}: {finding.mark}{until}")
    return tuple(found)


def _not_looked_at(kb: KnowledgeBase, survey: Survey) -> tuple[NotLookedAt, ...]:
    """What the survey says nothing about, leg by leg; neither passed nor found."""
    looked = {finding.zone for finding in survey.findings}
    found = []
    for leg in kb.walk:
        left = [kb.zones[zone] for zone in leg.zones if zone not in looked and survey.boat.has(kb.zones[zone])]
        if left:
            primary = tuple(zone.name for zone in left if zone.criticality == "primary")
            found.append(NotLookedAt(leg.name, leg.stand, tuple(zone.name for zone in left), primary))
    return tuple(found)
