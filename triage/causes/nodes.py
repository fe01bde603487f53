"""What the nodes of the dependency graph are called, for reasons that are paths in it; without the graph itself."""

from __future__ import annotations

from triage.knowledge.compiled.reads import marks_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase, Rule, Suspect
from triage.knowledge.model.cause import Mark


def cause_node(cause: str) -> str:
    """The node of a cause, by its id."""
    return f"cause:{cause}"


def mark_node(zone: str, sign: str) -> str:
    """The node of a sign in a zone, by their ids."""
    return f"mark:{zone}/{sign}"


def check_node(zone: str, check: str) -> str:
    """The node of a check in a zone, by their ids."""
    return f"check:{zone}/{check}"


def zone_node(zone: str) -> str:
    """The node of a zone, by its id."""
    return f"zone:{zone}"


def any_mark_will_do(kb: KnowledgeBase, zone: str, rule: Rule) -> bool:
    """Whether the rule can hold for every mark that is met in the zone."""
    here = [sign for place, sign in marks_of(kb, rule) if place == zone]
    return len(here) == sum(sign != NOTHING_SEEN for sign in kb.offers[zone])


def source_and_suspect(kb: KnowledgeBase, mark: Mark, rule: Rule, suspect: Suspect) -> tuple[str, str]:
    """The two ends of the edge by which a rule that holds for a mark suspects something."""
    by_mark = mark in marks_of(kb, rule) and not any_mark_will_do(kb, mark[0], rule)
    return (mark_node(*mark) if by_mark else zone_node(mark[0])), mark_node(suspect.zone, suspect.sign)
