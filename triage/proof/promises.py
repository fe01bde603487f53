"""The promises of the knowledge as claims, and whether a judged boat keeps them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.inference.evaluate import State, satisfies, state_at, tests_hold, witnesses
from triage.inference.evaluation import BOUNDS, Bound, Evaluation
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.promise import Promise
from triage.knowledge.model.rule import stated_at
from triage.proof.claims import Claim, EvaluatedSurvey, Question
from triage.proof.scopes import ZoneSign, any_mix, candidates_for, likely
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_state import among
from triage.proof.symbolic_survey import SymbolicSurvey
from triage.proof.text import conjunct_text
from triage.survey.model import Boat, Finding


def promise_claims(kb: KnowledgeBase) -> Iterator[Claim]:
    """For each promise, that no survey breaks it, and that it speaks of some: else it would promise nothing."""
    for promise in kb.promises:
        asked = PromiseClaims(kb, promise)
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
            "nonvacuity",
            promise.id,
            says,
            asked.read(),
            asked.text(),
            asked.candidates,
            asked.spoken_of,
            asked.is_spoken_of,
            existential=True,
            likely=asked.likely,
        )


class PromiseClaims:
    """One promise, as formulas over a symbolic survey and as checks of evaluated findings."""

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
        """The promise in a form that changes when its meaning does, and not with its wording."""
        promise = self.promise
        unanswered = "named checks" if promise.named_checks_missing else sorted(promise.not_answered)
        follows = (sorted(promise.at_least), sorted(promise.worst_at_least), sorted(promise.advises))
        return f"{sorted(map(conjunct_text, self.conjuncts))} {unanswered} {follows}"

    def candidates(self, pair: ZoneSign) -> list[tuple[ZoneSign, ...]]:
        """The sign in the zone, with every mix of other findings that its condition can ask for."""
        return candidates_for(self.kb, self.conjuncts, pair, any_mix)

    def likely(self, pair: ZoneSign) -> bool:
        """Whether its condition can hold there without a context."""
        return likely(self.kb, self.conjuncts, pair)

    def speaks(self, survey: SymbolicSurvey) -> Formula:
        """What must not have been answered has not been."""
        finding = survey.finding
        unanswered = both(no(finding.answered.get(scale, False)) for scale in self.promise.not_answered)
        if not self.promise.named_checks_missing:
            return unanswered
        has_some = bool(self.kb.named_sets(finding.zone, finding.sign))
        return both((unanswered, has_some, no(finding.named_checks_complete())))

    def when(self, survey: SymbolicSurvey, bound: Bound) -> Formula:
        """The condition holds of the first finding, at this bound."""
        states = survey.states[bound]
        first, context = states[0], among(states)
        return either(
            both((first.tests_hold(conjunct), *(context(quantifier, first) for quantifier in conjunct.quantifiers)))
            for conjunct in self.conjuncts
            if conjunct.fits(*survey.pairs[0])
        )

    def spoken_of(self, survey: SymbolicSurvey) -> Question:
        """A survey of which the promise certainly speaks."""
        return Question(both((self.speaks(survey), self.when(survey, "lower"))), (survey.inputs,))

    def broken(self, survey: SymbolicSurvey) -> Question:
        """Better an example that is known to break it than one that only may."""
        promise, known, may_be = self.promise, self.when(survey, "lower"), self.when(survey, "upper")
        lower, upper = survey.states["lower"][0], survey.states["upper"][0]
        for_certain = [no(lower.level(scale, level)) for scale, level in promise.at_least]
        for_certain += [no(upper.level(scale, level)) for scale, level in promise.worst_at_least]
        for kind in promise.advises:
            firing = survey.states[stated_at(kind)][0].fires.items()
            said = (fires for rule, fires in firing if any(kind == advice.kind for advice in rule.advises))
            for_certain.append(no(either(said)))
        is_broken = both((known, either(for_certain)))
        may_be_broken = both((may_be, either(no(upper.level(scale, level)) for scale, level in promise.at_least)))
        return Question(both((self.speaks(survey), either((is_broken, may_be_broken)))), (survey.inputs,), (is_broken,))

    def is_spoken_of(self, surveys: Sequence[EvaluatedSurvey]) -> bool:
        """Whether it certainly speaks of a finding in one of these surveys."""
        return any(self.holds(survey, judged, "lower") for survey in surveys for judged in survey.evaluations)

    def is_broken(self, surveys: Sequence[EvaluatedSurvey]) -> bool:
        """Whether it is broken for a finding in one of these surveys."""
        return any(self.breaks(survey, judged) for survey in surveys for judged in survey.evaluations)

    def breaks(self, survey: EvaluatedSurvey, judged: Evaluation) -> bool:
        """Whether the promise is broken for this finding."""
        promise = self.promise
        for bound in BOUNDS:
            too_mild = any(judged.end(bound).level(scale) < level for scale, level in promise.at_least)
            if too_mild and self.holds(survey, judged, bound):
                return True
        said = {
            advice.kind
            for bound in BOUNDS
            for firing in judged.end(bound).firings
            for advice in firing.rule.advises
            if stated_at(advice.kind) == bound
        }
        too_mild = any(judged.upper.level(scale) < level for scale, level in promise.worst_at_least)
        unsaid = not said.issuperset(promise.advises)
        return (too_mild or unsaid) and self.holds(survey, judged, "lower")

    def holds(self, survey: EvaluatedSurvey, judged: Evaluation, bound: Bound) -> bool:
        """Whether the promise speaks of this finding, at this bound."""
        finding, answered = judged.finding, judged.finding.answered
        if any(scale in answered for scale in self.promise.not_answered):
            return False
        if self.promise.named_checks_missing:
            ways = self.kb.named_sets(finding.zone, finding.sign)
            if not ways or any(way <= answered for way in ways):
                return False
        states = [state_at(self.kb, survey.boat, other, bound) for other in survey.evaluations]
        mine = next(state for state in states if state.finding is finding)
        return any(conjunct_holds(conjunct, mine, states, bound) for conjunct in self.conjuncts)


def breaches(kb: KnowledgeBase, boat: Boat, judged: Sequence[Evaluation]) -> list[tuple[Promise, Finding]]:
    """Every promise that these judged findings break."""
    survey = EvaluatedSurvey(kb, boat, tuple(judged))
    asked = [PromiseClaims(kb, promise) for promise in kb.promises]
    return [(one.promise, finding.finding) for one in asked for finding in judged if one.breaks(survey, finding)]


def conjunct_holds(conjunct: Conjunct, mine: State, states: Sequence[State], bound: Bound) -> bool:
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
