"""The words of an advert, understood: figures and facts for an offer, marks to look at, and what nothing was made of.

Nothing is guessed: a figure is a price where a word calls it one, or where it is the only amount there is; a year is
hers where it is said to be. Nothing is recorded; what comes out is to be shown, and kept by whoever reads it.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

from triage.buying.hull_number import HullNumber, read_hull_number
from triage.buying.noticed import LEAST_PLAIN, noticed
from triage.knowledge.model import KnowledgeBase
from triage.listening.advert_gear import GearTold, gear_told
from triage.listening.advert_left import left_of, speaks_of_damage
from triage.listening.advert_lies import lies_told
from triage.listening.advert_reach import REACH, REACH_PLAIN, distance_of, is_of_another
from triage.listening.advert_year import years_told
from triage.listening.clauses import Sentence, index, matches, sentences
from triage.listening.statements import Found
from triage.listening.story import hear
from triage.listening.tokens import Token
from triage.parsing.money import Money, money_in

LISTS = ("missing", "spent", "extra", "sale")
AS_USUAL = ("there", "not with her")
"""What is told of gear, of which an offer file says nothing."""

LONGEST_PLACE = 80
"""Letters that are taken for where she lives."""

_NUMBER = re.compile(r"(?<![\w-])(?=[A-Z0-9-]*\d)(?=[A-Z0-9-]*[A-Z])[A-Z0-9-]{11,16}(?![\w-])", re.IGNORECASE)


@dataclass(frozen=True)
class Fact:
    """One thing that is told: the word of an offer file for it, its value, and the words that it rests on. ``about`` is
    the gear or the sign of the sale, where it is of one. ``named``: a word calls it so; else it is the only amount.
    ``at`` is where in the text stands what it rests on.
    """

    word: str
    value: Any
    words: str
    about: str = ""
    named: bool = True
    at: Collection[int] = ()


@dataclass(frozen=True)
class Advert:
    """What was understood. ``marks`` are sentences that speak of damage, ``unclear`` amounts and years that may be more
    than one thing, ``rest`` the words that nothing was made of.
    """

    facts: tuple[Fact, ...]
    marks: tuple[str, ...]
    unclear: tuple[str, ...]
    rest: tuple[str, ...]
    currency: str

    def offer(self) -> dict[str, Any]:
        """It in the words of an offer file."""
        offer: dict[str, Any] = {"currency": self.currency} if self.currency else {}
        for fact in self.facts:
            if fact.word in LISTS:
                offer.setdefault(fact.word, []).append(fact.about)
            elif fact.word == "ages":
                offer.setdefault("ages", {})[fact.about] = fact.value
            elif fact.word not in AS_USUAL:
                offer[fact.word] = fact.value
        return offer


def hear_advert(text: str, kb: KnowledgeBase, this_year: int) -> Advert:
    """What an advert tells. Raises TooLong (BadInput) when it is longer than anybody's."""
    story = hear(text, kb)
    if kb.purchase.advert is None:
        return Advert((), (), (), (text,) if text.strip() else (), "")
    return _Hearing(text, kb, this_year).advert(
        [one for one in story if isinstance(one, Found) and speaks_of_damage(kb, text, one)]
    )


