"""Rules that never matter: for each one we look for a boat on which leaving it out changes what is concluded."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping

from triage.errors import Problem
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Fixpoint
from triage.inference.program import program_of
from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier, conjuncts_of
from triage.knowledge.model import KnowledgeBase, Rule
from triage.survey.model import Boat, Finding, Reading, opposite

Made = tuple[Boat, list[Finding]]
Ways = Mapping[tuple[str, int], Iterable[Conjunct]]
"""By derived scale and level, alternatives that lead there."""


def idle_rules(kb: KnowledgeBase) -> Iterator[Problem]:
    """Rules for which no such boat was found.

    A rule that raises scales must raise at least one of them higher than all other rules together do on some
    boat. Rules that read derived scales are tried on every mildest way to reach those levels.
    """
    ways = _ways(kb)
    for rule in kb.rules:
        if not any(_matters(kb, rule, made) for made in _boats(kb, rule, ways)):
            what = f"{rule.id} never matters: whenever it holds, other rules already say as much"
            yield Problem(rule.place, what, "Drop it, or say what it adds.")


def _matters(kb: KnowledgeBase, rule: Rule, made: Made) -> bool:
    boat, findings = made
    judged = evaluate(kb, boat, findings)[0].lower
    fired = [firing for firing in judged.firings if firing.rule is rule]
    if not fired:
        return False
    if rule.suspects or rule.advises:
        return True
    return any(_highest_without(judged, rule, scale) < level for scale, level in rule.raises)


def _highest_without(end: Fixpoint, rule: Rule, scale: str) -> int:
    raised = [
        level for firing in end.firings if firing.rule is not rule for s, level in firing.rule.raises if s == scale
    ]
    return max(raised, default=0)


def _ways(kb: KnowledgeBase) -> Ways:
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
    for chosen in itertools.islice(itertools.product(*choices), 4000):
        joined = _join(conjunct, chosen, dict(derived))
        if joined is not None:
            yield joined


def _boats(kb: KnowledgeBase, rule: Rule, ways: Ways) -> Iterator[Made]:
    """Boats on which the rule holds with as little else as possible."""
    for conjunct in conjuncts_of(kb, rule.when):
        for plain in _plain(kb, conjunct, ways):
            yield from itertools.islice(_findings(kb, plain, ways), 40)


def _join(conjunct: Conjunct, others: tuple[Conjunct, ...], derived: Mapping[str, int]) -> Conjunct | None:
    """One conjunct asking for all that these ask for, without the derived levels; None if they exclude each other."""
    zones, signs = conjunct.zones, conjunct.signs
    words = dict(conjunct.words)
    levels = {scale: level for scale, level in conjunct.levels if scale not in derived}
    quantifiers = list(conjunct.quantifiers)
    for other in others:
        zones = other.zones if zones is None else zones if other.zones is None else zones & other.zones
        signs = other.signs if signs is None else signs if other.signs is None else signs & other.signs
        for word, values in other.words:
            words[word] = words[word] & values if word in words else values
        for scale, level in other.levels:
            levels[scale] = max(level, levels.get(scale, 0))
        quantifiers.extend(other.quantifiers)
    if frozenset() in (zones, signs, *words.values()):
        return None
    return Conjunct(zones, signs, tuple(words.items()), tuple(levels.items()), (), tuple(quantifiers))


def _findings(kb: KnowledgeBase, conjunct: Conjunct, ways: Ways, *, depth: int = 0) -> Iterator[Made]:
    """Boats whose first finding satisfies the conjunct exactly at its limits."""
    for zone, offered in kb.offers.items():
        if conjunct.zones is not None and zone not in conjunct.zones:
            continue
        for sign in offered:
            if conjunct.signs is not None and sign not in conjunct.signs:
                continue
            if any(scale not in kb.applicable(zone, sign) for scale, _ in conjunct.levels):
                continue
            if any(level > kb.worst(sign, scale) for scale, level in conjunct.levels):
                continue
            words = {word: min(values) for word, values in conjunct.words}
            side = words.pop("side", "port" if kb.zones[zone].sided else None)
            buoyant = {zone: words.pop("encloses_buoyancy")} if "encloses_buoyancy" in words else {}
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
            for plain in itertools.islice(_plain(kb, conjunct, ways), 50):
                for _, (other, *_) in itertools.islice(_findings(kb, plain, ways, depth=1), 30):
                    if quantifier.where == "twin" and other.zone != me.zone:
                        continue
                    side = opposite(me.side) if quantifier.where == "twin" else other.side
                    found.append(
                        [
                            Finding(f"other{n}", other.zone, other.sign, side, other.readings)
                            for n in range(quantifier.count)
                        ]
                    )
        choices.append(found[:20])
    for groups in itertools.islice(itertools.product(*choices), 30):
        yield [
            Finding(f"{n}-{finding.id}", finding.zone, finding.sign, finding.side, finding.readings)
            for n, group in enumerate(groups)
            for finding in group
        ]


def _readings(conjunct: Conjunct) -> dict[str, Reading]:
    return {scale: Reading.at(level) for scale, level in conjunct.levels}
