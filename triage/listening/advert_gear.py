"""What an advert tells of her gear: what comes with her, what does not, what is spent, and how old it is."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.clauses import Clause, Sentence, index, matches
from triage.parsing.number_words import in_figures

BEFORE = 3
"""Words between what says that something is not with her and what that is."""

AHEAD = 2
"""Words ahead of gear at which a year is still that of the gear: "2019 Dacron sails"."""

GOES_ON = ("or", "nor")
"""The first words of a clause that what was denied before goes on in: "no trailer or cover"."""

_AGE = re.compile(r"(?P<years>\d{1,2})\s*(?:years?|yrs?|seasons?)\b")
_YEAR = re.compile(r"(?:19[5-9]|20\d)\d")


@dataclass(frozen=True)
class GearTold:
    """Something that is told of a piece of gear: the word of an offer file, or "there" or "not with her". ``start`` is
    where its name begins; ``figures`` where the years of its age do.
    """

    gear: str
    word: str
    value: Any
    sentence: Sentence
    start: int
    figures: tuple[int, ...] = ()


@dataclass(frozen=True)
class _Named:
    """A piece of gear in the words of a clause, from ``at`` to ``end``."""

    gear: str
    at: int
    end: int


def gear_told(kb: KnowledgeBase, text: str, told: Sequence[Sentence], this_year: int) -> Iterator[GearTold]:
    """What is told of gear; of something that is told to be with her and not, nothing."""
    found = [one for sentence in told for one in _in_sentence(kb, text, sentence, this_year)]
    for one in found:
        states = {other.word for other in found if other.gear == one.gear and other.word != "ages"}
        if one.word == "ages" or len(states) == 1:
            yield one


def _in_sentence(kb: KnowledgeBase, text: str, sentence: Sentence, this_year: int) -> Iterator[GearTold]:
    denied = False
    for clause in _joined(kb, sentence):
        named = _named(kb, clause)
        without = _without(kb, clause, named)
        if denied and clause.words[0] in GOES_ON:
            without |= set(named)
        worn = _worn(kb, clause, named)
        years, figures = _age(text, clause, named, this_year)
        for one in named:
            gear, start = kb.purchase.gear[one.gear], clause.tokens[one.at].start
            state = ("extra", "there")[gear.complete]
            if one in without:
                state = ("not with her", "missing")[gear.complete]
            elif one in worn:
                state = "spent"
            aged = years is not None and gear.asks_age and one not in without
            if not (aged and state == "there"):
                yield GearTold(one.gear, state, True, sentence, start, figures)
            if aged:
                yield GearTold(one.gear, "ages", years, sentence, start, figures)
        denied = bool(without) or (denied and not named)


def _joined(kb: KnowledgeBase, sentence: Sentence) -> Iterator[Clause]:
    """The clauses, one that is but the name of some gear with what goes on from it: "mainsail and jib 6 years old"."""
    held: Clause | None = None
    for clause in sentence:
        if held is not None and clause.words[0] == "and":
            clause = Clause((*held.tokens, *clause.tokens), clause.asked, held.first)
        elif held is not None:
            yield held
        bare = sum(end - at for at, end in {(one.at, one.end) for one in _named(kb, clause)}) == len(clause.words)
        held = clause if bare else None
        if not bare:
            yield clause
    if held is not None:
        yield held


@per_knowledge
def _calls(kb: KnowledgeBase) -> dict[tuple[str, ...], tuple[str, ...]]:
    """The gear by each way of calling it; one word may be of two ("sails")."""
    found: dict[tuple[str, ...], tuple[str, ...]] = {}
    for gear in kb.purchase.gear.values():
        for rows in index(kb, gear.told).values():
            for words in rows:
                found[words] = (*found.get(words, ()), gear.id)
    return found


@per_knowledge
def _ways(kb: KnowledgeBase, name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    return index(kb, getattr(kb.purchase.advert, name))


def _named(kb: KnowledgeBase, clause: Clause) -> list[_Named]:
    """The gear of a clause, each word of it once: a spare mainsail is no mainsail."""
    calls = _calls(kb)
    found: list[_Named] = []
    for place, said in matches(index(kb, [" ".join(words) for words in calls]), clause.words):
        if not found or place >= found[-1].end:
            found += [_Named(gear, place, place + len(said)) for gear in calls[said]]
    return found


def _without(kb: KnowledgeBase, clause: Clause, named: Sequence[_Named]) -> set[_Named]:
    """What is not with her: the gear right behind the words that say so, else the last before them."""
    found: set[_Named] = set()
    for place, said in matches(_ways(kb, "without"), clause.words):
        end = place + len(said)
        behind = [one for one in named if end <= one.at <= end + BEFORE]
        first = min((one.at for one in behind), default=None)
        last = max((one.at for one in named if one.end <= place), default=None)
        found |= {one for one in named if one.at == (first if first is not None else last)}
    ends = {one.end for one in found}
    return found | {one for one in named if clause.words[one.at - 1] in GOES_ON and one.at - 1 in ends}


def _worn(kb: KnowledgeBase, clause: Clause, named: Sequence[_Named]) -> set[_Named]:
    """What is spent: the last gear before the words that say so, else the first behind them."""
    found: set[_Named] = set()
    for place, _ in matches(_ways(kb, "worn"), clause.words):
        last = max((one.at for one in named if one.end <= place), default=None)
        first = min((one.at for one in named if one.at > place), default=None)
        found |= {one for one in named if one.at == (last if last is not None else first)}
    return found


def _age(text: str, clause: Clause, named: Sequence[_Named], this_year: int) -> tuple[int | None, tuple[int, ...]]:
    """How many years the gear of a clause is old, by a number of them or by a year, and where years of it stand."""
    begin, end = clause.tokens[0].start, clause.tokens[-1].end
    years = [
        token
        for at, token in enumerate(clause.tokens)
        if _YEAR.fullmatch(token.word) and any(one.end <= at or one.at - at <= AHEAD for one in named)
    ]
    stand = tuple(token.start for token in years)
    if told := _AGE.search(in_figures(text[begin:end].casefold())):
        return int(told["years"]), stand
    if len(years) == 1 and int(years[0].word) <= this_year:
        return this_year - int(years[0].word), stand
    return None, stand
