"""Sums that cannot be done: without a formula, with names that their formula does not use, in units nobody knows."""

from __future__ import annotations

from collections.abc import Iterator

from triage.errors import Place, Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.sums import Sum
from triage.mechanics.catalogue import FORMULAS
from triage.mechanics.interval import exactly
from triage.mechanics.units import IN_SI
from triage.parsing.text import did_you_mean


def sum_problems(kb: KnowledgeBase) -> Iterator[Problem]:
    """Each sum is tried once, with the middle of everything it asks."""
    for one in kb.sums.values():
        if one.id not in FORMULAS:
            yield _problem(one, "no formula has this id", did_you_mean(one.id, FORMULAS))
            continue
        units = {
            *(ask.unit for ask in one.asks.values()),
            *(value.unit for value in one.given.values()),
            *(told.unit for told in one.tells.values()),
        }
        if unknown := sorted(units - set(IN_SI)):
            yield _problem(one, f"nobody knows the unit {unknown[0]}", f"Known are: {', '.join(filter(None, IN_SI))}.")
            continue
        if one.worksheet and any(ask.scale for ask in one.asks.values()):
            yield _problem(
                one, "a worksheet takes answers of a scale", "Quantities are never a part of an owner's answer."
            )
        yield from _tried(one)


def _tried(one: Sum) -> Iterator[Problem]:
    asked = {name: exactly((ask.least + ask.most) / 2 * IN_SI[ask.unit]) for name, ask in one.asks.items()}
    given = {name: exactly(value.low * IN_SI[value.unit]) for name, value in one.given.items()}
    try:
        told = FORMULAS[one.id]({**asked, **given})
    except (KeyError, TypeError) as error:
        yield _problem(
            one, f"its formula takes other names than it asks and is given: {error}", "Use the names of the formula."
        )
        return
    except ValueError:  # the middle of everything need not go together, as four corners in one point do not
        return
    if told.keys() != one.tells.keys():
        yield _problem(one, "it tells something else than its formula makes", f"Its formula makes: {', '.join(told)}.")


def _problem(one: Sum, what: str, hint: str) -> Problem:
    return Problem(Place(f"sums: {one.id}"), what, hint)
