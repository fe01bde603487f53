"""Which year an advert says that the boat is of."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from itertools import chain

from triage.knowledge.model import KnowledgeBase
from triage.listening.clauses import Sentence, index, matches
from triage.listening.tokens import Token
from triage.parsing.money import Money

FIRST_YEAR = 1950

Said = tuple[Token, Sentence]


def years_told(
    kb: KnowledgeBase,
    told: Sequence[Sentence],
    amounts: Sequence[Money],
    of_gear: Collection[int],
    this_year: int,
) -> list[Said]:
    """Every year that is said to be hers: at the head of the advert or beside a word for building; where there is none
    of these, one that stands between two pauses by itself, as people write it in a list of facts.
    """
    advert = kb.purchase.advert
    built = index(kb, advert.built if advert else ())
    found, by_itself = list[Said](), list[Said]()
    for number, sentence in enumerate(told):
        tokens = list(chain.from_iterable(clause.tokens for clause in sentence))
        alone = {clause.tokens[0].start for clause in sentence if len(clause.tokens) == 1}
        ends = {place + len(said) for place, said in matches(built, [token.word for token in tokens])}
        for at, token in enumerate(tokens):
            if not _is_year(token, amounts, this_year) or token.start in of_gear:
                continue
            if (number == 0 and at == 0) or {at, at - 1} & ends:
                found.append((token, sentence))
            elif token.start in alone:
                by_itself.append((token, sentence))
    return found or by_itself


def _is_year(token: Token, amounts: Sequence[Money], this_year: int) -> bool:
    in_money = any(one.start <= token.start < one.end and one.currency for one in amounts)
    return bool(re.fullmatch(r"\d{4}", token.word)) and FIRST_YEAR <= int(token.word) <= this_year and not in_money
