"""Views of advice on buying: one screen of text, one page, JSON; and of a plan for a viewing."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from triage.buying.advice import PurchaseAdvice
from triage.buying.viewing import ViewingPlan
from triage.parsing.text import fold, plain
from triage.phrases import build_up, buying, jobs, prices, seller, short, viewing, words
from triage.resources import template_environment
from triage.views.price_picture import price_picture, price_text

if TYPE_CHECKING:
    import jinja2

Format = Literal["text", "html", "json"]

DETAIL = 41
"""The column at which what is to be said of a line begins."""

FORMAT = 3
"""The shape of the JSON. 2: ``professional`` tells what a look is worth over every risk (``to_leave``,
``off_the_price``) and what it rests on; ``untried`` holds places at which something is suspected, too; a line tells its
``zones``, its ``gear`` and what that ``takes_in``. 3: sums tell by how much the budget is exceeded for certain
(``beyond``, ``own_beyond``); ``untried`` calls places by their plain names.
"""

SHAPES = ("○", "◇", "?", "■")
"""Gravity by shape, as in reports: nothing against it, terms, a check first, leave."""


def render_purchase(advice: PurchaseAdvice, format: Format = "text") -> str:  # noqa: A002
    """The advice on one screen, on one page that stands by itself, or as JSON."""
    if format == "json":
        return json.dumps(purchase_as_json(advice), ensure_ascii=False, indent=2) + "\n"
    if format == "html":
        return _pages().get_template("buy.html").render(_of_page(advice))
    told = {
        "p": advice,
        "a": advice.assessment,
        "detail": DETAIL,
        "shapes": SHAPES,
        "table": list(_table(advice)),
        "sentences": list(prices.sum_up(advice)),
        "picture": price_text(advice),
    }
    return _texts().get_template("buy.txt").render(told)


def _table(advice: PurchaseAdvice) -> Iterator[str]:
    """The build-up as rows: what a line is for, what it counts for, and what is to be said of it."""
    rows = build_up.in_brief(advice, prices.LINES_TOLD)
    width = max((len(row.counts) for row in rows), default=0)
    room = DETAIL - len("-   ") - 1 - width
    for row in rows:
        name = plain(row.name)
        short_name = name if len(name) <= room else f"{name[: room - 1]}…"
        yield f"{row.sign.replace('−', '-')} {short_name:<{room}} {row.counts:>{width}}  {row.detail}"


def _of_page(advice: PurchaseAdvice) -> dict[str, Any]:
    return {
        "p": advice,
        "a": advice.assessment,
        "rows": list(build_up.rows(advice)),
        "sentences": list(prices.sum_up(advice)),
        "picture": price_picture(advice),
        "shape": SHAPES[advice.level],
        "kind": ("looks", "watch", "open", "weakened")[advice.level],
    }


def purchase_as_json(advice: PurchaseAdvice) -> dict[str, Any]:
    """The advice as plain values; of the assessment, which has its own JSON, only what names it."""
    from pydantic import TypeAdapter

    values: dict[str, Any] = TypeAdapter(PurchaseAdvice).dump_python(advice, mode="json", exclude={"assessment"})
    values["sums"] |= {
        name: None if (spread := getattr(advice.sums, name)) is None else _quantiles(spread)
        for name in ("costs", "worth", "outlay")
    }
    return {
        "format": FORMAT,
        "boat": advice.assessment.boat,
        "rules": advice.assessment.rules,
        "headline": buying.headline(advice),
        **values,
    }


def _quantiles(spread: Any) -> dict[str, float]:
    known = {f"p{round(100 * chance)}": spread.quantile(chance) for chance in (0.1, 0.5, 0.9)}
    return {name: round(value, 2) for name, value in {"mean": spread.mean, "sd": spread.sd, **known}.items()}


def render_viewing(plan: ViewingPlan) -> str:
    """A plan for a viewing, to be printed or read beside the boat."""
    asks = [*(viewing.question(*one) for one in plan.about_marks), *plan.asks]
    return _texts().get_template("plan.txt").render({"p": plan, "asks": asks})


@cache
def _pages() -> jinja2.Environment:
    environment = template_environment(autoescape=True)
    environment.filters["plain"] = plain
    environment.globals |= {
        "build_up": build_up,
        "buying": buying,
        "jobs": jobs,
        "prices": prices,
        "seller": seller,
        "short": short,
        "words": words,
    }
    return environment


@cache
def _texts() -> jinja2.Environment:
    environment = template_environment(autoescape=False)  # plain text: nothing is interpreted
    environment.filters |= {"plain": plain, "fold": fold, "hang": _hanging}
    environment.globals |= {
        "build_up": build_up,
        "buying": buying,
        "prices": prices,
        "seller": seller,
        "viewing": viewing,
    }
    return environment


def _hanging(row: str, column: int) -> str:
    """A row whose last column goes on below itself."""
    head, tail = row[:column], row[column:].strip()
    return fold(tail, column, head) if tail else head.rstrip()
