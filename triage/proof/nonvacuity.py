"""Non-vacuity: each rule says something new on some boat, and each level of each derived scale is reached."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.inference.evaluation import Fixpoint
from triage.knowledge.compiled.conjuncts import conjuncts_of
from triage.knowledge.compiled.reads import derived_read
from triage.knowledge.model import KnowledgeBase, Rule
from triage.proof.claims import Claim, EvaluatedSurvey, Question
from triage.proof.scopes import ZoneSign, all_alike, at_worst, candidates_for, likely
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_state import SymbolicState
from triage.proof.symbolic_survey import SymbolicSurvey
from triage.proof.text import conjunct_text, effects_text


def nonvacuity_claims(kb: KnowledgeBase) -> Iterator[Claim]:
    """One claim for each rule, and one for each level of each derived scale above the first."""
    for rule in kb.rules:
        yield RuleRedundancy(kb, rule).claim()
    for scale in kb.scales.values():
        for level in () if scale.observed else range(1, scale.top + 1):
            yield LevelReachability(kb, scale.id, level).claim()


class RuleRedundancy:
    """Whether a rule says something that no other rule says on the same boat.

    It is enough to look at the rules that fire beside it: of the scales it raises take the first in the order of
    strata; whatever else raises that one as high reads only scales before it, and so does not owe its firing to this
    rule; and so on for the next.
    """

    def __init__(self, kb: KnowledgeBase, rule: Rule) -> None:
        self.kb, self.rule = kb, rule
        self.conjuncts = conjuncts_of(kb, rule.when)

    def claim(self) -> Claim:
        """That on some boat the rule is not redundant."""
        rule = self.rule
        says = f"{rule.id} says something that no other rule says."
        goals = frozenset(scale for scale, _ in rule.raises) | derived_read(self.kb, rule)
        text = f"{sorted(map(conjunct_text, self.conjuncts))} {effects_text(rule)}"
        return Claim(
            "nonvacuity",
            rule.id,
            says,
            goals,
            text,
            self.candidates,
            self.adds_something,
            self.is_shown,
            existential=True,
            likely=self.likely,
            feasible=self.feasible,
        )

    def candidates(self, pair: ZoneSign) -> list[tuple[ZoneSign, ...]]:
        """The sign in the zone, with every other finding that the rule's condition can ask for."""
        return candidates_for(self.kb, self.conjuncts, pair, all_alike)

    def likely(self, pair: ZoneSign) -> bool:
        """Whether the rule can hold there without a context."""
        return likely(self.kb, self.conjuncts, pair)

    def adds_something(self, survey: SymbolicSurvey) -> Question:
        """A survey on which it certainly adds something to what the other rules say."""
        return Question(self.adds_at(survey.states["lower"][0]), (survey.inputs,))

    def feasible(self, survey: SymbolicSurvey) -> Formula:
        """It adds something in a context of which nothing is known."""
        return self.adds_at(survey.in_context["lower"])

    def adds_at(self, state: SymbolicState) -> Formula:
        """It fires, and raises a scale higher than all others that fire."""
        fires = state.fires.get(self.rule, False)
        if self.rule.speaks:
            return fires
        beside = [
            (scale, at, f) for rule, f in state.fires.items() if rule is not self.rule for scale, at in rule.raises
        ]
        unmatched = (
            both(no(fired) for other, reached, fired in beside if other == scale and reached >= level)
            for scale, level in self.rule.raises
        )
        return both((fires, either(unmatched)))

    def is_shown(self, surveys: Sequence[EvaluatedSurvey]) -> bool:
        """Whether it certainly adds something on one of these surveys."""
        return any(self.adds(judged.lower) for survey in surveys for judged in survey.evaluations)

    def adds(self, fixpoint: Fixpoint) -> bool:
        """It is among the firings, and raises a scale higher than all others there."""
        if all(firing.rule is not self.rule for firing in fixpoint.firings):
            return False
        if self.rule.speaks:
            return True
        beside = [
            effect for firing in fixpoint.firings if firing.rule is not self.rule for effect in firing.rule.raises
        ]
        return any(
            all(reached < level for other, reached in beside if other == scale) for scale, level in self.rule.raises
        )


class LevelReachability:
    """Whether a derived scale ever reaches a level for certain."""

    def __init__(self, kb: KnowledgeBase, scale: str, level: int) -> None:
        self.kb, self.scale, self.level = kb, scale, level

    def claim(self) -> Claim:
        """That on some boat the level is reached."""
        name = f"{self.scale} {self.level}"
        says = f"{self.scale} can be {self.kb.level_name(self.scale, self.level)}."
        goals = frozenset({self.scale})
        return Claim(
            "nonvacuity",
            name,
            says,
            goals,
            name,
            self.candidates,
            self.reached,
            self.is_reached,
            existential=True,
            likely=self.likely,
        )

    def candidates(self, pair: ZoneSign) -> list[tuple[ZoneSign, ...]]:
        """The sign in the zone by itself; contexts are searched after all of these."""
        return [(pair,)]

    def likely(self, pair: ZoneSign) -> bool:
        """Whether the worst answers to everything reach the level there."""
        return at_worst(self.kb)[pair].get(self.scale, 0) >= self.level

    def reached(self, survey: SymbolicSurvey) -> Question:
        """A survey on which the level is certainly reached."""
        return Question(survey.states["lower"][0].level(self.scale, self.level), (survey.inputs,))

    def is_reached(self, surveys: Sequence[EvaluatedSurvey]) -> bool:
        """Whether it is certainly reached on one of these surveys."""
        return any(judged.lower.level(self.scale) >= self.level for survey in surveys for judged in survey.evaluations)
