"""A text as sentences and clauses, and which words of a clause find, deny, pass, ask or did not look."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.tokens import Token, tokens_of, words_of

_STOP = re.compile(r"[.!?;]+(?=\s|$)|\n+|…")
_PAUSE = re.compile(r",(?!\d)|:\s|\s[-–—]+\s|[()]")
_LONG = 40
"""Words after which a sentence without a stop is taken as ended at the next clause: it was dictated."""

_ENDLESS = 60
"""Words of one clause. No one says more; what is longer is cut, because every word of a clause is held against every
other, and a page of figures took minutes.
"""

_NEAR = 3
"""Words before a question in which another one may have begun, that goes on: "how bad is it"."""

_BARE = 2
"""Words of a question that ask nothing where they are the last: "… can I"."""

_SUBJECT = 6
"""Words after "the" among which stands the verb of what is told of it: "the hatch lid on her bow is"."""

Words = tuple[str, ...]


@dataclass(frozen=True)
class Clause:
    """Words that belong together. ``asked``: a question mark ends them; ``first``: they begin a sentence."""

    tokens: tuple[Token, ...]
    asked: bool
    first: bool

    @property
    def words(self) -> Words:
        """The words alone."""
        return tuple(token.word for token in self.tokens)


Sentence = tuple[Clause, ...]


def sentences(text: str, kb: KnowledgeBase) -> tuple[Sentence, ...]:
    """The text in sentences, and these in clauses; every word stands in just one."""
    tokens = tokens_of(text, kb)
    starts = [token.start for token in tokens]
    found: list[Sentence] = []
    begin = 0
    for stop in [*_STOP.finditer(text), None]:
        end = bisect_left(starts, stop.start()) if stop else len(tokens)
        if end > begin:
            pauses = {bisect_left(starts, pause.start()) for pause in _pauses(text, tokens[begin], tokens[end - 1])}
            asked = stop is not None and "?" in stop[0]
            found.extend(_dictated(tuple(_clauses(tokens[begin:end], begin, pauses, kb, asked=asked))))
        begin = end
    return tuple(found)


def _pauses(text: str, first: Token, last: Token) -> Iterator[re.Match[str]]:
    return _PAUSE.finditer(text, first.start, last.end)


def _clauses(
    tokens: Sequence[Token], offset: int, pauses: set[int], kb: KnowledgeBase, *, asked: bool
) -> Iterator[Clause]:
    words = [token.word for token in tokens]
    whole = together(kb, words)
    breaks = _breaks(kb)
    cuts = [place - offset for place in pauses if 0 < place - offset < len(words)]
    cuts += [place for place, word in enumerate(words) if word in breaks and place and not whole[place]]
    cuts += _questions(kb, words)
    cuts += [
        place + len(said)
        for rows in (phrases(kb, "praise"), _passes(kb))
        for place, said in matches(rows, words)
        if _goes_on(kb, words, place + len(said))
    ]
    begin = 0
    for cut in [*sorted(set(cuts)), len(words)]:
        while begin < cut:
            end = min(cut, begin + _ENDLESS)
            yield Clause(tuple(tokens[begin:end]), asked and end == len(words), begin == 0)
            begin = end


def _questions(kb: KnowledgeBase, words: Sequence[str]) -> Iterator[int]:
    """Where a question begins that nothing parts from the words before: "… right through can I mend it"."""
    scope = kb.lexicon.speech.scope
    for place, said in matches(phrases(kb, "asked_amid"), words):
        asked = not scope.asked_by.isdisjoint(words[max(0, place - _NEAR) : place])  # "how bad is it"
        ends = place + len(said) == len(words) and len(said) <= _BARE
        if place and not asked and not ends and words[place - 1] not in scope.asked_on:
            yield place


def _goes_on(kb: KnowledgeBase, words: Sequence[str], place: int) -> bool:
    """Whether something else is told after praise or a clean result that nothing parts from it: "the mast is fine no
    water in the tanks", "it does not move the bungs are sound".
    """
    denied = not {"no", "not", "never"}.isdisjoint(words[max(0, place - 3) : place])
    if words[place : place + 1] == ["no"]:
        return not denied
    scope = kb.lexicon.speech.scope
    told = words[place + 2 : place + _SUBJECT]
    return words[place : place + 1] in (["the"], ["my"], ["our"]) and not scope.stating.isdisjoint(told)


@per_knowledge
def _passes(kb: KnowledgeBase) -> Index:
    return index(kb, [phrase for said in kb.lexicon.speech.passes.values() for phrase in said])


def _dictated(clauses: Sentence) -> Iterator[Sentence]:
    """The sentence, or several where it is too long to be one."""
    held: list[Clause] = []
    count = 0
    for clause in clauses:
        if held and count + len(clause.tokens) > _LONG:
            yield tuple(held)
            held, count = [], 0
        held.append(clause)
        count += len(clause.tokens)
    yield tuple(held)


def together(kb: KnowledgeBase, words: Sequence[str]) -> list[bool]:
    """Which words stand in a phrase that no clause may end in, or between a number and its part."""
    found = [False] * len(words)
    for place, phrase in matches(phrases(kb, "together"), words):
        found[place : place + len(phrase)] = [True] * len(phrase)
    for place in range(1, len(words) - 1):
        if words[place : place + 3] in (["and", "a", "half"], ["and", "a", "quarter"]):
            found[place] = True
    return found


Index = dict[str, tuple[Words, ...]]


@per_knowledge
def phrases(kb: KnowledgeBase, name: str) -> Index:
    """The phrases of one list of the scope, by their first word, the longest first."""
    return index(kb, getattr(kb.lexicon.speech.scope, name))


def index(kb: KnowledgeBase, said: Sequence[str]) -> Index:
    """Phrases by their first word, the longest first."""
    rows: dict[str, list[Words]] = {}
    for phrase in said:
        if words := words_of(phrase, kb.lexicon.speech.variants):
            rows.setdefault(words[0], []).append(words)
    return {first: tuple(sorted(set(some), key=lambda one: (-len(one), one))) for first, some in rows.items()}


def matches(rows: Index, words: Sequence[str]) -> Iterator[tuple[int, Words]]:
    """Where phrases stand in the words; at each place the longest."""
    for place, word in enumerate(words):
        for phrase in rows.get(word, ()):
            if tuple(words[place : place + len(phrase)]) == phrase:
                yield place, phrase
                break


def holds(rows: Index, words: Sequence[str]) -> bool:
    """Whether any of the phrases stands in the words."""
    return next(matches(rows, words), None) is not None


@per_knowledge
def _breaks(kb: KnowledgeBase) -> frozenset[str]:
    return frozenset(phrase.split()[0] for phrase in kb.lexicon.speech.scope.breaks)
