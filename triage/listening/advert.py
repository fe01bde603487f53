"""The words of an advert, understood: figures and facts for an offer, marks to look at, and what nothing was made of.

Nothing is guessed: a figure is a price where a word calls it one, or where it is the only amount there is; a year is
hers where it is said to be. Nothing is recorded; what comes out is to be shown, and kept by whoever reads it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

from triage.buying.hull_number import HullNumber, read_hull_number
from triage.buying.noticed import LEAST_PLAIN, noticed
from triage.knowledge.model import KnowledgeBase
from triage.listening.advert_gear import GearTold, gear_told
from triage.listening.clauses import Sentence, index, matches, sentences
from triage.listening.statements import Found
from triage.listening.story import hear
from triage.listening.tokens import Token
from triage.parsing.money import Money, money_in

REACH = 4
"""Words between an amount and what calls it something before it."""

REACH_BEHIND = 2
"""The same behind it: what stands further on is of something else ("£900, new sails cost £600")."""

REACH_PLAIN = 2
"""The same for a number without a currency."""

LISTS = ("missing", "spent", "extra", "sale")
AS_USUAL = ("there", "not with her")
"""What is told of gear, of which an offer file says nothing."""

FIRST_YEAR = 1950
LONGEST_PLACE = 80
"""Letters that are taken for where she lives."""

_NUMBER = re.compile(r"(?<![\w-])(?=[A-Z0-9-]*\d)(?=[A-Z0-9-]*[A-Z])[A-Z0-9-]{11,16}(?![\w-])", re.IGNORECASE)


@dataclass(frozen=True)
class Fact:
    """One thing that is told: the word of an offer file for it, its value, and the words that it rests on. ``about`` is
    the gear or the sign of the sale, where it is of one. ``named``: a word calls it so; else it is the only amount.
    """

    word: str
    value: Any
    words: str
    about: str = ""
    named: bool = True


@dataclass(frozen=True)
class Advert:
    """What was understood. ``marks`` are sentences that speak of damage, ``unclear`` amounts and years that may be more
    than one thing, ``rest`` the sentences that nothing was made of.
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
    return _Hearing(text, kb, this_year).advert([one for one in story if isinstance(one, Found) and one.clear])


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
            *(Fact(one.word, one.value, self.quoted(one.sentence), one.gear) for one in gear),
            *(Fact("sale", True, sentence, sign) for sign, sentence in sale.items()),
        )
        marked = [one for one in self.told if any(_holds(one, mark) for mark in marks)]
        told = list(dict.fromkeys(map(self.quoted, marked)))
        used = [*(fact.words for fact in facts), *told, *self.unclear]
        every = [self.quoted(one) for one in self.told]
        rest = tuple(one for one in every if not any(one in words or words in one for words in used))
        return Advert(facts, tuple(told), tuple(dict.fromkeys(self.unclear)), rest, currency)

    def quoted(self, sentence: Sentence) -> str:
        """The words of a sentence, with the sign before its first figure and the stop behind its last word."""
        begin, end = _span(sentence)
        while begin and self.text[begin - 1] in "£$€“\"'(":
            begin -= 1
        return " ".join(self.text[begin:end].split())

    def amount(self, what: str, one: Money) -> Fact:
        value = [one.low, one.high] if what == "sound" else one.low
        return Fact(what, value, self.quoted(self.around(one)), named=bool(self.called(one)))

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
        tokens = list(chain.from_iterable(clause.tokens for clause in self.around(one)))
        others = [other for other in self.amounts if other is not one and not other.plain]
        before = sum(token.end <= one.start for token in tokens)
        after = next((at for at, token in enumerate(tokens) if token.start >= one.end), len(tokens))
        found = [
            (distance, what)
            for what, ways in self.words.money.items()
            for place, said in matches(index(self.kb, ways), [token.word for token in tokens])
            if (distance := _distance(place, len(said), before, after)) is not None
            and not any(_between(tokens[place], one, other) for other in others)
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
        found: list[tuple[int, Sentence]] = []
        built = index(self.kb, self.words.built)
        of_gear = {at for one in gear for at in one.figures}
        for number, sentence in enumerate(self.told):
            tokens = list(chain.from_iterable(clause.tokens for clause in sentence))
            ends = {place + len(said) for place, said in matches(built, [token.word for token in tokens])}
            for at, token in enumerate(tokens):
                heads = number == 0 and at == 0
                if self.is_year(token) and token.start not in of_gear and (heads or {at, at - 1} & ends):
                    found.append((int(token.word), sentence))
        if len({year for year, _ in found}) == 1:
            yield Fact("claimed_year", found[0][0], self.quoted(found[0][1]))
        else:
            self.unclear += [self.quoted(sentence) for _, sentence in found]

    def is_year(self, token: Token) -> bool:
        in_money = any(one.start <= token.start < one.end and one.currency for one in self.amounts)
        year = re.fullmatch(r"\d{4}", token.word) and FIRST_YEAR <= int(token.word) <= self.this_year
        return bool(year) and not in_money

    def numbers(self) -> Iterator[Fact]:
        """Hull numbers: what can be read as one, and what is called one."""
        found = []
        for one in _NUMBER.finditer(self.text):
            before = self.text[max(0, one.start() - 40) : one.start()].casefold()
            called = any(re.search(rf"\b{re.escape(way)}\W*(?:is\W*)?$", before) for way in self.words.number)
            if called or isinstance(read_hull_number(one[0], self.this_year), HullNumber):
                found.append(one[0])
        for word, number in zip(("number", "second_number"), dict.fromkeys(found), strict=False):
            yield Fact(word, number, number)

    def lives(self, gear: Sequence[GearTold]) -> Iterator[Fact]:
        """Where she lies: what follows the first words that say so, to the end of the sentence."""
        ways = index(self.kb, self.words.lives)
        for sentence in self.told:
            tokens = list(chain.from_iterable(clause.tokens for clause in sentence))
            found = list(matches(ways, [token.word for token in tokens]))
            of_gear = [one.start for one in gear]
            for place, said in found:
                behind = tokens[place + len(said) :]
                before = range(tokens[0].start, tokens[place].start)
                if behind and behind[0].start not in of_gear and not any(start in before for start in of_gear):
                    where = " ".join(self.text[behind[0].start : behind[-1].end].split())
                    yield Fact("lives", where[:LONGEST_PLACE], self.quoted(sentence))
                    return


def _span(sentence: Sentence) -> tuple[int, int]:
    return sentence[0].tokens[0].start, sentence[-1].tokens[-1].end


def _holds(sentence: Sentence, mark: Found) -> bool:
    begin, end = _span(sentence)
    return begin <= mark.start < end


def _distance(place: int, length: int, before: int, after: int) -> float | None:
    """The words between an amount and what may call it something; what stands before it is nearer."""
    if place + length <= before:
        distance = before - place - length
        return distance if distance < REACH else None
    behind = place - after
    return behind + 0.5 if 0 <= behind < REACH_BEHIND else None


def _between(token: Token, one: Money, other: Money) -> bool:
    return min(token.start, one.start) <= other.start <= max(token.start, one.start)
