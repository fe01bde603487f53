"""The promises of the knowledge as claims, and whether a judged boat keeps them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.inference.evaluate import State, satisfies, state_at, tests_hold, witnesses
from triage.inference.evaluation import BOUNDS, Bound, Evaluation
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.promise import Promise
from triage.proof.claims import Claim, Question, Seen
from triage.proof.scopes import ZoneSign, any_mix, grounds_for, likely
from triage.proof.solver import among
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_survey import SymbolicSurvey
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
            asked.candidates,
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
            asked.candidates,
            asked.spoken_of,
            asked.is_spoken_of,
            somewhere=True,
            likely=asked.likely,
        )


class AskedPromise:
    """One promise, as formulas over a ground and as checks of judged findings."""

    def __init__(self, kb: KnowledgeBase, promise: Promise) -> None:
        self.kb, self.promise = kb, promise
        self.conjuncts = conjuncts_of(kb, promise.when)

    def read(self) -> frozenset[str]:
        """The derived scales that its condition reads."""
        probed = [
            inner
            for conjunct in self.conjuncts
            for quantifier in conjunct.quantifiers
            for inner in quantifier.conjuncts
        ]
        return self.kb.derived & {scale for conjunct in (*self.conjuncts, *probed) for scale, _ in conjunct.levels}

    def goals(self) -> frozenset[str]:
        """The derived scales that decide whether it is kept; any rule may hold the advice it asks for."""
        if self.promise.advises:
            return self.kb.derived
        return self.read() | {scale for scale, _ in (*self.promise.at_least, *self.promise.worst_at_least)}

    def text(self) -> str:
        promise = self.promise
        unanswered = "named checks" if promise.named_checks_missing else sorted(promise.not_answered)
        follows = (sorted(promise.at_least), sorted(promise.worst_at_least), sorted(promise.advises))
        return f"{sorted(map(clause_text, self.conjuncts))} {unanswered} {follows}"

    def candidates(self, pair: ZoneSign) -> list[tuple[ZoneSign, ...]]:
        return grounds_for(self.kb, self.conjuncts, pair, any_mix)

    def likely(self, pair: ZoneSign) -> bool:
        return likely(self.kb, self.conjuncts, pair)

    def speaks(self, ground: SymbolicSurvey) -> Formula:
        """What must not have been answered has not been."""
        finding = ground.finding
        unanswered = both(no(finding.answered.get(scale, False)) for scale in self.promise.not_answered)
        if not self.promise.named_checks_missing:
            return unanswered
        has_some = bool(self.kb.named_sets(finding.zone, finding.sign))
        return both((unanswered, has_some, no(finding.named_checks_complete())))

    def when(self, ground: SymbolicSurvey, bound: Bound) -> Formula:
        """The condition holds of the first finding, at this end."""
        ends = ground.ends[bound]
        context = among(ends)
        return either(
            both((ends[0].tests_hold(conjunct), *(context(quantifier, ends[0]) for quantifier in conjunct.quantifiers)))
            for conjunct in self.conjuncts
            if conjunct.fits(*ground.pairs[0])
        )

    def spoken_of(self, ground: SymbolicSurvey) -> Question:
        return Question(both((self.speaks(ground), self.when(ground, "lower"))), (ground.survey,))

    def broken(self, ground: SymbolicSurvey) -> Question:
        """Better an example that is known to break it than one that only may."""
        promise, known, may_be = self.promise, self.when(ground, "lower"), self.when(ground, "upper")
        lower, upper = ground.ends["lower"][0], ground.ends["upper"][0]
        for_certain = [no(lower.level(scale, level)) for scale, level in promise.at_least]
        for_certain += [no(upper.level(scale, level)) for scale, level in promise.worst_at_least]
        for kind in promise.advises:
            told_by = upper if kind == "caution" else lower  # cautions are told for what may be
            said = (
                fires for rule, fires in told_by.fires.items() if any(kind == advice.kind for advice in rule.advises)
            )
            for_certain.append(no(either(said)))
        is_broken = both((known, either(for_certain)))
        may_be_broken = both((may_be, either(no(upper.level(scale, level)) for scale, level in promise.at_least)))
        return Question(both((self.speaks(ground), either((is_broken, may_be_broken)))), (ground.survey,), (is_broken,))

    def is_spoken_of(self, seen: Sequence[Seen]) -> bool:
        return any(self.holds(one, judged, "lower") for one in seen for judged in one.judged)

    def is_broken(self, seen: Sequence[Seen]) -> bool:
        return any(self.breaks(one, judged) for one in seen for judged in one.judged)

    def breaks(self, one: Seen, judged: Evaluation) -> bool:
        """Whether the promise is broken for this finding."""
        promise = self.promise
        for bound in BOUNDS:
            too_mild = any(judged.end(bound).level(scale) < level for scale, level in promise.at_least)
            if too_mild and self.holds(one, judged, bound):
                return True
        said = {
            advice.kind
            for end, cautions in ((judged.upper, True), (judged.lower, False))
            for firing in end.firings
            for advice in firing.rule.advises
            if (advice.kind == "caution") == cautions
        }
        too_mild = any(judged.upper.level(scale) < level for scale, level in promise.worst_at_least)
        unsaid = not said.issuperset(promise.advises)
        return (too_mild or unsaid) and self.holds(one, judged, "lower")

    def holds(self, one: Seen, judged: Evaluation, bound: Bound) -> bool:
        """Whether the promise speaks of this finding, at this end."""
        finding, answered = judged.finding, judged.finding.answered
        if any(scale in answered for scale in self.promise.not_answered):
            return False
        if self.promise.named_checks_missing:
            ways = self.kb.named_sets(finding.zone, finding.sign)
            if not ways or any(way <= answered for way in ways):
                return False
        states = [state_at(self.kb, one.boat, other, bound) for other in one.judged]
        mine = next(state for state in states if state.finding is finding)
        return any(clause_holds(conjunct, mine, states, bound) for conjunct in self.conjuncts)


def breaches(kb: KnowledgeBase, boat: Boat, judged: Sequence[Evaluation]) -> list[tuple[Promise, Finding]]:
    """Every promise that these judged findings break."""
    seen = Seen(kb, boat, tuple(judged))
    asked = [AskedPromise(kb, promise) for promise in kb.promises]
    return [(one.promise, finding.finding) for one in asked for finding in judged if one.breaks(seen, finding)]


def clause_holds(conjunct: Conjunct, mine: State, states: Sequence[State], bound: Bound) -> bool:
    """Whether the conjunct holds of a finding that has been judged together with these."""
    hits = {
        quantifier: [state for state in states if satisfies(quantifier.conjuncts, state, bound)]
        for quantifier in conjunct.quantifiers
    }
    return (
        conjunct.fits(mine.finding.zone, mine.finding.sign)
        and tests_hold(conjunct, mine, bound)
        and all(
            len(witnesses(quantifier, mine, bound, hits)) >= quantifier.count for quantifier in conjunct.quantifiers
        )
    )
