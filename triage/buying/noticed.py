"""What somebody tells of a sale beside the marks: the signs of it that are known, each with its sentence."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import product

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.purchase import SaleSign
from triage.parsing.money import money_in

APART = 5
"""Words between those that tell a sign together."""

TELLERS = frozenset({"i", "we"})
"""Whoever tells it; what these would not do is no sign of the sale."""

LEAST_PLAIN = 100
"""A number without a currency is no price below it."""

REACH = 3
"""Words before a way of saying in which a denial turns it round: "he is not in a hurry"."""


def noticed(kb: KnowledgeBase, text: str) -> Mapping[str, str]:
    """The signs of a sale, by id, each with the sentence that tells of it."""
    found: dict[str, str] = {}
    for sentence in _sentences(text):
        words, clauses = _words(sentence), [_words(clause) for clause in re.split("[,:]", sentence)]
        for one in kb.purchase.sale.values():
            together = any(_tells_together(clause, one, kb) for clause in clauses)
            if together or any(_says(words, _words(way), kb) for way in one.told):
                found.setdefault(one.id, sentence)
    return found


def without_the_sale(kb: KnowledgeBase, text: str) -> str:
    """The text without the sentences that tell of the sale or name money: a survey may be shown to the seller."""
    told = set(noticed(kb, text).values())
    told |= set(names_money(kb, text))
    return " ".join(one for one in _sentences(text) if one not in told) if told else text


def names_money(kb: KnowledgeBase, text: str) -> tuple[str, ...]:
    """The sentences in which an amount is, or a figure that the words of an advert call one."""
    return tuple(one for one in _sentences(text) if _names_money(kb, one))


def _names_money(kb: KnowledgeBase, sentence: str) -> bool:
    amounts = money_in(sentence)
    words, rows = _words(sentence), kb.purchase.advert.money if kb.purchase.advert else {}
    ways = [way for what, row in rows.items() if what != "other" for way in row]
    called = any(list(_places(words, _words(way))) for way in ways)
    return any(not one.plain or (called and one.low >= LEAST_PLAIN) for one in amounts)


def says_one_of(kb: KnowledgeBase, text: str, ways: Sequence[str]) -> bool:
    """Whether a text says one of these, and does not deny it."""
    words = _words(text)
    return any(_says(words, _words(way), kb) for way in ways)


def _sentences(text: str) -> list[str]:
    return [one.strip() for one in re.split(r"(?<=[.!?;])\s+|\n+", text)]


def _says(words: Sequence[str], way: Sequence[str], kb: KnowledgeBase) -> bool:
    return any(not _denied(words[max(0, at - REACH) : at], kb) for at in _places(words, way))


def _tells_together(words: Sequence[str], sign: SaleSign, kb: KnowledgeBase) -> bool:
    """Whether a word of the first row stands before one of the second, and nobody denies it or tells it of himself."""
    rows = [[(at, at + len(_words(way))) for way in row for at in _places(words, _words(way))] for row in sign.together]
    for (start, end), (later, _) in product(*rows) if rows else ():
        before = words[max(0, start - REACH) : start]
        denied = _denied(before, kb) or _denied(words[end:later], kb)
        if 0 <= later - end <= APART and not denied and TELLERS.isdisjoint(before):
            return True
    return False


def _denied(before: Sequence[str], kb: KnowledgeBase) -> bool:
    return any(list(_places(before, _words(one))) for one in kb.lexicon.speech.scope.denials)


def _places(words: Sequence[str], way: Sequence[str]) -> Iterator[int]:
    """Where it begins."""
    size = len(way)
    yield from (at for at in range(len(words) - size + 1) if words[at : at + size] == way)


def _words(text: str) -> list[str]:
    return re.findall("[a-z0-9]+", text.casefold().replace("’", "").replace("'", ""))
