"""What comes next about a mark or about the boat, and what is said of it on the way."""

from __future__ import annotations

from triage.asking.effort import Resources
from triage.causes.referrals import referrals_of, suspected
from triage.conclusions.ranges import is_open, range_of
from triage.dialogue.interview import change_in_verdict, next_question, typical_outcome
from triage.dialogue.judged import judged_boat
from triage.dialogue.looking import view_of
from triage.dialogue.messages import Line, Message
from triage.dialogue.question import Question
from triage.dialogue.state import DESCRIBE, Asking
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.phrases import conversation as phrases
from triage.phrases.words import mark_at
from triage.survey.model import Finding, Survey

MAX_SENT = 3
"""How many further places are named at the end of a mark; the report has all."""


def next_about(kb: KnowledgeBase, survey: Survey, mark: str, means: Resources) -> Asking:
    """The next question about a mark, or its end."""
    step = next_question(kb, survey, mark, means)
    return Asking("answer", mark, step.ask) if isinstance(step, Question) else Asking("ended", mark)


def begun(kb: KnowledgeBase, survey: Survey, mark: str, means: Resources) -> tuple[Asking, tuple[Message, ...]]:
    """The next question about a mark that was just described, and how it stands before anything was asked."""
    asking = next_about(kb, survey, mark, means)
    if asking.what == "ended":
        return asking, ()
    usual = typical_outcome(kb, survey, mark)
    lines = [view_of(kb, survey, mark).says(), *([usual] if usual else [])]
    return asking, tuple(Line(line) for line in lines)


def change(kb: KnowledgeBase, before: Survey, after: Survey, mark: str) -> tuple[str, tuple[Message, ...]]:
    """What an answer did to the verdict, and to what is usual."""
    moved = change_in_verdict(kb, before, after, mark)
    if view_of(kb, after, mark).interval(VERDICT).settled:  # what is usual says nothing then, and takes long
        return moved, ()
    was, now = typical_outcome(kb, before, mark), typical_outcome(kb, after, mark)
    return moved, () if was == now else (Line(now or phrases.NOTHING_USUAL),)


def named(kb: KnowledgeBase, finding: Finding) -> str:
    """Its place and its mark."""
    return mark_at(kb.zones[finding.zone].name, finding.side, kb.signs[finding.sign].name)


def sends(kb: KnowledgeBase, survey: Survey, mark: str) -> tuple[str, ...]:
    """Where this mark sends people that nobody has looked at yet."""
    coverage = judged_boat(kb, survey).coverage
    sent = [referral for referral in referrals_of(coverage) if referral.finding.id == mark]
    return tuple(
        phrases.look_there(kb.zones[one.zone].name, one.sides, kb.signs[one.sign].name, one.rule.because)
        for one in suspected(coverage, sent)[:MAX_SENT]
    )


def so_far(kb: KnowledgeBase, survey: Survey) -> tuple[str, ...]:
    """Every mark and where it stands, in the order of the walk-round."""
    marks = survey.in_walk_order(kb).findings
    told = zip(marks, verdicts_in_order(kb, survey), strict=True)
    return tuple(f"{named(kb, finding)}. {stands}" for finding, stands in told)


def verdicts_in_order(kb: KnowledgeBase, survey: Survey) -> tuple[str, ...]:
    """Where every mark stands, in the order of the walk-round; the boat is judged once for all of them."""
    boat = judged_boat(kb, survey)
    verdicts = {judged.finding.id: range_of(kb, judged, VERDICT) for judged in boat.evaluations}
    return tuple(
        phrases.verdict_so_far(verdict.best, verdict.worst)
        if (verdict := verdicts.get(finding.id))
        else view_of(kb, survey, finding.id).says()
        for finding in survey.in_walk_order(kb).findings
    )


def other_open(kb: KnowledgeBase, survey: Survey, mark: str = "") -> Finding | None:
    """The next mark after this one that is open and of which something was not asked yet."""
    judged = judged_boat(kb, survey).evaluations
    ids = [one.finding.id for one in judged]
    start = ids.index(mark) + 1 if mark in ids else 0
    in_turn = [*judged[start:], *judged[:start]]
    return next((one.finding for one in in_turn if one.finding.id != mark and _can_be_asked(kb, one)), None)


def where_to_begin(kb: KnowledgeBase, survey: Survey, means: Resources) -> Asking:
    """What to ask about a survey of which nobody knows where it was left."""
    first = other_open(kb, survey)
    return next_about(kb, survey, first.id, means) if first else DESCRIBE


def _can_be_asked(kb: KnowledgeBase, judged: Evaluation) -> bool:
    finding = judged.finding
    left = (scale for scale in kb.applicable(finding.zone, finding.sign) if scale not in finding.readings)
    return is_open(judged) and any(kb.checks_for(scale, finding.zone) for scale in left)
