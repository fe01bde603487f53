"""A sum as a page that stands by itself: what went in, each formula, what comes out, and its curve."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from triage.drawing.curve import draw_curve
from triage.drawing.svg import style_sheet
from triage.mechanics.interval import Interval
from triage.mechanics.worked import Worked, curve
from triage.phrases import sums as words
from triage.phrases.words import basis_words
from triage.resources import template_environment

Row = tuple[str, str, str]
"""What it is, the number with its unit, and how it was come by."""


def sum_page(done: Worked) -> str:
    """The page. Raises CannotWork when its templates are not there."""
    one = done.sum
    return template_environment().get_template("sum.html").render(
        one=one,
        words=words,
        took=list(_took(done)),
        told=[(told.say, words.between(done.told[name], told.unit), told.how) for name, told in one.tells.items()],
        pieces=[words.between(piece, one.pieces.unit) for piece in done.pieces] if one.pieces else [],
        curve=_curve(done),
        basis=words.basis_told(basis_words(one.basis)),
        drawings=Markup(style_sheet()),
    )  # fmt: skip


def _took(done: Worked) -> Iterator[Row]:
    for name, asked in done.sum.asks.items():
        yield asked.what, words.between(done.took[name], asked.unit, words.FIGURES_MEASURED), ""
    for given in done.sum.given.values():
        yield given.what, words.between(Interval(given.low, given.high), given.unit), words.NOT_MEASURED


def _curve(done: Worked) -> Markup | None:
    plot, points = done.sum.plot, curve(done)
    if plot is None or len(points) < 2:
        return None
    asked, shown, here = done.sum.asks[plot.against], done.sum.tells[plot.shows], done.took[plot.against]
    return draw_curve(
        [(at, one.low, one.high) for at, one in points],
        (here.low, here.high),
        words.with_unit(asked.what, asked.unit),
        words.with_unit(shown.say, shown.unit),
        words.curve_says(done, plot),
    )
