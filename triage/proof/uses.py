"""That nothing is idle: each rule says something new on some boat, and each level of each derived scale is reached."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.inference.evaluation import Fixpoint
from triage.knowledge.compiled.conjuncts import conjuncts_of
from triage.knowledge.compiled.reads import derived_read
from triage.knowledge.model import KnowledgeBase, Rule
from triage.proof.claims import Claim, Question, Seen
from triage.proof.scopes import ZoneSign, all_alike, at_worst, grounds_for, likely
from triage.proof.solver import SymbolicState
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_survey import SymbolicSurvey
from triage.proof.text import clause_text, effects_text


def use_claims(kb: KnowledgeBase) -> Iterator[Claim]:
    """One claim for each rule, and one for each level of each derived scale above the first."""
    for rule in kb.rules:
        yield AskedRule(kb, rule).claim()
    for scale in kb.scales.values():
        for level in () if scale.observed else range(1, scale.top + 1):
            yield AskedLevel(kb, scale.id, level).claim()


class AskedRule:
    """Whether a rule says something that no other rule says on the same boat.

    It is enough to look at the rules that fire beside it: of the scales it raises take the first in the order of
    strata; whatever else raises that one as high reads only scales before it, and so does not owe its firing to this
    rule; and so on for the next.
    """

    def __init__(self, kb: KnowledgeBase, rule: Rule) -> None:
        self.kb, self.rule = kb, rule
        self.conjuncts = conjuncts_of(kb, rule.when)

    def claim(self) -> Claim:
        rule = self.rule
        says = f"{rule.id} says something that no other rule says."
        goals = frozenset(scale for scale, _ in rule.raises) | derived_read(self.kb, rule)
        text = f"{sorted(map(clause_text, self.conjuncts))} {effects_text(rule)}"
        return Claim(
            "use",
            rule.id,
            says,
            goals,
            text,
            self.candidates,
            self.matters,
            self.is_seen,
            somewhere=True,
            likely=self.likely,
            hope=self.hope,
        )

    def candidates(self, pair: ZoneSign) -> list[tuple[ZoneSign, ...]]:
        return grounds_for(self.kb, self.conjuncts, pair, all_alike)

    def likely(self, pair: ZoneSign) -> bool:
        return likely(self.kb, self.conjuncts, pair)

    def matters(self, ground: SymbolicSurvey) -> Question:
        return Question(self.new_at(ground.ends["lower"][0]), (ground.survey,))

    def hope(self, ground: SymbolicSurvey) -> Formula:
        return self.new_at(ground.in_company["lower"])

    def new_at(self, end: SymbolicState) -> Formula:
        """It fires, and raises a scale higher than all others that fire."""
        fires = end.fires.get(self.rule, False)
        if self.rule.speaks:
            return fires
        beside = [(scale, at, f) for rule, f in end.fires.items() if rule is not self.rule for scale, at in rule.raises]
        alone = (
            both(no(fired) for other, reached, fired in beside if other == scale and reached >= level)
            for scale, level in self.rule.raises
        )
        return both((fires, either(alone)))

    def is_seen(self, seen: Sequence[Seen]) -> bool:
        return any(self.is_new(judged.lower) for one in seen for judged in one.judged)

    def is_new(self, end: Fixpoint) -> bool:
        if all(firing.rule is not self.rule for firing in end.firings):
            return False
        if self.rule.speaks:
            return True
        beside = [effect for firing in end.firings if firing.rule is not self.rule for effect in firing.rule.raises]
        return any(
            all(reached < level for other, reached in beside if other == scale) for scale, level in self.rule.raises
        )


class AskedLevel:
    """Whether a derived scale ever reaches a level for certain."""

    def __init__(self, kb: KnowledgeBase, scale: str, level: int) -> None:
        self.kb, self.scale, self.level = kb, scale, level

    def claim(self) -> Claim:
        name = f"{self.scale} {self.level}"
        says = f"{self.scale} can be {self.kb.level_name(self.scale, self.level)}."
        goals = frozenset({self.scale})
        return Claim(
            "use",
            name,
            says,
            goals,
            name,
            self.candidates,
            self.reached,
            self.is_reached,
            somewhere=True,
            likely=self.likely,
        )

    def candidates(self, pair: ZoneSign) -> list[tuple[ZoneSign, ...]]:
        return [(pair,)]

    def likely(self, pair: ZoneSign) -> bool:
        return at_worst(self.kb)[pair].get(self.scale, 0) >= self.level

    def reached(self, ground: SymbolicSurvey) -> Question:
        return Question(ground.ends["lower"][0].level(self.scale, self.level), (ground.survey,))

    def is_reached(self, seen: Sequence[Seen]) -> bool:
        return any(judged.lower.level(self.scale) >= self.level for one in seen for judged in one.judged)
