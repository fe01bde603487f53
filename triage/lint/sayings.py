"""Repairs that say otherwise than the rules: in hands that are never enough, or what a rule says never to do."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import pairwise

from triage.concluding.mending import barred, repair_of
from triage.errors import Problem
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import BOUNDS, Bound, Evaluation
from triage.knowledge.model import HANDS, KnowledgeBase
from triage.knowledge.model.repair import Repair
from triage.knowledge.model.rule import stated_at
from triage.survey.model import Boat, Finding, Reading

BOAT = Boat("any")
NEGATIONS = {"no", "not", "never", "nothing", "nobody", "without"}
SMALL_WORDS = {
    *("a", "an", "the", "it", "its", "this", "that", "each", "new", "is", "are", "be", "or", "and", "then", "again"),
    *("on", "in", "to", "of", "over", "for", "with", "at", "by", "from", "even"),
}
CONDITIONS = re.compile(r"; | (?:before|until|after) ")
"""What follows these in a sentence is no longer forbidden by it."""


def contradicted_repairs(kb: KnowledgeBase) -> Iterator[Problem]:
    """Every mark unanswered, at its mildest, with each reading at its worst and with all of them so, at both ends."""
    least: dict[str, int] = {}
    for judged, bound in _ends(kb):
        repair = repair_of(kb, BOAT, judged, bound)
        if repair is None:
            continue
        asked = judged.end(bound).level(HANDS)
        least[repair.id] = min(asked, least.get(repair.id, asked))
        barring = barred(kb, judged, bound)
        sentences = [*repair.outline, repair.meanwhile, *([] if barring & set(repair.lets) else [repair.holding])]
        yield from _said_and_forbidden(repair, sentences, judged, bound)
    for repair in kb.mending.repairs:
        if least.get(repair.id, 0) > repair.who:
            wanted = kb.level_name(HANDS, least[repair.id])
            what = (
                f"{repair.id} says {kb.level_name(HANDS, repair.who)}, and wherever it is shown the rules say {wanted}"
            )
            yield Problem(repair.place, what, f"Write who: {wanted}, or mend the rules of hands.")


def _ends(kb: KnowledgeBase) -> Iterator[tuple[Evaluation, Bound]]:
    for zone, signs in kb.offers.items():
        for sign in signs:
            for levels in _answers(kb, zone, sign):
                readings = {scale: Reading.at(level) for scale, level in levels.items()}
                (judged,) = evaluate(kb, BOAT, [Finding("mark", zone, sign, None, readings)])
                yield from ((judged, bound) for bound in BOUNDS)


def _answers(kb: KnowledgeBase, zone: str, sign: str) -> Iterator[Mapping[str, int]]:
    scales = kb.applicable(zone, sign)
    best = {scale: kb.best(sign, scale) for scale in scales}
    yield {}
    for worst in ((), *((scale,) for scale in scales), scales):
        yield best | {scale: kb.worst(sign, scale) for scale in worst}


def _said_and_forbidden(repair: Repair, sentences: list[str], judged: Evaluation, bound: Bound) -> Iterator[Problem]:
    said = {pair: one for text in sentences for one in _sentences(text) if not _denies(one) for pair in _pairs(one)}
    for firing in judged.end(bound).firings:
        for advice in firing.rule.advises:
            if advice.kind == "never" and stated_at(advice.kind) == bound:
                for pair in sorted(_pairs(CONDITIONS.split(advice.say)[0]) & said.keys()):
                    what = (
                        f"{repair.id} says “{said[pair]}”, and where it is shown {firing.rule.id} says “{advice.say}”"
                    )
                    yield Problem(repair.place, what, "Both are told in one report: take it out of one of them.")
                    break


def _sentences(text: str) -> list[str]:
    return re.split(r"(?<=[.!?;])\s+", text) if text else []


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z]+", text.lower())


def _denies(text: str) -> bool:
    return not NEGATIONS.isdisjoint(_words(text))


def _pairs(text: str) -> set[tuple[str, str]]:
    """Words that stand beside each other, small ones left out: two of them alike mean that the same thing is said."""
    return set(pairwise(word for word in _words(text) if word not in SMALL_WORDS | NEGATIONS))
