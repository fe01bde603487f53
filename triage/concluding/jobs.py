"""Marks that are one damage become one job: told once, mended once, paid for once."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence, Set
from dataclasses import replace

from triage.causes.referrals import Referral
from triage.concluding.mending import advice
from triage.concluding.permission import may_she
from triage.conclusions.answers import Answer
from triage.conclusions.assessment import FindingAssessment, Job, JobPlace, Suspicion
from triage.conclusions.checks import OpenCheck, Outcome
from triage.conclusions.diagnosis import CauseHypothesis
from triage.conclusions.ranges import range_between
from triage.conclusions.reasons import Step
from triage.conclusions.repairs import RepairAdvice
from triage.conclusions.values import Range
from triage.knowledge.model import AFLOAT, HANDS, NOTHING_SEEN, TOW, VERDICT, KnowledgeBase
from triage.knowledge.model.repair import Repair


def jobs_of(
    kb: KnowledgeBase,
    findings: Sequence[FindingAssessment],
    suspicions: Sequence[Suspicion],
    causes: Sequence[CauseHypothesis],
    referrals: Sequence[Referral],
) -> tuple[Job, ...]:
    """The jobs of one boat, in the order of ``findings``, which stand gravest first and alike ones as in the walk.

    A job grows from its gravest mark: by marks that touch one of its marks, came of the same, and leave one repair that
    takes in all the others, for what is known and for the worst it may be.
    """
    joining = _Joining(kb, causes, referrals)
    left = [one for one in findings if not (one.passed or one.looked_at_only)]
    jobs = []
    while left:
        marks = joining.grown_from(left[0], left[1:])
        left = [one for one in left if one not in marks]
        jobs.append(_Making(kb, marks).job(suspicions))
    return tuple(jobs)


class _Joining:
    """Which marks are one damage."""

    def __init__(self, kb: KnowledgeBase, causes: Sequence[CauseHypothesis], referrals: Sequence[Referral]) -> None:
        self.kb = kb
        self.repairs = {repair.id: repair for repair in kb.mending.repairs}
        self.of_one_cause = [
            frozenset(cause.findings) for cause in causes if cause.worth_telling and cause.answer != "no"
        ]
        self.led = {(one.finding.id, one.suspect.zone) for one in referrals}
        self.led |= {
            (id_, follow_up.zone)
            for cause in causes
            if cause.worth_telling and cause.answer != "no"
            for follow_up in kb.causation.causes[cause.id].follow_ups
            for id_ in cause.findings
        }

    def grown_from(self, first: FindingAssessment, others: Sequence[FindingAssessment]) -> list[FindingAssessment]:
        """The mark with all that are one damage with it."""
        grown = self._grown(first, others)
        if {"port", "starboard"} <= {one.side for one in grown}:  # nobody can say which side it belongs to
            grown = self._grown(first, [one for one in others if one.side == first.side])
        return grown

    def _grown(self, first: FindingAssessment, others: Sequence[FindingAssessment]) -> list[FindingAssessment]:
        grown, waiting = [first], list(others)
        while True:
            for one in waiting:
                if any(self._one_damage(one, mark) for mark in grown) and self._one_repair([*grown, one]):
                    break
            else:
                return [mark for mark in (first, *others) if mark in grown]
            grown.append(one)
            waiting.remove(one)

    def _one_damage(self, one: FindingAssessment, other: FindingAssessment) -> bool:
        return self._touch(one, other) and self._came_of_the_same(one, other)

    def _touch(self, one: FindingAssessment, other: FindingAssessment) -> bool:
        """The same place, or places beside each other, and not on two sides; an unknown side may be either."""
        if NOTHING_SEEN in (one.sign, other.sign):
            return False
        both_sided = self.kb.zones[one.zone].sided and self.kb.zones[other.zone].sided
        if both_sided and one.side != other.side:
            return False
        return one.zone == other.zone or other.zone in self.kb.zones[one.zone].neighbours

    def _came_of_the_same(self, one: FindingAssessment, other: FindingAssessment) -> bool:
        """One cause may have left both, or one of them sends people to the other's place or rests on the other."""
        pair = {one.id, other.id}
        if any(pair <= left for left in self.of_one_cause):
            return True
        if (one.id, other.zone) in self.led or (other.id, one.zone) in self.led:
            return True
        return other.id in _rests_on(one) or one.id in _rests_on(other)

    def _one_repair(self, marks: Sequence[FindingAssessment]) -> bool:
        """At the worst each needs a repair; at both ends one of the repairs takes in all the others."""
        known = [self.repairs[one.mending.id] for one in marks if one.mending]
        at_worst = [self.repairs[repair.id] for one in marks if (repair := _at_worst(one))]
        return len(at_worst) == len(marks) and all(not some or widest(some) for some in (known, at_worst))


def widest(repairs: Collection[Repair]) -> Repair | None:
    """The repair among these that takes in all the others, if one does."""
    return next((one for one in repairs if all(one.takes_in(other) for other in repairs)), None)


def _at_worst(one: FindingAssessment) -> RepairAdvice | None:
    return one.mending_at_worst or one.mending


