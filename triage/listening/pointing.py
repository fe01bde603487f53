"""Whether words point back to a mark that was told before, and so tell more of it and of no other."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from triage.knowledge.model import KnowledgeBase
from triage.listening.clauses import holds, matches, phrases
from triage.listening.naming import marks_named, places_named
from triage.listening.phrase_matcher import stem

_SOON = 2
"""Words after the name of a mark among which stands what is said of it: "hole's about as big as"."""

_MOST_BETWEEN = 1
"""Words between "the" and the mark: "the mast crack"."""


def points_back(kb: KnowledgeBase, words: Sequence[str]) -> str:
    """The word by which they begin with what was told before: "it is", "the biggest is", "tapped it", "patch is"."""
    scope = kb.lexicon.speech.scope
    idle = {*scope.hesitations, *scope.people, *scope.tests}
    said = [word for word in words if word not in idle]
    first = next((word for word in said if word != "the"), "")
    if first in scope.points_back:
        return first
    by_name = said[:1] == ["the"] or not scope.praised_after.isdisjoint(said[1:2])  # not "patch on the deck"
    by_name = by_name or not scope.said_of.isdisjoint(said[1 : 1 + _SOON])
    return first if by_name and first in scope.told_again else ""


def tells_more(kb: KnowledgeBase, words: Sequence[str], before: Collection[str], *, begins: bool) -> bool:
    """Whether a clause tells more of a mark that was told of in the stems ``before``, and names no other place.

    It says what comes out of it, or what can be seen, or speaks of "the crack" where a crack was told of. ``begins``:
    it is the first of its sentence to find something, where what can be seen is as often another mark.
    """
    ignored = kb.lexicon.ignored
    new = [one for one in (stem(word) for word in words if word not in ignored) if one not in before]
    if not before or places_named(kb).named(new):
        return False
    if holds(phrases(kb, "of_it"), words):
        return True
    ends = [at + len(said) for at, said in matches(phrases(kb, "shows"), words)]
    if not begins and any(kb.lexicon.speech.scope.one_more.isdisjoint(words[at : at + 1]) for at in ends):
        return True
    return _the_same_named(kb, words, before) and not marks_named(kb).named(new)


def _the_same_named(kb: KnowledgeBase, words: Sequence[str], before: Collection[str]) -> bool:
    """Whether "the crack" is spoken of, and a crack was before."""
    scope = kb.lexicon.speech.scope
    return any(
        word in scope.told_again
        and stem(word) in before
        and not scope.definite.isdisjoint(words[max(0, at - 1 - _MOST_BETWEEN) : at])
        for at, word in enumerate(words)
    )
