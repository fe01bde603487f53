"""How honest the knowledge is about itself: what is published, what is common practice, what is our own estimate."""

from __future__ import annotations

from collections import Counter

from triage.knowledge.model import Basis, KnowledgeBase

BASES = ("published", "by analogy", "common practice", "estimate")
"""What a statement can rest on; by analogy is published too, but of another trade."""


def basis_name(basis: Basis) -> str:
    """Which of `BASES` it is."""
    return "by analogy" if basis.analogy else basis.kind


def basis_counts(kb: KnowledgeBase) -> dict[str, Counter[str]]:
    """For each kind of statement how many rest on each of `BASES`."""
    kinds = {
        "rules": [rule.basis for rule in kb.rules],
        "presumptions": [presumption.basis for presumption in kb.presumptions],
        "scales": [scale.basis for scale in kb.scales.values() if scale.basis],
        "checks": [check.basis for check in kb.checks.values()],
        "causes": [cause.basis for cause in kb.causation.causes.values()],
        "events": [event.basis for event in kb.happenings.events.values()]
        + [rule.basis for rule in kb.happenings.rules],
        "repairs": [repair.basis for repair in kb.mending.repairs],
        "buying": list(kb.purchase.bases()),
    }
    return {kind: Counter(basis_name(basis) for basis in bases) for kind, bases in kinds.items() if bases}
