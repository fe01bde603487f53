"""How sure it is whose boat it is, as far as a number, a second one and a claimed year tell."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from triage.buying.hull_number import HullNumber, Unreadable, differences, read_hull_number, taken_for
from triage.buying.offer import Offer

Doubt = Literal["unreadable", "contradicts itself", "another year", "two numbers", "misread"]

GRAVE: tuple[Doubt, ...] = ("contradicts itself", "another year", "two numbers")
"""Doubts that mean that something does not match; the others ask for a second look."""


def number_doubts(offer: Offer, this_year: int) -> Iterator[Doubt]:
    """What does not match between the numbers and the year of an offer; nothing where no number was given."""
    given = [read_hull_number(text, this_year) for text in (offer.number, offer.second_number) if text]
    if any(isinstance(one, Unreadable) for one in given):
        yield "unreadable"
    numbers = [one for one in given if isinstance(one, HullNumber)]
    if any(not one.built or min(one.built) > this_year for one in numbers):
        yield "contradicts itself"
    claimed = offer.claimed_year
    if claimed is not None and any(claimed not in (*one.built, one.model_year) for one in numbers):
        yield "another year"
    if len(numbers) == 2 and differences(*numbers):
        yield "misread" if taken_for(*numbers) else "two numbers"
