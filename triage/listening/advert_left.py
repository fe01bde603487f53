"""Which words of an advert speak of damage, and of which nothing was made: none is dropped without a word."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import groupby

from triage.knowledge.model import KnowledgeBase
from triage.listening.clauses import Clause, Sentence, index, matches
from triage.listening.naming import marks_named
from triage.listening.statements import Found
from triage.listening.tokens import tokens_of


def speaks_of_damage(kb: KnowledgeBase, text: str, mark: Found) -> bool:
    """Whether the words of a mark name one, even where it is not clear which, or where."""
    stems = [token.stem for token in tokens_of(text[mark.start : mark.end], kb) if token.word not in kb.lexicon.ignored]
    return mark.clear or bool(marks_named(kb).named(stems))


def left_of(kb: KnowledgeBase, sentence: Sentence, used: Collection[int]) -> Iterator[Sentence]:
    """The clauses of a sentence in which nothing stands that was ``used``, those that follow each other together."""
    for is_left, clauses in groupby(sentence, key=lambda clause: _is_left(kb, clause, used)):
        if is_left:
            yield tuple(clauses)


def _is_left(kb: KnowledgeBase, clause: Clause, used: Collection[int]) -> bool:
    begin, end = clause.tokens[0].start, clause.tokens[-1].end
    return not any(begin <= at < end for at in used) and not _belongs_to_a_price(kb, clause.words)


def _belongs_to_a_price(kb: KnowledgeBase, words: Sequence[str]) -> bool:
    """Whether there is nothing but what is said beside an amount: "ono"."""
    advert = kb.purchase.advert
    ways = [way for row in advert.money.values() for way in row] if advert else []
    return any(len(said) == len(words) for _, said in matches(index(kb, ways), words))
