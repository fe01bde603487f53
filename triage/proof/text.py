"""Conjuncts and rules as canonical text: the same whatever the order of words, another as soon as the meaning is."""

from __future__ import annotations

from triage.knowledge.compiled.conjuncts import Conjunct, Quantifier
from triage.knowledge.model import Rule


def conjunct_text(conjunct: Conjunct, *, placed: bool = False) -> str:
    """A conjunct; when ``placed``, the zone and the sign are known to fit and are left out."""
    parts = [] if placed else [_some("zone", conjunct.zones), _some("sign", conjunct.signs)]
    parts += [_some(word, values) for word, values in sorted(conjunct.words)]
    parts += [f"{scale}>={level}" for scale, level in sorted(conjunct.levels)]
    parts += [f"{scale}<={level}" for scale, level in sorted(conjunct.bounds)]
    parts += sorted(map(quantifier_text, conjunct.quantifiers))
    return " ".join(part for part in parts if part)


def quantifier_text(quantifier: Quantifier) -> str:
    """What a conjunct asks of other findings."""
    return f"{quantifier.count} {quantifier.where} ({' | '.join(sorted(map(conjunct_text, quantifier.conjuncts)))})"


def effects_text(rule: Rule) -> str:
    """What a rule does, but for the wording of its sentences."""
    kinds = sorted({advice.kind for advice in rule.advises})
    return f"raises {sorted(rule.raises)} {kinds} {len(rule.suspects)}"


def _some(word: str, values: frozenset[str] | None) -> str:
    return "" if values is None else f"{word}={'|'.join(sorted(values))}"
