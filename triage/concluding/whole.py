"""The answer for the whole boat, from her findings and from what is suspected."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

from triage.causes.diagnose import Diagnosis
from triage.conclusions.assessment import (
    FORMAT,
    Answer,
    Assessment,
    FindingAssessment,
    Note,
    NotLookedAt,
    Suspicion,
    Unlooked,
)
from triage.conclusions.ranges import range_between
from triage.conclusions.values import Range
from triage.coverage import ONE, Coverage
from triage.knowledge.model import AFLOAT, OUTCOMES, TOW, VERDICT, KnowledgeBase
from triage.version import __version__

NEEDED_LOOKS = 2
"""How many suspected places are named beside an answer on sailing or towing."""


def whole_boat(
    coverage: Coverage,
    findings: tuple[FindingAssessment, ...],
    suspicions: tuple[Suspicion, ...],
    diagnosis: Diagnosis,
) -> Assessment:
    """One boat on one visit. ``findings`` stand gravest first."""
    kb, survey = coverage.kb, coverage.survey
    cautions = [n for one in findings for n in (*one.notes, *_hazards(one)) if n.kind == "caution"]
    barred = kb.level_of(AFLOAT, "barred")
    return Assessment(
        format=FORMAT,
        program=__version__,
        rules=kb.digest,
        levels={scale: tuple(level.name for level in kb.scales[scale].levels) for scale in OUTCOMES},
        boat=survey.boat.name,
        length=survey.boat.length,
        facts=dict(survey.boat.facts),
        unknown_facts=tuple(fact for fact in kb.facts if fact not in survey.boat.facts),
        seen_on=survey.seen_on,
        by=survey.by,
        note=survey.note,
        verdict=_whole(kb, VERDICT, [f.verdict for f in findings], [s.verdict for s in suspicions]),
        afloat=_answer(kb, AFLOAT, findings, suspicions, lambda f: f.afloat, lambda s: s.afloat),
        tow=_answer(kb, TOW, findings, suspicions, lambda f: f.tow, lambda s: s.tow),
        gravest=findings[0].id if findings else None,
        keeps_ashore=tuple(one.id for one in findings if one.afloat.range.levels[1] == barred),
        findings=findings,
        suspicions=suspicions,
        not_looked_at=_not_looked_at(coverage),
        notes=tuple(dict.fromkeys(cautions)),
        causes=diagnosis.causes,
        stories=diagnosis.stories,
        plan=diagnosis.plan,
    )


def _whole(kb: KnowledgeBase, scale: str, found: Sequence[Range], suspected: Sequence[Range]) -> Range:
    """The whole boat is at least as grave as her gravest finding, and open while anything is.

    While nobody has looked anywhere, she may be anything.
    """
    if not found:
        return range_between(kb, scale, 0, len(kb.scales[scale].levels) - 1)
    best = max((one.levels[0] for one in found), default=0)
    return range_between(kb, scale, best, max((one.levels[1] for one in (*found, *suspected)), default=0))


def _answer(
    kb: KnowledgeBase,
    scale: str,
    findings: Sequence[FindingAssessment],
    suspicions: Sequence[Suspicion],
    of_finding: Callable[[FindingAssessment], Answer],
    of_suspicion: Callable[[Suspicion], Range],
) -> Answer:
    """The gravest answer of any finding, or of what is suspected, speaks for the boat."""
    answers = [of_finding(one) for one in findings]
    range_ = _whole(kb, scale, [one.range for one in answers], [of_suspicion(one) for one in suspicions])
    if not findings and not suspicions:
        return Answer(range_, "", "", "", ())
    means = kb.scales[scale].levels[range_.levels[1]].means
    gravest = max(answers, key=lambda answer: answer.range.levels[::-1], default=None)
    if gravest is not None and gravest.range.levels[1] == range_.levels[1]:
        return Answer(range_, gravest.rule, gravest.because, means, () if range_.settled else gravest.checks)
    looks = [one for one in suspicions if of_suspicion(one).levels[1] == range_.levels[1]]
    checks = dict.fromkeys(one.check for one in looks if one.check)
    rule, because = (looks[0].rule, looks[0].because) if looks else ("", "")
    return Answer(range_, rule, because, means, tuple(checks)[:NEEDED_LOOKS])


def _hazards(finding: FindingAssessment) -> tuple[Note, ...]:
    """The hazards of the work itself, where an owner may do it."""
    repair = finding.mending
    if repair is None or repair.who_role == "professional":
        return ()
    return tuple(Note("caution", say) for say in repair.hazards)


def _not_looked_at(coverage: Coverage) -> tuple[NotLookedAt, ...]:
    """What the survey says nothing about, leg by leg; neither passed nor found."""
    legs = {leg.id: leg for leg in coverage.kb.walk}
    found = []
    for leg, places in groupby(coverage.not_looked_at(), key=lambda place: place[0].leg):
        unlooked = tuple(
            Unlooked(
                zone=zone.id,
                place=zone.name,
                side=sides[0] if sides != (ONE,) and len(sides) == 1 else None,
                primary=zone.criticality == "primary",
            )
            for zone, sides in places
        )
        found.append(NotLookedAt(legs[leg].name, legs[leg].stand, unlooked))
    return tuple(found)
