"""Which derived scale feeds which, and the order in which they become final."""

from __future__ import annotations

from graphlib import CycleError, TopologicalSorter
from itertools import pairwise

from triage.knowledge.conditions import AtLeast, parts
from triage.knowledge.model import KnowledgeBase, Rule


def derived_read(kb: KnowledgeBase, rule: Rule) -> set[str]:
    """The derived scales that a rule reads, of its own finding or of others."""
    read = {part.scale for part in parts(rule.when) if isinstance(part, AtLeast)}
    return {scale for scale in read if not kb.scales[scale].observed}


def _fed_by(kb: KnowledgeBase) -> dict[str, dict[str, Rule]]:
    """For each derived scale those because of which it is raised, each with the first rule that does so."""
    found: dict[str, dict[str, Rule]] = {scale.id: {} for scale in kb.scales.values() if not scale.observed}
    for rule in kb.rules:
        for read in sorted(derived_read(kb, rule)):
            for scale, _ in rule.raises:
                found[scale].setdefault(read, rule)
    return found


def circle(kb: KnowledgeBase) -> list[tuple[str, str, Rule]]:
    """A circle of derived scales that feed each other, with a rule for each step; empty when there is none."""
    feeding = _fed_by(kb)
    try:
        TopologicalSorter(feeding).prepare()
    except CycleError as error:
        return [(read, raised, feeding[raised][read]) for read, raised in pairwise(error.args[1])]
    return []


def scale_layers(kb: KnowledgeBase) -> dict[str, int]:
    """For each derived scale the layer after which it is final, from 1. The base must be without circles."""
    sorter = TopologicalSorter(_fed_by(kb))
    sorter.prepare()
    layers: dict[str, int] = {}
    while sorter.is_active():
        final = sorter.get_ready()
        layers |= dict.fromkeys(final, max(layers.values(), default=0) + 1)
        sorter.done(*final)
    return layers
