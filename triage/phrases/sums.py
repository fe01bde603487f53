"""What is said of a sum: what it asks, how it is reckoned, what came out, and what to bear in mind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from triage.knowledge.model.sums import Asked, Plot, Sum
from triage.mechanics.interval import Interval
from triage.mechanics.worked import Worked
from triage.phrases.words import basis_words

ONE_SIDED = "A guide, not a survey: a sum may add concern and never takes any away."

WORKSHEET = "A repairer's worksheet: the resin maker's sheet goes before it."

A_SUM = "A sum, with its working"
TOOK = "What went in"
NOT_MEASURED = "taken, not measured"
COMES_OUT = "What comes out"
CURVE_SAYS = "The pale stretch is what was measured. The band is all that it may be."
MIND = "Bear in mind"

FIGURES = 2
"""Of a result; more would promise what no tape measure gives."""

FIGURES_MEASURED = 3
"""Of what went in."""


def catalogue(sums: Iterable[Sum]) -> Iterator[str]:
    """Each sum with the question that it answers."""
    for one in sums:
        yield f"{one.id:<10} {one.name}. {one.helps}"


def asks(one: Sum) -> Iterator[str]:
    """What to measure for a sum, and an example of how to say it."""
    yield f"{one.name}. {one.helps}"
    yield "It asks for"
    for name, asked in one.asks.items():
        yield f"  {name:<10} {asked.what}, {_range(asked)}"
    example = " ".join(f'"{name}={_example(asked)}"' for name, asked in one.asks.items())
    yield f"Such as: triage sums {one.id} {example}"


def _range(asked: Asked) -> str:
    return f"{asked.least:g} to {asked.most:g} {asked.unit}".strip()


def _example(asked: Asked) -> str:
    return f"{(asked.least * asked.most) ** 0.5 or asked.most / 4:.1g} {asked.unit}".strip()


def worked(done: Worked) -> Iterator[str]:
    """A sum with its numbers: what went in, each formula, what comes out, and what to bear in mind."""
    one = done.sum
    yield f"{one.name}. {one.helps}"
    if one.worksheet:
        yield WORKSHEET
    for name, asked in one.asks.items():
        yield f"  {asked.what}: {between(done.took[name], asked.unit, FIGURES_MEASURED)}"
    for given in one.given.values():
        yield f"  {given.what}: {between(Interval(given.low, given.high), given.unit)} ({NOT_MEASURED})"
    for name, told in one.tells.items():
        yield f"{told.say}: {between(done.told[name], told.unit)}"
        yield f"  = {told.how}"
    if one.pieces:
        yield f"{one.pieces.say}:"
        for number, piece in enumerate(done.pieces, start=1):
            yield f"  {number}. {between(piece, one.pieces.unit)}"
    yield one.mind
    yield f"{ONE_SIDED} {basis_told(basis_words(one.basis))}"


def basis_told(basis: str) -> str:
    """What it rests on."""
    return f"Basis: {basis}."


def with_unit(what: str, unit: str) -> str:
    """A scale of a curve by its name."""
    return f"{what}, {unit}" if unit else what


def curve_says(done: Worked, plot: Plot) -> str:
    """A curve for those who cannot see it."""
    asked, shown = done.sum.asks[plot.against], done.sum.tells[plot.shows]
    here, found = done.took[plot.against], done.told[plot.shows]
    return f"{shown.say} against {asked.what}; at {between(here, asked.unit)} it is {between(found, shown.unit)}."


def between(value: Interval, unit: str, figures: int = FIGURES) -> str:
    """A range in words, no finer than it is known."""
    low, high = (_figures(end, figures) for end in (value.low, value.high))
    return f"{low if low == high else f'{low} to {high}'} {unit}".strip()


def _figures(value: float, figures: int) -> str:
    """So many figures, one more where the first is a 1, without a power of ten."""
    figures += f"{abs(value):e}"[0] == "1"
    return f"{float(f'{value:.{figures}g}'):.10g}"
