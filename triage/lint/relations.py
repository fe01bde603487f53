"""What a statement of the knowledge meets: where it can hold, which others it subsumes or is subsumed by."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import islice

from triage.concluding.mending import repair_of
from triage.inference.evaluate import evaluate
from triage.knowledge.compiled.conjuncts import Conjunct, conjuncts_of
from triage.knowledge.model import KnowledgeBase, Presumption, Rule
from triage.knowledge.model.cause import Mark
from triage.knowledge.model.conditions import AtLeast, AtMost, Condition, parts
from triage.knowledge.model.promise import Promise
from triage.knowledge.model.repair import Repair
from triage.lint.nonvacuity import pairs_of
from triage.lint.redundancy import boats_for, ways_of

MAX_BOATS = 500
"""On which a rule is tried, to see which repairs fit what it concludes."""

Statement = Rule | Presumption | Promise | Repair


@dataclass(frozen=True)
class Neighbour:
    """Another rule that can hold on one of the same marks and raises one of the same scales.

    ``subsumes``: it holds wherever this one does and says as much. ``subsumed``: the other way round.
    """

    rule: Rule
    subsumes: bool
    subsumed: bool


def scales_read(condition: Condition) -> tuple[str, ...]:
    """The scales that a condition asks about, of its own finding or of others, in the order they are written."""
    read = (part.scale for part in parts(condition) if isinstance(part, (AtLeast, AtMost)))
    return tuple(dict.fromkeys(read))


def neighbours(kb: KnowledgeBase, rule: Rule) -> tuple[Neighbour, ...]:
    """Rules beside this one: first those that subsume it, then those that it subsumes, then the others."""
    here = _possible(kb, rule)
    scales = {scale for scale, _ in rule.raises}
    found = []
    for other in kb.rules:
        if other is not rule and not scales.isdisjoint(scale for scale, _ in other.raises):
            there = _possible(kb, other)
            if not here.keys().isdisjoint(there):
                found.append(Neighbour(other, _covers(other, there, rule, here), _covers(rule, here, other, there)))
    return tuple(sorted(found, key=lambda one: (not one.subsumes, not one.subsumed, one.rule.order)))


def presumptions_about(kb: KnowledgeBase, scales: Iterable[str], marks: Iterable[Mark]) -> tuple[Presumption, ...]:
    """Presumptions that speak of one of these scales on one of these marks."""
    wanted, here = set(scales), set(marks)
    return tuple(
        presumption
        for presumption in kb.presumptions
        if not wanted.isdisjoint(scale for scale, _ in presumption.presumes)
        and not here.isdisjoint(_possible(kb, presumption))
    )


def repairs_for(kb: KnowledgeBase, rule: Rule) -> tuple[Repair, ...]:
    """The repairs that are shown for what the rule concludes, where it holds with as little else as possible."""
    found: dict[Repair, None] = {}
    for boat, findings in islice(boats_for(kb, rule, ways_of(kb)), MAX_BOATS):
        judged = evaluate(kb, boat, findings)[0]
        if any(firing.rule is rule for firing in judged.lower.firings):
            repair = repair_of(kb, boat, judged, "lower")
            if repair:
                found[repair] = None
    return tuple(sorted(found, key=lambda repair: repair.order))


def rules_raising(kb: KnowledgeBase, scale: str, level: int) -> tuple[Rule, ...]:
    """The rules that raise a derived scale to exactly this level."""
    return tuple(rule for rule in kb.rules if (scale, level) in rule.raises)


def statements_reading(kb: KnowledgeBase, scale: str) -> tuple[Statement, ...]:
    """Rules, presumptions, promises and repairs whose condition asks about the scale."""
    everything: Sequence[Statement] = (*kb.all_rules, *kb.promises, *kb.mending.repairs)
    return tuple(one for one in everything if scale in scales_read(one.when))


def rules_at(kb: KnowledgeBase, marks: Iterable[Mark]) -> tuple[Rule, ...]:
    """The rules that can hold on one of these marks and ask for its zone or its sign by name."""
    here = set(marks)
    return tuple(
        rule
        for rule in kb.rules
        if any(
            (conjunct.zones is not None or conjunct.signs is not None) and not here.isdisjoint(pairs_of(kb, conjunct))
            for conjunct in conjuncts_of(kb, rule.when)
        )
    )


def _possible(kb: KnowledgeBase, one: Rule | Presumption) -> dict[Mark, tuple[Conjunct, ...]]:
    """The marks on which it can hold, each with the conjuncts that can."""
    found: dict[Mark, list[Conjunct]] = {}
    for conjunct in conjuncts_of(kb, one.when):
        for mark in pairs_of(kb, conjunct):
            found.setdefault(mark, []).append(conjunct)
    return {mark: tuple(conjuncts) for mark, conjuncts in found.items()}


def _covers(
    wide: Rule, wider: dict[Mark, tuple[Conjunct, ...]], narrow: Rule, narrower: dict[Mark, tuple[Conjunct, ...]]
) -> bool:
    """Whether ``wide`` holds whenever ``narrow`` does and raises as much, as far as their conditions alone show.

    What only follows through derived scales is not seen: a rule that is not called subsumed may be so all the same.
    """
    raises = dict(wide.raises)
    if narrow.speaks or any(raises.get(scale, 0) < level for scale, level in narrow.raises):
        return False
    return all(
        any(_asks_no_more(one, other) for one in wider.get(mark, ()))
        for mark, conjuncts in narrower.items()
        for other in conjuncts
    )


def _asks_no_more(one: Conjunct, other: Conjunct) -> bool:
    """Whether whatever satisfies ``other`` on a mark satisfies ``one`` there."""
    words, levels = dict(other.words), dict(other.levels)
    return (
        all(word in words and words[word] <= values for word, values in one.words)
        and all(levels.get(scale, 0) >= level for scale, level in one.levels)
        and set(one.quantifiers) <= set(other.quantifiers)
    )
