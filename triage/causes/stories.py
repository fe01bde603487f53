"""Several findings with one likely cause, told as one story."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from triage.causes.descriptions import Teller
from triage.causes.rank import Ranked
from triage.causes.referrals import Referral
from triage.conclusions.diagnosis import Story
from triage.knowledge.compiled import orders
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Finding


def stories(teller: Teller, led: Sequence[Referral]) -> tuple[Story, ...]:
    """Each finding stands in the story of the likeliest of its causes; what follows from it goes along."""
    follows = _in_order(teller.kb, led)
    free = {finding.id for finding in teller.findings}
    told = []
    for one in teller.ranked:
        if not teller.weights.at_least(one.word, teller.weights.story_from):
            continue
        left = [finding for finding in teller.left_by(one) if finding.id in free]
        begun = {finding.id for finding in left}
        after = (_after(begun, follows) & free) - begun
        members = [*left, *(finding for finding in teller.findings if finding.id in after)]
        if len(members) > 1:
            free.difference_update(finding.id for finding in members)
            told.append(_story(teller, one, left, members[len(left) :], led))
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
    teller: Teller, one: Ranked, left: Sequence[Finding], after: Sequence[Finding], led: Sequence[Referral]
) -> Story:
    marks = {(finding.zone, finding.sign) for finding in left}
    how_often = {entry.sign: teller.how_often(entry) for entry in one.found}
    tells = [f"{teller.mark(finding)}. {how_often[finding.sign]}" for finding in left]
    members = {finding.id for finding in (*left, *after)}
    for finding in after:
        leads = [lead for lead in led if lead.finding.id in members and finding in lead.there]
        lead = next(one for one in reversed(leads) if one.finding is leads[0].finding)
        tells.append(f"{teller.mark(finding)}. It follows from {teller.mark(lead.finding)}. {lead.rule.because}")
    return Story(
        cause=one.cause.id,
        name=one.cause.name,
        likelihood=one.word,
        or_else=tuple(other.name for other in one.alike if marks <= {entry.mark for entry in other.leaves}),
        happens=one.cause.happens,
        tells=tuple(tells),
        findings=tuple(finding.id for finding in (*left, *after)),
        still_at_work=teller.still_at_work(one.cause),
    )
