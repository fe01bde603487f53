"""Redundancy: for each rule we look for a boat on which leaving it out changes what is concluded."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from triage.errors import Problem
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Fixpoint
from triage.inference.program import program_of
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier, conjunction, conjuncts_of
from triage.knowledge.model import BUOYANCY, KnowledgeBase, Rule
from triage.lint.nonvacuity import can_hold, pairs_of
from triage.survey.model import Boat, Finding, Reading, opposite

Made = tuple[Boat, list[Finding]]
Ways = Mapping[tuple[str, int], Iterable[Conjunct]]
"""By derived scale and level, alternatives that lead there."""

# How far we look. All of it is more than the shipped rules need; without an end, a rule that reads several derived
# scales and several others elsewhere would be tried on more boats than anybody waits for.
MAX_WAYS = 4000
"""Of reaching the derived levels that one conjunct reads."""
MAX_MARKS = 40
"""On which one conjunct is tried."""
MAX_WAYS_ELSEWHERE, MAX_MARKS_ELSEWHERE = 50, 30
"""The same for what a quantifier asks of other findings."""
MAX_ANSWERS = 20
"""Findings that answer one quantifier."""
MAX_CONTEXTS = 30
"""Choices of one answer for each quantifier."""


def redundant_rules(kb: KnowledgeBase) -> Iterator[Problem]:
    """Rules for which no such boat was found.

    A rule that raises scales must raise at least one of them higher than all other rules together do on some
    boat. Rules that read derived scales are tried on every mildest way to reach those levels. Those that can never
    hold are reported by `nonvacuity` alone.
    """
    ways = ways_of(kb)
    for rule in kb.rules:
        if not can_hold(kb, rule.when):
            continue
        ever = False
        for boat, findings in boats_for(kb, rule, ways):
            judged = evaluate(kb, boat, findings)[0].lower
            holds = any(firing.rule is rule for firing in judged.firings)
            if holds and _adds(judged, rule):
                break
            ever = ever or holds
        else:
            yield _problem(rule, ever)


def _problem(rule: Rule, ever: bool) -> Problem:
    if ever:
        what = f"{rule.id} never matters: whenever it holds, other rules already say as much"
        return Problem(rule.place, what, "Drop it, or say what it adds.")
    what = f"{rule.id} holds on no boat that was tried: what it reads is never raised so far there"
    return Problem(rule.place, what, "See which rules raise what it reads, and where: triage rules show SCALE.")


def _adds(fixpoint: Fixpoint, rule: Rule) -> bool:
    """Whether a rule that holds says something that no other rule says here."""
    return rule.speaks or any(_highest_without(fixpoint, rule, scale) < level for scale, level in rule.raises)


def _highest_without(fixpoint: Fixpoint, rule: Rule, scale: str) -> int:
    raised = [
        level for firing in fixpoint.firings if firing.rule is not rule for s, level in firing.rule.raises if s == scale
    ]
    return max(raised, default=0)


def ways_of(kb: KnowledgeBase) -> Ways:
    """For each derived level, the conjuncts on observed scales alone by which some rule reaches it."""
    ways: dict[tuple[str, int], dict[Conjunct, None]] = {}
    for stratum in program_of(kb).strata:
        for compiled in stratum.rules:
            plain = [way for conjunct in compiled.conjuncts for way in _plain(kb, conjunct, ways)]
            for effect in compiled.rule.raises:
                ways.setdefault(effect, {}).update(dict.fromkeys(plain))
    return ways


def _plain(kb: KnowledgeBase, conjunct: Conjunct, ways: Ways) -> Iterator[Conjunct]:
    """The conjunct with every derived level replaced by a way to reach it."""
    derived = [(scale, level) for scale, level in conjunct.levels if not kb.scales[scale].observed]
    choices = (ways.get(want, ()) for want in derived)
    for chosen in itertools.islice(itertools.product(*choices), MAX_WAYS):
        joined = _joined(conjunct, chosen, dict(derived))
        if joined is not None:
            yield joined


def boats_for(kb: KnowledgeBase, rule: Rule, ways: Ways) -> Iterator[Made]:
    """Boats on which the rule holds with as little else as possible."""
    for conjunct in conjuncts_of(kb, rule.when):
        for plain in _plain(kb, conjunct, ways):
            yield from itertools.islice(_findings(kb, plain, ways), MAX_MARKS)


def _joined(conjunct: Conjunct, others: tuple[Conjunct, ...], derived: Mapping[str, int]) -> Conjunct | None:
    """One conjunct asking for all that these ask for, without the derived levels; None if they exclude each other."""
    observed = tuple((scale, level) for scale, level in conjunct.levels if scale not in derived)
    joined = conjunction((replace(conjunct, levels=observed), *others))
    if joined is None or frozenset() in (values for _, values in joined.words):
        return None
    return joined


def _findings(kb: KnowledgeBase, conjunct: Conjunct, ways: Ways, *, depth: int = 0) -> Iterator[Made]:
    """Boats whose first finding satisfies the conjunct exactly at its limits."""
    for zone, sign in pairs_of(kb, conjunct):
        words = {word: min(values) for word, values in conjunct.words}
        side = words.pop("side", "port" if kb.zones[zone].sided else None)
        buoyant = {zone: words.pop(BUOYANCY)} if BUOYANCY in words else {}
        me = Finding("me", zone, sign, side, _readings(conjunct))
        for others in _others(kb, conjunct.quantifiers, me, ways, depth):
            yield Boat("any", words, None, buoyant), [me, *others]


def _others(
    kb: KnowledgeBase, quantifiers: tuple[Quantifier, ...], me: Finding, ways: Ways, depth: int
) -> Iterator[list[Finding]]:
    """Other findings that answer every quantifier, each as mildly as can be."""
    if not quantifiers:
        yield []
        return
    if depth:
        return
    choices = []
    for quantifier in quantifiers:
        found = []
        for conjunct in quantifier.conjuncts:
            for plain in itertools.islice(_plain(kb, conjunct, ways), MAX_WAYS_ELSEWHERE):
                for _, (other, *_) in itertools.islice(_findings(kb, plain, ways, depth=1), MAX_MARKS_ELSEWHERE):
                    if quantifier.where == "twin" and other.zone != me.zone:
                        continue
                    side = opposite(me.side) if quantifier.where == "twin" else other.side
                    found.append(
                        [
                            Finding(f"other{n}", other.zone, other.sign, side, other.readings)
                            for n in range(quantifier.count)
                        ]
                    )
        choices.append(found[:MAX_ANSWERS])
    for groups in itertools.islice(itertools.product(*choices), MAX_CONTEXTS):
        yield [
            Finding(f"{n}-{finding.id}", finding.zone, finding.sign, finding.side, finding.readings)
            for n, group in enumerate(groups)
            for finding in group
        ]


def _readings(conjunct: Conjunct) -> dict[str, Reading]:
    return {scale: Reading.at(level) for scale, level in conjunct.levels}