class _Hearing:
    """Hears one advert."""

    def __init__(self, text: str, kb: KnowledgeBase, this_year: int) -> None:
        assert kb.purchase.advert is not None
        self.text, self.kb, self.this_year = text, kb, this_year
        self.words = kb.purchase.advert
        self.told = sentences(text, kb)
        self.amounts = money_in(text)
        self.unclear: list[str] = []

    def advert(self, marks: Sequence[Found]) -> Advert:
        money = list(self.money())
        currency = next((one.currency for _, one in money if one.currency), "")
        sale = noticed(self.kb, self.text)
        gear = list(gear_told(self.kb, self.text, self.told, self.this_year))
        facts = (
            *(self.amount(what, one) for what, one in money),
            *self.years(gear),
            *self.numbers(),
            *self.lives(gear),
            *(
                Fact(one.word, one.value, self.quoted(one.sentence), one.gear, at=(one.start, *one.figures))
                for one in gear
            ),
            *(Fact("sale", True, sentence, sign, at=self.within(sentence)) for sign, sentence in sale.items()),
        )
        of_sale = [self.within(said) for sign, said in sale.items() if not self.kb.purchase.sale[sign].damage]
        sure = [one for one in marks if one.clear or not any(one.start in words for words in of_sale)]
        marked = [one for one in self.told if any(_holds(one, mark) for mark in sure)]
        told = list(dict.fromkeys(map(self.quoted, marked)))
        used = {at for fact in facts for at in fact.at}
        open_ = [one for one in self.told if self.quoted(one) not in (*told, *self.unclear)]
        rest = tuple(self.quoted(part) for one in open_ for part in left_of(self.kb, one, used))
        return Advert(facts, tuple(told), tuple(dict.fromkeys(self.unclear)), rest, currency)

    def within(self, words: str) -> range:
        """Where these words stand."""
        begin = self.text.find(words)
        return range(begin, begin + len(words))

    def quoted(self, sentence: Sentence) -> str:
        """The words of a sentence, with the sign before its first figure and the stop behind its last word."""
        begin, end = _span(sentence)
        while begin and self.text[begin - 1] in "£$€“\"'(":
            begin -= 1
        return " ".join(self.text[begin:end].split())

    def amount(self, what: str, one: Money) -> Fact:
        value = [one.low, one.high] if what == "sound" else one.low
        return Fact(
            what, value, self.quoted(self.around(one)), named=bool(self.called(one)), at=range(one.start, one.end)
        )

    def around(self, one: Money) -> Sentence:
        """The sentence that an amount stands in; its sign may stand before the first word of it."""
        return next(told for told in reversed(self.told) if _span(told)[0] < one.end)

    def money(self) -> Iterator[tuple[str, Money]]:
        """The amounts that are a figure of the offer; those of which it is not clear are told so."""
        named = [(self.called(one), one) for one in self.amounts]
        known = [(what, one) for what, one in named if what not in ("", "other")]
        bare = [one for what, one in named if not what and not one.plain and not self.beside_gear(one)]
        if not any(what == "asking" for what, _ in known) and len({(one.low, one.high) for one in bare}) == 1:
            known.append(("asking", bare[0]))
        currencies = {one.currency for _, one in known if one.currency}
        for what in self.words.money:
            here = [one for called, one in known if called == what]
            ends = {(one.low, one.high) for one in here}
            alike = len(ends) == 1 and len(currencies) < 2 and (what == "sound" or here[0].low == here[0].high)
            if alike:
                yield what, here[0]
            else:
                self.unclear += [self.quoted(self.around(one)) for one in here]
        taken = [one for _, one in known]
        self.unclear += [
            self.quoted(self.around(one)) for what, one in named if not (what or one.plain) and one not in taken
        ]

    def called(self, one: Money) -> str:
        """What the nearest words call an amount, if any do; none is called anything across another amount."""
        here = self.around(one)
        tokens = list(chain.from_iterable(clause.tokens for clause in here))
        others = [it for it in self.amounts if it is not one and not it.plain and self.around(it) is here]
        found = [
            (distance, what)
            for what, ways in self.words.money.items()
            for place, said in matches(index(self.kb, ways), [token.word for token in tokens])
            if (distance := distance_of(tokens, place, len(said), one)) is not None
            and not any(is_of_another(tokens, place, len(said), one, other) for other in others)
        ]
        distance, what = min(found, default=(REACH, ""))
        sure = not one.plain or (distance <= REACH_PLAIN and one.low >= LEAST_PLAIN)
        return what if sure else ""

    def beside_gear(self, one: Money) -> bool:
        """Whether an amount stands right behind something that belongs to a boat: "cover £90"."""
        tokens = [token.word for clause in self.around(one) for token in clause.tokens if token.end <= one.start]
        ways = index(self.kb, [way for gear in self.kb.purchase.gear.values() for way in gear.told])
        return any(place + len(said) >= len(tokens) - 1 for place, said in matches(ways, tokens))

    def years(self, gear: Sequence[GearTold]) -> Iterator[Fact]:
        """The year she is said to be of; more than one is not clear."""
        of_gear = {at for one in gear for at in one.figures}
        found = years_told(self.kb, self.told, self.amounts, of_gear, self.this_year)
        if len({token.word for token, _ in found}) == 1:
            stand = [token.start for token, _ in found]
            yield Fact("claimed_year", int(found[0][0].word), self.quoted(found[0][1]), at=stand)
        else:
            self.unclear += [self.quoted(sentence) for _, sentence in found]

    def numbers(self) -> Iterator[Fact]:
        """Hull numbers: what can be read as one, and what is called one."""
        found = []
        for one in _NUMBER.finditer(self.text):
            before = self.text[max(0, one.start() - 40) : one.start()].casefold()
            called = any(re.search(rf"\b{re.escape(way)}\W*(?:is\W*)?$", before) for way in self.words.number)
            if called or isinstance(read_hull_number(one[0], self.this_year), HullNumber):
                found.append(one)
        for word, number in zip(("number", "second_number"), dict.fromkeys(one[0] for one in found), strict=False):
            yield Fact(word, number, number, at=[one.start() for one in found if one[0] == number])

    def lives(self, gear: Sequence[GearTold]) -> Iterator[Fact]:
        """Where she lies, as it is told: in a place, in the water."""
        found = lies_told(self.kb, self.told, [one.start for one in gear])
        if found:
            where = ", ".join(self.as_written(one.tokens) for one in found)
            quoted = "; ".join(dict.fromkeys(self.quoted(one.sentence) for one in found))
            at = [token.start for one in found for token in one.tokens]
            yield Fact("lives", where[:LONGEST_PLACE], quoted, at=at)

    def as_written(self, tokens: Sequence[Token]) -> str:
        """These words as they stand in the advert."""
        return " ".join(self.text[tokens[0].start : tokens[-1].end].split())


def _span(sentence: Sentence) -> tuple[int, int]:
    return sentence[0].tokens[0].start, sentence[-1].tokens[-1].end


def _holds(sentence: Sentence, mark: Found) -> bool:
    begin, end = _span(sentence)
    return begin <= mark.start < end
