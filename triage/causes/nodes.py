"""What the nodes of the dependency graph are called, so that reasons can name them without the graph.

``cause:grounding``, ``mark:board/foil_split``, ``check:case_root/flex_watch`` and ``zone:board``.
"""

from __future__ import annotations

from collections import Counter

from triage.knowledge.cause import Mark
from triage.knowledge.consequences import marks_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase, Rule


def cause_node(cause: str) -> str:
    return f"cause:{cause}"


def mark_node(zone: str, sign: str) -> str:
    return f"mark:{zone}/{sign}"


def check_node(zone: str, check: str) -> str:
    return f"check:{zone}/{check}"


def zone_node(zone: str) -> str:
    return f"zone:{zone}"


def sources(kb: KnowledgeBase, rule: Rule) -> dict[Mark, str]:
    """For each mark on which the rule can hold, the node where its suspicions start.

    That is the mark, or its zone where any mark there will do.
    """
    marks = marks_of(kb, rule)
    held = Counter(zone for zone, _ in marks)
    wide = {zone for zone in held if held[zone] == len(set(kb.offers[zone]) - {NOTHING_SEEN})}
    return {(zone, sign): zone_node(zone) if zone in wide else mark_node(zone, sign) for zone, sign in marks}
