"""Whether words tell more of a mark that was told before, or of another one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from triage.knowledge.model import KnowledgeBase
from triage.listening.choosing import MOST_ASKED, Choice, Chosen
from triage.listening.naming import marks_named, places_named
from triage.listening.observing import observed
from triage.listening.parts import Part
from triage.listening.phrase_matcher import stem
from triage.listening.pointing import points_back
from triage.listening.statements import Found
from triage.survey.model import Finding

_SAME = 0.15
"""How likely a mark heard before must be, in words that name no place, for these to speak of the same one."""

_WET = frozenset(("tank_water", "ingress_rate"))
"""Scales of marks that let water in, of which so many litres are more."""

_MAYBE_ANOTHER = frozenset(("it", "its", "one"))
"""Words that may point back to the boat, and not to the mark, or to another part: "it leaks", "one end"."""

_FEW = 2
"""Words that say something, up to which a clause that fits no place in hand tells of no other mark ("and creaks")."""


def is_of(kb: KnowledgeBase, mark: Found, own: Chosen, group: Part) -> bool:
    """Whether a clause that names no place tells more of the mark before it: at no place that may be meant there,
    or of a reading of that mark ("sounds dull" of a soft panel).
    """
    best = own.pairs[0] if own.pairs else None
    if best is None or best.zone not in {one.zone for one in mark.choices}:
        few = len(group.names) <= _FEW and not _is_one_more(kb, group)
        return best is None or group.sized or few or bool(points_back(kb, [token.word for token in group.tokens]))
    return _read_in(kb, mark, [token.word for token in group.tokens]) is not None


def _is_one_more(kb: KnowledgeBase, group: Part) -> bool:
    """Whether the words begin with a mark that was not told before: "a chip on the corner"."""
    scope = kb.lexicon.speech.scope
    said = [token.word for token in group.tokens if token.word not in scope.hesitations]
    return bool(said) and said[0] in scope.one_more and bool(marks_named(kb).named(group.names))


def is_the_same(kb: KnowledgeBase, mark: Found, own: Chosen) -> bool:
    """Whether it is the same damage in other words: at the same place, and judged by the same, or both of a panel."""
    if not own.pairs or own.pairs[0].zone != mark.zone:
        return False
    one, other = (set(kb.about(mark.zone, sign)) for sign in (mark.sign, own.pairs[0].sign))
    return bool(one and other) and (one == other or one | other <= set(kb.lexicon.speech.scope.told_beside))


def with_choice(kb: KnowledgeBase, mark: Found, other: Choice) -> Found:
    """The mark with what else it may be; asked where that is judged by something else."""
    rest = [one for one in mark.choices if (one.zone, one.sign) != (other.zone, other.sign)]
    if (mark.zone, mark.sign) == (other.zone, other.sign):  # said twice, it is the surer of the two
        first = max(mark.choices[0], other, key=lambda one: one.sure)
        return replace(mark, sure=first.sure, choices=(first, *rest))
    alike = set(kb.about(mark.zone, mark.sign)) == set(kb.about(other.zone, other.sign))
    return replace(mark, choices=(mark.choices[0], other, *rest[1:])[:MOST_ASKED], clear=mark.clear and alike)


def _tells_of_the_panel(kb: KnowledgeBase, last: Found, part: Part) -> bool:
    """Whether the words name no place, and but a mark that is a reading of the last one: "it sounds dull"."""
    named = [sign for sign in marks_named(kb).named(part.subject) if sign in kb.offers[last.zone]]
    told = set(kb.lexicon.speech.scope.told_beside)
    judged = told.intersection(kb.applicable(last.zone, last.sign))
    about = [set(kb.about(last.zone, sign)) for sign in named]
    return not places_named(kb).named(part.subject) and bool(about) and all(one and one <= judged for one in about)


def _read_in(kb: KnowledgeBase, mark: Found, words: Sequence[str]) -> tuple[str, str] | None:
    """The reading of a panel that the words make of the mark, as scale and answer."""
    judged = [scale for scale in kb.lexicon.speech.scope.told_beside if scale in kb.applicable(mark.zone, mark.sign)]
    return observed(kb, words, Finding("", mark.zone, mark.sign), judged)


@dataclass(frozen=True)
class Before:
    """The mark told of last, if any, the word by which the words to be heard point back to it, if they do, and whether
    they begin with what somebody did to find out.
    """

    last: Found | None = None
    pointed_to: str = ""
    tried: bool = False


def is_again(kb: KnowledgeBase, chosen: Chosen, before: Before, part: Part) -> bool:
    """Whether it is the mark told of just before, spoken of again: words that name no place, and tell of the same, or
    point back to it and name no mark. "It leaks" names one: it may be the boat that is meant.
    """
    last = before.last
    if last is None:
        return False
    if before.pointed_to:
        beside = [one for one in part.subject if one != stem(before.pointed_to)]
        named = marks_named(kb).named(beside)
        its_own = before.tried or before.pointed_to in kb.lexicon.speech.scope.points_back - _MAYBE_ANOTHER
        marks = kb.offers[last.zone] if its_own else named  # what came of a test of it is no mark of another part
        names_one = part.wet or not named.keys().isdisjoint(marks) or places_named(kb).named(beside)
        if not names_one or _tells_of_the_panel(kb, last, part):
            return True
    if places_named(kb).named(part.names):
        return False
    if part.wet and lets_water_in(kb, last) and not marks_named(kb).named(part.names):
        return True  # "about a pint in an hour"
    return any(sure >= _SAME and (sign == last.sign or was_tightened(kb, sign, last)) for sign, sure in chosen.signs)


def lets_water_in(kb: KnowledgeBase, mark: Found) -> bool:
    """Whether so many litres may be a reading of the mark."""
    return not _WET.isdisjoint(kb.applicable(mark.zone, mark.sign))


def was_tightened(kb: KnowledgeBase, sign: str, last: Found | Choice) -> bool:
    """Whether the mark is only how the loose one before it was left: "was loose, tightened today"."""
    loose = {"fitting_play", "fastener_grip"}.intersection(kb.about(last.zone, last.sign))
    return set(kb.signs[sign].about) == {"retight"} and bool(loose)
