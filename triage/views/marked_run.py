"""A marked run, ready to be read: the learner's answers beside the program's, its reasons, and what was missed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.knowledge.model import AFLOAT, HANDS, TOW, VERDICT, KnowledgeBase
from triage.phrases import findings, learning
from triage.phrases.words import LOAD, between, capital
from triage.teaching.questions import CARRIES, CAUSE, ELSEWHERE, FROM_MARK, MARK, NEXT, NOT_YET, NOTHING, STOP, TRADE
from triage.teaching.sheet import TOP, Marked, next_is_right

MOST_REASONS = 5


@dataclass(frozen=True)
class Beside:
    """One answer beside the program's."""

    what: str
    said: str
    key: str
    right: bool


@dataclass(frozen=True)
class ToldRun:
    """What is told after a run. ``theirs`` is what the program makes of what the learner had found, and ``faults`` what
    took points away, with the reason.
    """

    verdict: str
    beside: Sequence[Beside]
    found: Sequence[str]
    theirs: str
    reasons: Sequence[str]
    held_up: Sequence[str]
    missed: Sequence[str]
    way: str
    faults: Sequence[str]
    sheet: Sequence[str]


def told_run(kb: KnowledgeBase, marked: Marked) -> ToldRun:
    """Everything that is told after a run."""
    state, key = marked.state, marked.state.key
    names = [kb.zones[one].name for one in marked.not_seen]
    not_made = [one.check.name for one in marked.not_made]
    said, right = state.answer(VERDICT), between(key.finding.verdict)
    return ToldRun(
        verdict=learning.right_or_not(said, right, right=marked.right, sure=marked.confidence),
        beside=list(_beside(kb, marked)),
        found=[f"{capital(one.phrase)}." for one in marked.theirs.readings],
        theirs=between(marked.theirs.verdict),
        reasons=[one.because for one in key.finding.why[:MOST_REASONS]] or [key.finding.harmless],
        held_up=findings.held_up(key.finding.held_up),
        missed=learning.missed(not_made, names, state.minutes, key.minutes),
        way=learning.way_in_words(key.way_with_places(kb)),
        faults=[learning.fault(one.name, one.because) for one in marked.faults],
        sheet=[learning.sheet_line(one.name, one.points, one.of, one.trainer) for one in marked.items],
    )


def _beside(kb: KnowledgeBase, marked: Marked) -> Iterator[Beside]:
    state, key, mark = marked.state, marked.state.key, marked.state.case.mark
    for about, names, right in (
        (MARK, {one.id: one.name for one in kb.signs.values()}, mark.sign),
        (TRADE, {one.id: one.trade for one in kb.zones.values()}, mark.zone),
        (CARRIES, LOAD, kb.zones[mark.zone].load),
        (AFLOAT, {NOT_YET: learning.NOT_BEFORE}, key.finding.afloat.now),
        (TOW, {NOT_YET: learning.NOT_BEFORE}, key.finding.tow.now),
        (HANDS, {}, key.finding.hands.now),
    ):
        said = state.answer(about)
        yield Beside(learning.BESIDE[about], names.get(said, said), names.get(right, right), said == right)
    causes = {one.id: one.name for one in kb.causation.causes.values()} | {NOTHING: learning.NOBODY_KNOWS}
    yield _one_of(CAUSE, causes, state.answer(CAUSE), key.causes or (NOTHING,), right=marked.cause_right)
    checks = {one.id: one.name for one in kb.checks.values()} | {STOP: learning.NONE_NEEDED}
    worth = list(dict.fromkeys(one.check for one in marked.theirs.checks if one.check))[:TOP]
    said = state.answer(NEXT).rpartition(FROM_MARK)[2]
    yield _one_of(NEXT, checks, said, worth or (STOP,), right=next_is_right(marked))
    places = {one.id: one.name for one in kb.zones.values()} | {NOTHING: learning.NOWHERE_ELSE}
    said, sent = state.answer(ELSEWHERE), key.elsewhere or (NOTHING,)
    yield _one_of(ELSEWHERE, places, said, sent, right=said in sent)


def _one_of(about: str, names: dict[str, str], said: str, good: Sequence[str], *, right: bool) -> Beside:
    """An answer of which several are right."""
    return Beside(learning.BESIDE[about], names[said], ", or ".join(names[one] for one in good), right)
