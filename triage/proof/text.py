"""Clauses and rules as canonical text: the same text whatever the order of words, another as soon as the meaning is."""

from __future__ import annotations

from triage.knowledge.clauses import Clause, Probe
from triage.knowledge.model import Rule


def clause_text(clause: Clause, *, placed: bool = False) -> str:
    """A clause; when ``placed``, the zone and the sign are known to fit and are left out."""
    parts = [] if placed else [_some("zone", clause.zones), _some("sign", clause.signs)]
    parts += [_some(word, values) for word, values in sorted(clause.words)]
    parts += [f"{scale}>={level}" for scale, level in sorted(clause.levels)]
    parts += [f"{scale}<={level}" for scale, level in sorted(clause.bounds)]
    parts += sorted(map(probe_text, clause.probes))
    return " ".join(part for part in parts if part)


def probe_text(probe: Probe) -> str:
    """What a clause asks of other findings."""
    return f"{probe.count} {probe.where} ({' | '.join(sorted(map(clause_text, probe.clauses)))})"


def effects_text(rule: Rule) -> str:
    """What a rule does, but for the wording of its sentences."""
    kinds = sorted({advice.kind for advice in rule.advises})
    return f"raises {sorted(rule.raises)} {kinds} {len(rule.suspects)}"


def _some(word: str, values: frozenset[str] | None) -> str:
    return "" if values is None else f"{word}={'|'.join(sorted(values))}"
