"""Several findings with one likely cause, told as one story."""

from __future__ import annotations

from collections.abc import Sequence

import networkx as nx

from triage.causes.descriptions import Teller
from triage.causes.rank import Ranked
from triage.causes.referrals import Referral
from triage.conclusions.diagnosis import Story
from triage.survey.model import Finding


def stories(teller: Teller, led: Sequence[Referral]) -> tuple[Story, ...]:
    """Each finding stands in the story of the likeliest of its causes; what follows from it goes along."""
    follows: nx.DiGraph[str] = nx.DiGraph()
    follows.add_nodes_from(finding.id for finding in teller.findings)
    for lead in led:
        follows.add_edges_from((lead.finding.id, other.id, {"lead": lead}) for other in lead.there)
    free = {finding.id for finding in teller.findings}
    told = []
    for one in teller.ranked:
        if not teller.weights.at_least(one.word, teller.weights.story_from):
            continue
        left = [finding for finding in teller.left_by(one) if finding.id in free]
        after = {id_ for finding in left for id_ in nx.descendants(follows, finding.id)}
        after = (after & free).difference(finding.id for finding in left)
        members = [*left, *(finding for finding in teller.findings if finding.id in after)]
        if len(members) > 1:
            free.difference_update(finding.id for finding in members)
            told.append(_story(teller, one, left, members[len(left) :], follows))
    return tuple(told)


def _story(
    teller: Teller, one: Ranked, left: Sequence[Finding], after: Sequence[Finding], follows: nx.DiGraph[str]
) -> Story:
    marks = {(finding.zone, finding.sign) for finding in left}
    how_often = {entry.sign: teller.how_often(entry) for entry in one.found}
    tells = [f"{teller.mark(finding)}. {how_often[finding.sign]}" for finding in left]
    members = {finding.id for finding in (*left, *after)}
    for finding in after:
        lead: Referral = next(
            data["lead"] for id_, _, data in follows.in_edges(finding.id, data=True) if id_ in members
        )
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
