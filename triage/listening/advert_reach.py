"""How near words stand to an amount of an advert that may be what they call it."""

from __future__ import annotations

from collections.abc import Sequence

from triage.listening.tokens import Token
from triage.parsing.money import Money

REACH = 4
"""Words between an amount and what calls it something before it."""

REACH_BEHIND = 2
"""The same behind it: what stands further on is of something else ("£900, new sails cost £600")."""

REACH_PLAIN = 2
"""The same for a number without a currency."""


def distance_of(tokens: Sequence[Token], place: int, length: int, one: Money) -> float | None:
    """The words between an amount and what may call it something; what stands before it is nearer."""
    before = sum(token.end <= one.start for token in tokens)
    after = next((at for at, token in enumerate(tokens) if token.start >= one.end), len(tokens))
    if place + length <= before:
        distance = before - place - length
        return distance if distance < REACH else None
    behind = place - after
    return behind + 0.5 if 0 <= behind < REACH_BEHIND else None


def is_of_another(tokens: Sequence[Token], place: int, length: int, one: Money, other: Money) -> bool:
    """Whether words call another amount: it stands between, or nearer to them ("£950 ono, or £850")."""
    word = tokens[place].start
    if min(word, one.start) <= other.start <= max(word, one.start):
        return True
    own, its = (distance_of(tokens, place, length, amount) for amount in (one, other))
    return own is not None and its is not None and its < own