def _rests_on(one: FindingAssessment) -> set[str]:
    """The other findings on which its certain verdict rests."""
    return {id_ for step in one.why for id_ in step.elsewhere}


class _Making:
    """One job from its marks."""

    def __init__(self, kb: KnowledgeBase, marks: Sequence[FindingAssessment]) -> None:
        self.kb, self.marks = kb, marks

    def job(self, suspicions: Sequence[Suspicion]) -> Job:
        marks, ids = self.marks, {one.id for one in self.marks}
        sides = {one.side for one in marks if one.side}
        verdict = self.worst(VERDICT, [one.verdict for one in marks])
        hands = self.hands()
        afloat = may_she(self.kb, AFLOAT, [one.afloat for one in marks], ())
        tow = may_she(self.kb, TOW, [one.tow for one in marks], ())
        now, at_worst = self.mendings(hands.range, {AFLOAT: afloat.range, TOW: tow.range})
        return Job(
            id=f"job-{marks[0].id}",
            findings=tuple(one.id for one in marks),
            places=tuple(dict.fromkeys(JobPlace(one.zone, one.place, one.side) for one in marks)),
            side=sides.pop() if len(sides) == 1 else None,
            name=marks[0].mark,
            why=self.why(),
            verdict=verdict,
            afloat=afloat,
            tow=tow,
            hands=hands,
            mending=now,
            mending_at_worst=at_worst,
            checks=self.checks(),
            notes=tuple(dict.fromkeys(note for one in marks for note in one.notes)),
            suspects=tuple(
                dict.fromkeys(JobPlace(one.zone, one.place, one.side) for one in suspicions if ids & set(one.come_from))
            ),
        )

    def worst(self, scale: str, ranges: Sequence[Range]) -> Range:
        best, worst = (max(one.levels[end] for one in ranges) for end in (0, 1))
        return range_between(self.kb, scale, best, worst)

    def hands(self) -> Answer:
        """The gravest answer of any mark speaks for the job."""
        gravest = max((one.hands for one in self.marks), key=lambda one: one.range.levels[::-1])
        range_ = self.worst(HANDS, [one.hands.range for one in self.marks])
        return replace(gravest, range=range_, now=range_.worst)

    def why(self) -> Step | None:
        """The first reason of the mark that is gravest at worst."""
        gravest = max(self.marks, key=lambda one: one.verdict.levels[::-1])
        return next(iter(gravest.at_worst or gravest.why), None)

    def mendings(self, hands: Range, answers: Mapping[str, Range]) -> tuple[RepairAdvice | None, RepairAdvice | None]:
        """The repair that takes in the others, at both ends; every hazard and every reason to stop goes along.

        Where both ends need the same, it is told once, with what either warns of.
        """
        known = [one.mending for one in self.marks if one.mending]
        at_worst = [repair for one in self.marks if (repair := _at_worst(one))]
        now, then = (
            self.joined(
                some, hands.levels[end], {scale for scale, one in answers.items() if one.roles[end] == "barred"}
            )
            for end, some in enumerate((known, at_worst))
        )
        if now and then and now.id == then.id:
            return _warned(now, [then]), None
        return now, then

    def joined(self, repairs: Sequence[RepairAdvice], hands: int, barring: Set[str]) -> RepairAdvice | None:
        known = {repair.id: repair for repair in self.kb.mending.repairs}
        covering = widest([known[one.id] for one in repairs])
        if covering is None:
            return None
        return _warned(advice(self.kb, covering, hands, barring), repairs)

    def checks(self) -> tuple[OpenCheck, ...]:
        """Each check of a reading at a place once, with what its answers would make of the whole job."""
        told: dict[tuple[object, ...], OpenCheck] = {}
        for one in (check for mark in self.marks for check in mark.checks):
            told.setdefault(key_of(one), one)
        if len(self.marks) == 1:
            return tuple(told.values())
        return tuple(
            replace(one, outcomes=tuple(self.outcome(key, answer) for answer in one.outcomes))
            for key, one in told.items()
        )

    def outcome(self, key: tuple[object, ...], answer: Outcome) -> Outcome:
        """What the answer makes of the job: of each mark that it is asked of, while the others stay as they are."""
        ranges = []
        for mark in self.marks:
            asked = (one for check in mark.checks if key_of(check) == key for one in check.outcomes)
            ranges.append(next((one.verdict for one in asked if one.level == answer.level), mark.verdict))
        return replace(answer, verdict=self.worst(VERDICT, ranges))


def _warned(told: RepairAdvice, repairs: Sequence[RepairAdvice]) -> RepairAdvice:
    """The repair with every hazard and every reason to stop of these as well."""
    return replace(
        told,
        hazards=tuple(dict.fromkeys((*told.hazards, *(say for one in repairs for say in one.hazards)))),
        stop_when=tuple(dict.fromkeys((*told.stop_when, *(say for one in repairs for say in one.stop_when)))),
    )


def key_of(check: OpenCheck) -> tuple[object, ...]:
    """What makes two checks the same: the reading (or the fact) and where it is taken."""
    return check.check, check.scale, check.zone, check.side
