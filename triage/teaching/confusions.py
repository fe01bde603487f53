"""Which marks are taken for each other: what a drawing was made to stand beside, and what a description
names.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from jinja2 import TemplateNotFound

from triage.drawing.marks import confused_with
from triage.errors import BadInput, Place, Problem
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.model.teaching import Confusion, Lookalike
from triage.knowledge.per_knowledge import per_knowledge
from triage.parsing.text import did_you_mean

Pair = tuple[str, str]
"""Two signs that are taken for each other, in the order of the alphabet."""

_WORD = re.compile(r"[a-z]+(?:_[a-z]+)*")


@per_knowledge
def pairs_of(kb: KnowledgeBase) -> tuple[Pair, ...]:
    """Every two signs that are taken for each other and that some place may show: by their drawings and descriptions
    first, in the order of the signs, then by the confusions that are taught.
    """
    met = {sign for signs in kb.offers.values() for sign in signs}
    found: dict[Pair, None] = {}
    for sign in kb.signs:
        for other in _taken_for(kb, sign):
            if other != sign and {sign, other} <= met:
                found[min(sign, other), max(sign, other)] = None
    for confusion in kb.teaching.confusions.values():
        one, other = (alike.sign for alike in confusion.pair)
        if one != other and {one, other} <= met - {NOTHING_SEEN}:
            found[min(one, other), max(one, other)] = None
    return tuple(found)


def _taken_for(kb: KnowledgeBase, sign: str) -> tuple[str, ...]:
    named = [word for word in _WORD.findall(kb.signs[sign].not_this) if word in kb.signs]
    try:
        beside = confused_with(sign, named)
    except TemplateNotFound:  # knowledge of one's own may have a sign that nobody has drawn
        beside = tuple(named)
    return tuple(other for other in beside if other in kb.signs)


@per_knowledge
def taken_for(kb: KnowledgeBase) -> Mapping[str, tuple[str, ...]]:
    """By sign, those it is taken for."""
    found: dict[str, list[str]] = {sign: [] for sign in kb.signs}
    for one, other in pairs_of(kb):
        found[one].append(other)
        found[other].append(one)
    return {sign: tuple(others) for sign, others in found.items()}


def name_of(pair: Pair) -> str:
    """The pair as it is typed: both ids with a stroke between them."""
    return "/".join(pair)


def places_of(kb: KnowledgeBase, pair: Pair) -> tuple[str, ...]:
    """The places that may show either of the two."""
    return tuple(zone for zone, signs in kb.offers.items() if set(pair) <= set(signs))


def marks_of(kb: KnowledgeBase, confusion: Confusion) -> tuple[tuple[str, str, Mapping[str, int]], ...]:
    """What either of the two looks like on a boat: place, sign, and what the separating checks read.

    What has no fault is shown as what it is taken for, with its own readings.
    """
    one, other = confusion.pair
    pairs = ((one, other), (other, one))
    return tuple(found for mine, its in pairs if (found := _on_a_boat(kb, mine, its)) is not None)


def _on_a_boat(kb: KnowledgeBase, mine: Lookalike, its: Lookalike) -> tuple[str, str, Mapping[str, int]] | None:
    shown = its if mine.sign == NOTHING_SEEN else mine
    if shown.sign == NOTHING_SEEN:
        return None
    here = kb.applicable(shown.zone, shown.sign)
    return (
        shown.zone,
        shown.sign,
        {
            scale: level
            for scale, level in mine.readings.items()
            if scale in here and kb.best(shown.sign, scale) <= level <= kb.worst(shown.sign, scale)
        },
    )


def pair_named(kb: KnowledgeBase, said: str) -> Pair:
    """The pair of this name, either sign first: any two that some place may both show. Raises BadInput."""
    one, _, other = said.partition("/")
    pair = (min(one, other), max(one, other))
    if one != other and places_of(kb, pair):
        return pair
    names = [name_of(known) for known in pairs_of(kb)]
    beside = [name_of(known) for known in pairs_of(kb) if {one, other} & set(known)]
    hint = f"{did_you_mean(said, names)} There is {', '.join(beside or names[:6])}."
    raise BadInput([Problem(Place("the pair"), f'"{said}" are no two marks that one place may show', hint.strip())])
