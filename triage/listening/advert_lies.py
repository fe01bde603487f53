"""Where the boat of an advert lies: what follows the words that say so, and what says that she is in the water."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import chain

from triage.knowledge.model import KnowledgeBase
from triage.listening.clauses import Clause, Index, Sentence, index, matches
from triage.listening.tokens import Token


@dataclass(frozen=True)
class Lies:
    """Words that tell where she lies, and the sentence they stand in."""

    tokens: Sequence[Token]
    sentence: Sentence


def lies_told(kb: KnowledgeBase, told: Sequence[Sentence], of_gear: Collection[int]) -> list[Lies]:
    """What follows the first words that say so, to the end of the sentence; and a clause that tells that she is in the
    water, where that stands elsewhere.
    """
    found = [*_behind(kb, told, of_gear)][:1]
    taken = {token.start for one in found for token in one.tokens}
    return found + [one for one in [*_in_water(kb, told)][:1] if taken.isdisjoint(it.start for it in one.tokens)]


def _behind(kb: KnowledgeBase, told: Sequence[Sentence], of_gear: Collection[int]) -> list[Lies]:
    advert = kb.purchase.advert
    ways = index(kb, advert.lives if advert else ())
    found = []
    for sentence in told:
        tokens = list(chain.from_iterable(clause.tokens for clause in sentence))
        for place, said in matches(ways, [token.word for token in tokens]):
            behind = tokens[place + len(said) :]
            before = range(tokens[0].start, tokens[place].start)
            if behind and behind[0].start not in of_gear and not any(start in before for start in of_gear):
                found.append(Lies(behind, sentence))
    return found


def _in_water(kb: KnowledgeBase, told: Sequence[Sentence]) -> list[Lies]:
    viewing = kb.purchase.viewing
    ways = index(kb, viewing.afloat.told if viewing and viewing.afloat else ())
    return [Lies(one.tokens, sentence) for sentence in told for one in sentence if _tells(kb, one, ways)]


def _tells(kb: KnowledgeBase, clause: Clause, ways: Index) -> bool:
    denials = index(kb, sorted(kb.lexicon.speech.scope.denials))
    denied = [place for place, _ in matches(denials, clause.words)]
    return any(not any(at < place for at in denied) for place, _ in matches(ways, clause.words))
