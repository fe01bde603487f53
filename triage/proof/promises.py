"""The promises of the knowledge as claims, and whether a judged boat keeps them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.inference.evaluate import State, satisfies, state_at, tests_hold, witnesses
from triage.inference.evaluation import BOUNDS, Bound, Evaluation
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.compiled.reads import suspected_marks
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.promise import Promise
from triage.knowledge.model.rule import stated_at
from triage.proof.claims import Claim, EvaluatedSurvey, Question
from triage.proof.scopes import ZoneSign, any_mix, candidates_for, likely
from triage.proof.speaking import is_spoken_of, may_speak, speaks
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_state import among
from triage.proof.symbolic_survey import SymbolicSurvey
from triage.proof.text import conjunct_text


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
        promise = self.promise
        return self.read() | {scale for scale, _ in (*promise.at_least, *promise.worst_at_least, *promise.at_most)}

    def text(self) -> str:
        """The promise in a form that changes when its meaning does, and not with its wording."""
        promise = self.promise
        missing = [*sorted(promise.not_answered), promise.named_checks_missing, promise.passing_checks_missing]
        suspected = sorted(suspected_marks(self.kb)) if promise.of_suspicions else []
        speaks_of = (sorted(map(conjunct_text, self.conjuncts)), missing, promise.answered_well, suspected)
        follows = map(sorted, (promise.at_least, promise.worst_at_least, promise.at_most, promise.advises))
        return f"{speaks_of} {list(follows)}"

    def candidates(self, pair: ZoneSign) -> list[tuple[ZoneSign, ...]]:
        """The sign in the zone, with every mix of other findings that its condition can ask for."""
        return candidates_for(self.kb, self.conjuncts, pair, any_mix) if may_speak(self.kb, self.promise, pair) else []

    def likely(self, pair: ZoneSign) -> bool:
        """Whether its condition can hold there without a context."""
        return likely(self.kb, self.conjuncts, pair)

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
        spoken_of = speaks(self.kb, self.promise, survey.finding)
        return Question(both((spoken_of, self.when(survey, "lower"))), (survey.inputs,))

    def broken(self, survey: SymbolicSurvey) -> Question:
        """Better an example that is known to break it than one that only may."""
        promise, known, may_be = self.promise, self.when(survey, "lower"), self.when(survey, "upper")
        lower, upper = survey.states["lower"][0], survey.states["upper"][0]
        for_certain = [no(lower.level(scale, level)) for scale, level in promise.at_least]
        for_certain += [no(upper.level(scale, level)) for scale, level in promise.worst_at_least]
        if len(survey.pairs) == 1:
            for_certain += [lower.level(scale, level + 1) for scale, level in promise.at_most]
        for kind in promise.advises:
            firing = survey.states[stated_at(kind)][0].fires.items()
            said = (fires for rule, fires in firing if any(kind == advice.kind for advice in rule.advises))
            for_certain.append(no(either(said)))
        is_broken = both((known, either(for_certain)))
        may_be_broken = both((may_be, either(no(upper.level(scale, level)) for scale, level in promise.at_least)))
        spoken_of = speaks(self.kb, promise, survey.finding)
        return Question(both((spoken_of, either((is_broken, may_be_broken)))), (survey.inputs,), (is_broken,))

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
        alone = len(survey.evaluations) == 1
        too_grave = alone and any(judged.lower.level(scale) > level for scale, level in promise.at_most)
        unsaid = not said.issuperset(promise.advises)
        return (too_mild or too_grave or unsaid) and self.holds(survey, judged, "lower")

    def holds(self, survey: EvaluatedSurvey, judged: Evaluation, bound: Bound) -> bool:
        """Whether the promise speaks of this finding, at this bound."""
        if not is_spoken_of(self.kb, self.promise, judged.finding):
            return False
        states = [state_at(self.kb, survey.boat, other, bound) for other in survey.evaluations]
        mine = next(state for state in states if state.finding is judged.finding)
        return any(conjunct_holds(conjunct, mine, states, bound) for conjunct in self.conjuncts)


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
