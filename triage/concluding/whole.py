"""The answer for the whole boat, from her findings and from what is suspected."""

from __future__ import annotations

from itertools import groupby

from triage.buying.noticed import without_the_sale
from triage.causes.diagnose import Diagnosis
from triage.concluding.permission import may_she, whole_range
from triage.conclusions.assessment import (
    FORMAT,
    Assessment,
    FindingAssessment,
    Note,
    NotLookedAt,
    Suspicion,
    Unlooked,
)
from triage.coverage import ONE, Coverage
from triage.knowledge.model import AFLOAT, OUTCOMES, TOW, VERDICT
from triage.survey.asked import asked_about
from triage.version import __version__


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
        note=without_the_sale(kb, survey.note),
        verdict=whole_range(kb, VERDICT, [f.verdict for f in findings], [s.verdict for s in suspicions]),
        afloat=may_she(kb, AFLOAT, [f.afloat for f in findings], [s.afloat for s in suspicions]),
        tow=may_she(kb, TOW, [f.tow for f in findings], [s.tow for s in suspicions]),
        gravest=findings[0].id if findings else None,
        keeps_ashore=tuple(one.id for one in findings if one.afloat.range.levels[1] == barred),
        findings=findings,
        suspicions=suspicions,
        not_looked_at=_not_looked_at(coverage),
        notes=tuple(dict.fromkeys(cautions)),
        causes=diagnosis.causes,
        stories=diagnosis.stories,
        plan=diagnosis.plan,
        asked=asked_about(kb, survey.asked),
    )


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
