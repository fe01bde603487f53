"""The price of a purchase, line by line, so that anybody can add it up: what each line counts for, and every total."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.buying.advice import PurchaseAdvice
from triage.buying.price_lines import PriceLine
from triage.phrases import prices
from triage.phrases.money import amount, exactly
from triage.phrases.words import counted

HOW_IT_ADDS_UP = (
    "Each line counts with its middle, less where it may not come at all, to the nearest 5. The lines add up to the "
    "totals; what it comes to in the end lies somewhere in the ranges above."
)
LINE_BY_LINE = "The price, line by line"
TO_PAY, WORTH, ASKED, ALL_IN = "What is to pay", "As she lies", "Asking price", "Bought as asked, all in"
SMALLER = "smaller line"
STEP = 5


@dataclass(frozen=True)
class Row:
    """A line, or a total, of the price: what it counts for, in what range, and what that rests on."""

    sign: str
    name: str
    counts: str
    detail: str = ""
    basis: str = ""
    about: tuple[str, ...] = ()
    total: bool = False


def rows(advice: PurchaseAdvice) -> Iterator[Row]:
    """All of it: what is to pay line by line; then what she is worth, and what she costs all in."""
    yield from to_pay(advice)
    yield from worth(advice)
    if advice.offer.asking is not None:
        costs = _costs(advice)
        yield Row(" ", ASKED, exactly(advice.offer.asking, advice.offer.currency))
        yield from _less(advice, "+")
        yield Row("=", ALL_IN, exactly(advice.offer.asking + costs, advice.offer.currency), total=True)


def in_brief(advice: PurchaseAdvice, told: int) -> list[Row]:
    """What is to pay, its ``told`` weightiest lines one by one, and what she is worth, where there is little room."""
    total = TO_PAY.lower()
    return [*to_pay(advice, told), *(row for row in worth(advice) if row.name != total)]


def to_pay(advice: PurchaseAdvice, told: int = 1000) -> Iterator[Row]:
    """What is to pay, the ``told`` weightiest lines one by one, and their total."""
    lines, _ = _sorted(advice)
    yield from _lines(lines, told, advice.offer.currency)
    if lines:
        yield Row("=", TO_PAY, exactly(_costs(advice), advice.offer.currency), total=True)


def worth(advice: PurchaseAdvice) -> Iterator[Row]:
    """From a sound one like her to what she is worth; nothing where the buyer named no such price."""
    offer, currency = advice.offer, advice.offer.currency
    if not offer.sound:
        return
    _, extra = _sorted(advice)
    sound = _rounded(offer.sound.mean)
    *worked_out, (name, range_, rests) = prices.start(offer)
    yield from (Row(" ", what, "", f"{how_much}, {whose}") for what, how_much, whose in worked_out)
    yield Row(" ", name, exactly(sound, currency), _joined(range_, rests))
    yield from _less(advice, "−")
    yield from _lines(extra, len(extra), currency)
    yield Row("=", WORTH, _signed(sound - _costs(advice) - sum(map(counts, extra)), currency), total=True)


def _sorted(advice: PurchaseAdvice) -> tuple[list[PriceLine], list[PriceLine]]:
    """What is to pay and what comes with her, the weightiest first."""
    lines = prices.by_weight(advice.sums.lines)
    return [one for one in lines if one.kind != "extra"], [one for one in lines if one.kind == "extra"]


def _costs(advice: PurchaseAdvice) -> int:
    return sum(map(counts, _sorted(advice)[0]))


def _less(advice: PurchaseAdvice, sign: str) -> Iterator[Row]:
    if costs := _costs(advice):
        yield Row(sign, TO_PAY.lower(), exactly(costs, advice.offer.currency))


def counts(line: PriceLine) -> int:
    """What a line counts for in the sum: what it comes to on average."""
    return _rounded(line.mean)


def _rounded(value: float) -> int:
    return STEP * round(value / STEP)


def _signed(value: float, currency: str) -> str:
    return f"−{exactly(-value, currency)}" if value < 0 else exactly(value, currency)


def _lines(lines: Sequence[PriceLine], told: int, currency: str) -> Iterator[Row]:
    for one in lines[:told]:
        detail = _joined(amount(one.amount, currency), prices.line_detail(one, currency))
        name, basis = prices.line_name(one), prices.line_basis(one)
        yield Row("+", name, exactly(abs(counts(one)), currency), detail, basis, one.about)
    if rest := lines[told:]:
        yield Row("+", counted(len(rest), SMALLER), exactly(abs(sum(map(counts, rest))), currency))


def _joined(*parts: str) -> str:
    return ", ".join(filter(None, parts))
