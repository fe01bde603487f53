"""The rules as formulas: what `evaluate` works out for one survey is built here for all of them, in the same order.

First the initial state of each bound, then stratum after stratum. `satisfies`, `related` and others mirror `evaluate`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeAlias

from triage.inference.evaluation import Bound
from triage.inference.program import CompiledRule, Program, program_of
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier
from triage.knowledge.model import OTHER_SIDE, SIDES, KnowledgeBase, Rule
from triage.proof.symbolic import Formula, at_least, atom, both, either, no
from triage.proof.symbolic_finding import SymbolicFinding


class SymbolicState:
    """A symbolic finding at one bound: when each level is reached, and when each rule fires."""

    def __init__(self, program: Program, finding: SymbolicFinding, bound: Bound) -> None:
        self.program, self.finding, self.bound = program, finding, bound
        self.levels = finding.initial(program, bound)
        self.fires: dict[Rule, Formula] = {}

    def level(self, scale: str, level: int) -> Formula:
        """The scale is at this level or worse."""
        return level == 0 or self.levels.get((scale, level), False)

    def satisfies(self, conjuncts: Iterable[Conjunct]) -> Formula:
        """One of the conjuncts holds, but for what it asks of other findings."""
        zone, sign = self.finding.zone, self.finding.sign
        return either(self.tests_hold(conjunct) for conjunct in conjuncts if conjunct.fits(zone, sign))

    def tests_hold(self, conjunct: Conjunct) -> Formula:
        """Levels and words of a conjunct."""
        levels = both(self.level(scale, level) for scale, level in conjunct.levels)
        if levels is False:
            return False
        return both((levels, *(self.finding.word_is(word, values, self.bound) for word, values in conjunct.words)))

    def holds(self, compiled: CompiledRule, context: Context) -> Formula:
        """One of the rule's conjuncts holds, with what it asks of other findings."""
        found = []
        for conjunct in compiled.conjuncts:
            tests = self.tests_hold(conjunct)
            if tests is not False:
                found.append(both((tests, *(context(quantifier, self) for quantifier in conjunct.quantifiers))))
        return either(found)

    def apply(self, stratum: int, context: Context) -> dict[tuple[str, int], list[Formula]]:
        """What the rules of a stratum raise, and when."""
        raised: dict[tuple[str, int], list[Formula]] = {}
        for compiled in self.program.rules_for(self.finding.zone, self.finding.sign)[stratum]:
            fires = self.holds(compiled, context)
            if fires is False:
                continue
            self.fires[compiled.rule] = fires
            for effect in compiled.rule.raises:
                raised.setdefault(effect, []).append(fires)
        return raised

    def take(self, raised: Mapping[tuple[str, int], list[Formula]]) -> None:
        """Reach what was raised, and with each level all those below it."""
        for scale in dict.fromkeys(scale for scale, _ in raised):
            above: Formula = False
            for level in range(self.finding.kb.scales[scale].top, 0, -1):
                above = either((self.level(scale, level), *raised.get((scale, level), ()), above))
                self.levels[scale, level] = above


Context: TypeAlias = Callable[[Quantifier, SymbolicState], Formula]
"""Whether the other findings on the boat answer a quantifier of this one."""


def empty_context(quantifier: Quantifier, mine: SymbolicState) -> Formula:  # noqa: ARG001 - it answers nobody
    """The context of a finding that is the only one on the boat."""
    return False


class Havoc:
    """Context of which nothing is known: each quantifier may hold or not, the same whoever asks and at both bounds."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.answers: dict[Quantifier, Formula] = {}

    def __call__(self, quantifier: Quantifier, mine: SymbolicState) -> Formula:  # noqa: ARG002 - whoever asks gets the same answer
        """Whether the context answers the quantifier."""
        if quantifier not in self.answers:
            self.answers[quantifier] = atom(f"{self.name} {len(self.answers)}")
        return self.answers[quantifier]


def symbolic_states(
    kb: KnowledgeBase, findings: Sequence[SymbolicFinding], bound: Bound, context: Context | None = None
) -> list[SymbolicState]:
    """These findings at one bound; they are all there are on the boat unless ``context`` says otherwise."""
    program = program_of(kb)
    states = [SymbolicState(program, finding, bound) for finding in findings]
    for stratum in range(len(program.strata)):
        around = context or among(states)
        raised = [state.apply(stratum, around) for state in states]
        for state, effects in zip(states, raised, strict=True):
            state.take(effects)
    return states


def among(states: Sequence[SymbolicState]) -> Context:
    """The context that these findings are to each other, as far as they have been judged."""
    if len(states) == 1:
        return empty_context

    def answers(quantifier: Quantifier, mine: SymbolicState) -> Formula:
        others = [other for other in states if other is not mine]
        return at_least(
            quantifier.count, [both((related(quantifier, mine, o), o.satisfies(quantifier.conjuncts))) for o in others]
        )

    return answers


def related(quantifier: Quantifier, mine: SymbolicState, other: SymbolicState) -> Formula:
    """Twin: same zone, other side. Same side: not known to be opposite. An unknown side counts at the upper bound."""
    me, it, wanted = mine.finding, other.finding, {side: side for side in SIDES}
    if quantifier.where == "anywhere":
        return True
    if quantifier.where == "twin":
        if not me.sided or me.zone != it.zone:
            return False
        wanted = OTHER_SIDE
    elif not (me.sided and it.sided):
        return True
    as_asked = either(both((me.side[side], it.side[there])) for side, there in wanted.items())
    unknown = no(both((either(me.side.values()), either(it.side.values()))))
    return as_asked if mine.bound == "lower" else either((as_asked, unknown))
