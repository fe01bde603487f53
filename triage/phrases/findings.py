"""What is said of one finding: what it is, why, and what would change it."""

from __future__ import annotations

from collections.abc import Sequence

from triage.conclusions.assessment import Assessment, FindingAssessment
from triage.conclusions.checks import OpenCheck, Outcome
from triage.conclusions.reasons import Conflict, Counterfactual, HeldUp, Premise, PresumptionUsed, Step
from triage.conclusions.repairs import RepairAdvice
from triage.conclusions.values import Range, Reached, ReportedReading
from triage.phrases.words import (
    between,
    capital,
    hours_of,
    in_words,
    listed,
    mark_at,
    plus_waiting,
    span,
    uncapital,
)
from triage.survey.model import COULD_NOT_TELL

NOTHING_RAISES_IT = "Nothing that was looked at raises it above looks."


def title(finding: FindingAssessment) -> str:
    """The finding by its place and mark."""
    return mark_at(finding.place, finding.side, finding.mark)


def seen_before(finding: FindingAssessment, assessment: Assessment) -> str:
    """When it was seen, if that was before this visit; else nothing."""
    earlier = finding.seen_on and assessment.seen_on and finding.seen_on < assessment.seen_on
    return f", seen on {finding.seen_on}" if earlier else ""


def headline(finding: FindingAssessment) -> str:
    """The verdict in a few words. While open, never milder than "not cleared"."""
    if finding.passed:
        return "Looked at and passed"
    if finding.looked_at_only:
        return "Looked at, nothing found"
    if finding.verdict.settled:
        return capital(finding.verdict.best)
    return not_cleared(finding.verdict, finding.checks)


def not_cleared(verdict: Range, checks: Sequence[OpenCheck]) -> str:
    """An open verdict, with the first checks that could settle it."""
    names = list(dict.fromkeys(f"“{check.name}”" for check in checks))[:2]
    until = f", until {' and '.join(names)}" if names else ", and no check here can settle it"
    return f"Not cleared: {between(verdict)}{until}"


def summary(finding: FindingAssessment) -> str:
    """The main reason in one sentence."""
    if not finding.verdict.settled:
        return f"At worst: {finding.at_worst[0].because}" if finding.at_worst else ""
    if finding.why:
        return finding.why[0].because
    return finding.harmless or NOTHING_RAISES_IT


def reading(said: ReportedReading) -> str:
    """A reading as it was understood."""
    if said.high is None:
        return f"{said.name}: {COULD_NOT_TELL}"
    return said.phrase


def premise(one: Premise) -> str:
    """Something that a rule rests on."""
    match one.kind, one.known:
        case "mark", _:
            return f"the mark: {one.words}"
        case "fact", _:
            return f"{one.words} (nobody has said)"
        case _, "shown by the mark":
            return f"{one.words} (the best that this mark allows)"
        case _, "unchecked":
            return f"{one.words} (nobody has checked)"
        case _:
            return one.words


def phrase(level: Reached) -> str:
    """A level that was reached."""
    return level.phrase


def conflict(one: Conflict) -> str:
    """Answers that pull apart."""
    good, bad = ([level.phrase for level in levels] for levels in (one.good, one.bad))
    return f"Your answers pull apart: {listed(good)}, yet {listed(bad)}. Repeat both checks."


def held_up(why: HeldUp) -> tuple[str, ...]:
    """What keeps the verdict from being milder, a sentence each."""
    match why.by:
        case "nothing":
            return ()
        case "answers":
            return tuple(f"It rests on this: {answer.phrase}." for answer in why.answers)
        case "elsewhere":
            return ("It rests on what was found elsewhere on the boat.",)
        case "mark":
            return ("The mark itself, at this place, is enough.",)
        case "several":
            return ("More than one answer holds it up, each enough by itself.",)


def limits_of_our_own(a: Assessment) -> dict[str, str]:
    """By the id of a mark: which scales settle it whose limits are our estimate, each told once in a report."""
    told: set[str] = set()
    said = {}
    for finding in _in_jobs(a):
        names = [one.name for one in finding.estimated if one.scale not in told]
        told |= {one.scale for one in finding.estimated}
        if names:
            said[finding.id] = _limits_of(names)
    return said


def limits_of_passed_parts(a: Assessment) -> str:
    """The same of the parts that were passed, in one sentence; empty when there is nothing more to tell."""
    told = {one.scale for finding in _in_jobs(a) for one in finding.estimated}
    passed = (one for finding in a.findings if finding.passed for one in finding.estimated)
    names = dict.fromkeys(one.name for one in passed if one.scale not in told)
    return _limits_of(list(names)) if names else ""


def _in_jobs(a: Assessment) -> list[FindingAssessment]:
    """The marks as they stand in a report."""
    return [a.finding(id_) for job in a.jobs for id_ in job.findings]


def _limits_of(names: Sequence[str]) -> str:
    return f"The limits of {listed([f'“{name}”' for name in names])} are our own estimate."


def counterfactual(one: Counterfactual) -> str:
    """A reading that would change a settled verdict."""
    return f"if {one.reading.phrase}: {between(one.verdict)}"


def presumed(one: PresumptionUsed) -> str:
    """What was taken for granted, and why that is usual."""
    return f"taken for granted, at worst: {'; '.join(map(phrase, one.presumes))}. {one.because}"


def outcome(one: Outcome) -> str:
    """What an answer would come to."""
    return f"If {one.answer}: {in_words(one.verdict)}."


def outcomes(check: OpenCheck) -> str:
    """What the mildest and the gravest answer would come to."""
    return " ".join(map(outcome, check.outcomes))


def to_pass(look: FindingAssessment) -> str:
    """The checks that would pass a part that was only looked at."""
    if not look.checks:
        return ""
    minutes = sum({one.check: one.minutes for one in look.checks}.values())
    names = dict.fromkeys(f"“{one.name}”" for one in look.checks)
    waiting = plus_waiting(*(one.wait for one in look.checks))
    return f"{listed(list(names))} would pass it ({minutes:g} min{waiting})"


def cost(repair: RepairAdvice) -> str:
    """Hours and money of a repair, always as ranges with their year and unit."""
    parts = []
    if repair.hours:
        parts.append(f"{hours_of(repair.hours)} of work{', and ' + repair.wait if repair.wait else ''}")
    if repair.materials:
        parts.append(f"materials {span(repair.materials)}")
    if repair.repairer:
        parts.append(f"at a repairer {span(repair.repairer)} in all")
    each = f" for each {repair.per}" if repair.per else ""
    return capital(f"{'; '.join(parts)}{each} ({repair.year}, in {repair.unit}).")


def concludes(step: Step) -> str:
    """What a rule concluded."""
    return "; ".join(map(phrase, step.concludes))


def mending_title(repair: RepairAdvice, *, at_worst: bool) -> str:
    """What mending takes, for what is known or for the worst it may be."""
    return f"What mending takes{' at worst' if at_worst else ''}: {uncapital(repair.name)}"
