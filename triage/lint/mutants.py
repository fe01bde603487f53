"""Every small way to spoil a rule; its cases must notice each of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from triage.errors import Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is
from triage.lint.cases import survives

Mutant = tuple[str, Condition]


def surviving_mutants(kb: KnowledgeBase) -> Iterator[Problem]:
    """Spoilt conditions under which every case of the rule still comes out as expected."""
    for rule in kb.all_rules:
        for change, mutant in mutants(rule.when, kb):
            if survives(kb, rule, mutant):
                yield Problem(rule.place, f"{rule.id}: no case notices {change}", "Add a case that does.")


def mutants(condition: Condition, kb: KnowledgeBase) -> Iterator[Mutant]:
    """The condition spoilt once: a limit moved, a word struck from a list, a line dropped, a count changed."""
    match condition:
        case All(parts):
            yield from _one_part_spoilt("line", All, parts, kb)
        case Any(parts):
            yield from _one_part_spoilt("branch", Any, parts, kb)
        case AtLeast(scale, level):
            for other in (level + 1, level - 1):
                if 1 <= other <= kb.scales[scale].top:
                    yield f"{scale}: {{at_least: {other}}} in place of {level}", AtLeast(scale, other)
        case AtMost(scale, level):
            for other in (level + 1, level - 1) if level > 0 else (level + 1,):
                yield f"{scale}: {{at_most: {other}}} in place of {level}", AtMost(scale, other)
        case Is(word, values):
            for value in values if len(values) > 1 else ():
                yield f'that "{value}" is gone from {word}', Is(word, tuple(v for v in values if v != value))
        case Elsewhere():
            yield from _others_spoilt(condition, kb)


def _one_part_spoilt(
    name: str, joined: type[All] | type[Any], parts: tuple[Condition, ...], kb: KnowledgeBase
) -> Iterator[Mutant]:
    for index, part in enumerate(parts):
        before, after = parts[:index], parts[index + 1 :]
        yield f"that the {name} {described(part)} is gone", joined((*before, *after))
        for what, spoilt in mutants(part, kb):
            yield what, joined((*before, spoilt, *after))


def _others_spoilt(condition: Elsewhere, kb: KnowledgeBase) -> Iterator[Mutant]:
    count, inner = condition.count, condition.condition
    for other in (count + 1, count - 1) if count > 1 else (count + 1,):
        yield f"{other} others in place of {count}", replace(condition, count=other)
    if condition.where != "anywhere":
        yield f"that {condition.where} is gone", replace(condition, where="anywhere")
    if not isinstance(inner, All):
        yield f"elsewhere, that the line {described(inner)} is gone", replace(condition, condition=All(()))
    for what, spoilt in mutants(inner, kb):
        yield f"elsewhere, {what}", replace(condition, condition=spoilt)


def described(condition: Condition) -> str:
    """A condition in one line, as it might be written."""
    match condition:
        case Is(word, values):
            return f"{word}: {', '.join(values)}"
        case AtLeast(scale, level):
            return f"{scale}: {{at_least: {level}}}"
        case AtMost(scale, level):
            return f"{scale}: {{at_most: {level}}}"
        case Elsewhere(inner):
            return f"elsewhere: {{{described(inner)}}}"
        case All(parts):
            return ", ".join(described(part) for part in parts)
        case Any(parts):
            return "any: [" + "; ".join(described(part) for part in parts) + "]"
