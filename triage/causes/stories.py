"""Several findings with one likely cause, told as one story."""

from __future__ import annotations

from collections.abc import Sequence

import networkx as nx

from triage.causes.descriptions import Descriptions
from triage.causes.rank import Ranked
from triage.causes.referrals import Referral
from triage.conclusions.diagnosis import Story, StoryPart
from triage.survey.model import Finding


def stories(described: Descriptions, referrals: Sequence[Referral]) -> tuple[Story, ...]:
    """Each finding stands in the story of the likeliest of its causes; what follows from it goes along."""
    follows: nx.DiGraph[str] = nx.DiGraph()
    follows.add_nodes_from(finding.id for finding in described.findings)
    for referral in referrals:
        follows.add_edges_from((referral.finding.id, other.id, {"referral": referral}) for other in referral.there)
    free = {finding.id for finding in described.findings}
    told = []
    for one in described.ranked:
        if not described.weights.at_least(one.word, described.weights.story_from):
            continue
        left = [finding for finding in described.left_by(one) if finding.id in free]
        after = {id_ for finding in left for id_ in nx.descendants(follows, finding.id)}
        after = (after & free).difference(finding.id for finding in left)
        members = [*left, *(finding for finding in described.findings if finding.id in after)]
        if len(members) > 1:
            free.difference_update(finding.id for finding in members)
            told.append(_story(described, one, left, members[len(left) :], follows))
    return tuple(told)


def _story(
    described: Descriptions, one: Ranked, left: Sequence[Finding], after: Sequence[Finding], follows: nx.DiGraph[str]
) -> Story:
    marks = {(finding.zone, finding.sign) for finding in left}
    parts = [StoryPart(finding.id, how_often=_how_often(described, one, finding)) for finding in left]
    members = {finding.id for finding in (*left, *after)}
    for finding in after:
        edges = follows.in_edges(finding.id, data=True)
        referral: Referral = next(data["referral"] for id_, _, data in edges if id_ in members)
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
