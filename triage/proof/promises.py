"""The promises of the knowledge as claims, and whether a judged boat keeps them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.inference.evaluate import State, satisfies, state_at, tests_hold, witnesses
from triage.inference.logic import Formula, both, either, no
from triage.inference.outcome import BOUNDS, Bound, Judged
from triage.inference.prove import among
from triage.knowledge.clauses import Clause, clauses_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.promise import Promise
from triage.proof.claims import Claim, Question, Seen
from triage.proof.ground import Ground
from triage.proof.spots import Spot, any_mix, grounds_for, likely
from triage.proof.text import clause_text
from triage.survey.model import Boat, Finding


def promise_claims(kb: KnowledgeBase) -> Iterator[Claim]:
    """For each promise, that no survey breaks it, and that it speaks of some: else it would promise nothing."""
    for promise in kb.promises:
        asked = AskedPromise(kb, promise)
        yield Claim(
            "promise",
            promise.id,
            promise.says,
            asked.goals(),
            asked.text(),
            asked.grounds,
            asked.broken,
            asked.is_broken,
        )
        says = f"{promise.id} speaks of some survey"
        yield Claim(
            "use",
            promise.id,
            says,
            asked.read(),
            asked.text(),
            asked.grounds,
            asked.spoken_of,
            asked.is_spoken_of,
            somewhere=True,
            likely=asked.likely,
        )


class AskedPromise:
    """One promise, as formulas over a ground and as checks of judged findings."""

    def __init__(self, kb: KnowledgeBase, promise: Promise) -> None:
        self.kb, self.promise = kb, promise
        self.clauses = clauses_of(kb, promise.when)

    def read(self) -> frozenset[str]:
        """The derived scales that its condition reads."""
        probed = [inner for clause in self.clauses for probe in clause.probes for inner in probe.clauses]
        return self.kb.derived & {scale for clause in (*self.clauses, *probed) for scale, _ in clause.levels}

    def goals(self) -> frozenset[str]:
        """The derived scales that decide whether it is kept; any rule may hold the advice it asks for."""
        if self.promise.advises:
            return self.kb.derived
        return self.read() | {scale for scale, _ in (*self.promise.at_least, *self.promise.worst_at_least)}

    def text(self) -> str:
        promise = self.promise
        unanswered = "named checks" if promise.named_checks_missing else sorted(promise.not_answered)
        follows = (sorted(promise.at_least), sorted(promise.worst_at_least), sorted(promise.advises))
        return f"{sorted(map(clause_text, self.clauses))} {unanswered} {follows}"

    def grounds(self, spot: Spot) -> list[tuple[Spot, ...]]:
        return grounds_for(self.kb, self.clauses, spot, any_mix)

    def likely(self, spot: Spot) -> bool:
        return likely(self.kb, self.clauses, spot)

    def speaks(self, ground: Ground) -> Formula:
        """What must not have been answered has not been."""
        finding = ground.finding
        unanswered = both(no(finding.answered.get(scale, False)) for scale in self.promise.not_answered)
        if not self.promise.named_checks_missing:
            return unanswered
        has_some = bool(self.kb.named_sets(finding.zone, finding.sign))
        return both((unanswered, has_some, no(finding.named_checks_complete())))

    def when(self, ground: Ground, bound: Bound) -> Formula:
        """The condition holds of the first finding, at this end."""
        ends = ground.ends[bound]
        company = among(ends)
        return either(
            both((ends[0].tests_hold(clause), *(company(probe, ends[0]) for probe in clause.probes)))
            for clause in self.clauses
            if clause.fits(*ground.spots[0])
        )

    def spoken_of(self, ground: Ground) -> Question:
        return Question(both((self.speaks(ground), self.when(ground, "floor"))), (ground.survey,))

    def broken(self, ground: Ground) -> Question:
        """Better an example that is known to break it than one that only may."""
        promise, known, may_be = self.promise, self.when(ground, "floor"), self.when(ground, "ceiling")
        floor, ceiling = ground.ends["floor"][0], ground.ends["ceiling"][0]
        for_certain = [no(floor.level(scale, level)) for scale, level in promise.at_least]
        for_certain += [no(ceiling.level(scale, level)) for scale, level in promise.worst_at_least]
        for kind in promise.advises:
            told_by = ceiling if kind == "caution" else floor  # cautions are told for what may be
            said = (
                fires for rule, fires in told_by.fires.items() if any(kind == advice.kind for advice in rule.advises)
            )
            for_certain.append(no(either(said)))
        is_broken = both((known, either(for_certain)))
        may_be_broken = both((may_be, either(no(ceiling.level(scale, level)) for scale, level in promise.at_least)))
        return Question(both((self.speaks(ground), either((is_broken, may_be_broken)))), (ground.survey,), (is_broken,))

    def is_spoken_of(self, seen: Sequence[Seen]) -> bool:
        return any(self.holds(one, judged, "floor") for one in seen for judged in one.judged)

    def is_broken(self, seen: Sequence[Seen]) -> bool:
        return any(self.breaks(one, judged) for one in seen for judged in one.judged)

    def breaks(self, one: Seen, judged: Judged) -> bool:
        """Whether the promise is broken for this finding."""
        promise = self.promise
        for bound in BOUNDS:
            too_mild = any(judged.end(bound).level(scale) < level for scale, level in promise.at_least)
            if too_mild and self.holds(one, judged, bound):
                return True
        said = {
            advice.kind
            for end, cautions in ((judged.ceiling, True), (judged.floor, False))
            for firing in end.firings
            for advice in firing.rule.advises
            if (advice.kind == "caution") == cautions
        }
        too_mild = any(judged.ceiling.level(scale) < level for scale, level in promise.worst_at_least)
        unsaid = not said.issuperset(promise.advises)
        return (too_mild or unsaid) and self.holds(one, judged, "floor")

    def holds(self, one: Seen, judged: Judged, bound: Bound) -> bool:
        """Whether the promise speaks of this finding, at this end."""
        finding, answered = judged.finding, judged.finding.answered.keys()
        if any(scale in answered for scale in self.promise.not_answered):
            return False
        if self.promise.named_checks_missing:
            ways = self.kb.named_sets(finding.zone, finding.sign)
            if not ways or any(way <= answered for way in ways):
                return False
        states = [state_at(self.kb, one.boat, other, bound) for other in one.judged]
        mine = next(state for state in states if state.finding is finding)
        return any(clause_holds(clause, mine, states, bound) for clause in self.clauses)


def breaches(kb: KnowledgeBase, boat: Boat, judged: Sequence[Judged]) -> list[tuple[Promise, Finding]]:
    """Every promise that these judged findings break."""
    seen = Seen(kb, boat, tuple(judged))
    asked = [AskedPromise(kb, promise) for promise in kb.promises]
    return [(one.promise, finding.finding) for one in asked for finding in judged if one.breaks(seen, finding)]


def clause_holds(clause: Clause, mine: State, states: Sequence[State], bound: Bound) -> bool:
    """Whether the clause holds of a finding that has been judged together with these."""
    hits = {probe: [state for state in states if satisfies(probe.clauses, state, bound)] for probe in clause.probes}
    return (
        clause.fits(mine.finding.zone, mine.finding.sign)
        and tests_hold(clause, mine, bound)
        and all(len(witnesses(probe, mine, bound, hits)) >= probe.count for probe in clause.probes)
    )
