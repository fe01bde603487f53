"""Several findings with one likely cause, told as one story."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from triage.causes.descriptions import Descriptions
from triage.causes.rank import Ranked
from triage.causes.referrals import Referral
from triage.conclusions.diagnosis import Story, StoryPart
from triage.knowledge.compiled import orders
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Finding


def stories(described: Descriptions, referrals: Sequence[Referral]) -> tuple[Story, ...]:
    """Each finding stands in the story of the likeliest of its causes; what follows from it goes along."""
    follows = _in_order(described.kb, referrals)
    free = {finding.id for finding in described.findings}
    told = []
    for one in described.ranked:
        if not described.weights.at_least(one.word, described.weights.story_from):
            continue
        left = [finding for finding in described.left_by(one) if finding.id in free]
        begun = {finding.id for finding in left}
        after = (_after(begun, follows) & free) - begun
        members = [*left, *(finding for finding in described.findings if finding.id in after)]
        if len(members) > 1:
            free.difference_update(finding.id for finding in members)
            told.append(_story(described, one, left, members[len(left) :], referrals))
    return tuple(told)


def _in_order(kb: KnowledgeBase, led: Sequence[Referral]) -> list[Referral]:
    """The referrals with those that come from a mark before those that come from what follows from it."""
    rank = {mark: number for number, mark in enumerate(orders.marks(kb))}
    return sorted(led, key=lambda lead: rank.get((lead.finding.zone, lead.finding.sign), -1))


def _after(begun: Collection[str], in_order: Sequence[Referral]) -> set[str]:
    """What follows from these findings, step by step: in this order one pass is enough."""
    reached = set(begun)
    for lead in in_order:
        if lead.finding.id in reached:
            reached.update(other.id for other in lead.there)
    return reached


def _story(
    described: Descriptions,
    one: Ranked,
    left: Sequence[Finding],
    after: Sequence[Finding],
    referrals: Sequence[Referral],
) -> Story:
    marks = {(finding.zone, finding.sign) for finding in left}
    parts = [StoryPart(finding.id, how_often=_how_often(described, one, finding)) for finding in left]
    members = {finding.id for finding in (*left, *after)}
    for finding in after:
        sent = [one for one in referrals if one.finding.id in members and finding in one.there]
        referral = next(one for one in reversed(sent) if one.finding is sent[0].finding)
        parts.append(StoryPart(finding.id, follows_from=referral.finding.id, because=referral.rule.because))
    return Story(
        cause=one.cause.id,
        name=one.cause.name,
        likelihood=one.word,
        or_else=tuple(other.name for other in one.alike if marks <= {entry.mark for entry in other.leaves}),
        happens=one.cause.happens,
        parts=tuple(parts),
        still_at_work=described.still_at_work(one.cause),
    )


def _how_often(described: Descriptions, one: Ranked, finding: Finding) -> str:
    """How often the cause leaves this finding; where it leaves such a mark in two ways, the stronger."""
    entries = [entry for entry in one.found if finding in described.evidence.found[entry.mark]]
    return described.how_often(max(entries, key=lambda entry: described.weights.strengths[entry.strength].chance))
