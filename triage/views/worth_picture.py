"""The small picture of what a boat may be worth: bars of its chances, and where the asking price lies."""

from __future__ import annotations

from dataclasses import dataclass

from triage.buying.advice import PurchaseAdvice
from triage.phrases import buying

WIDTH, HEIGHT, BARS = 400.0, 48.0, 40
BASE_LINE = 70.0
EDGE = 60.0
"""From the side: nearer to it a label is written towards the middle."""


@dataclass(frozen=True)
class Bar:
    """The chance of one stretch of worth; ``below``: it is less than what is asked."""

    x: float
    y: float
    width: float
    height: float
    below: bool


@dataclass(frozen=True)
class Label:
    """A word at a place along the line."""

    x: float
    text_x: float
    label: str
    anchor: str


@dataclass(frozen=True)
class WorthPicture:
    """The bars, the figures under them, what is asked, and all of it in words."""

    bars: tuple[Bar, ...]
    ticks: tuple[Label, ...]
    asked: Label | None
    says: str


def worth_picture(advice: PurchaseAdvice) -> WorthPicture | None:
    """The picture; nothing where the buyer did not say what a sound boat costs."""
    worth, asked = advice.sums.worth, advice.offer.asking
    if worth is None:
        return None
    ends = [worth.quantile(0.005), worth.quantile(0.995), *([asked] if asked is not None else [])]
    low, high = min(ends), max(ends)
    if high - low < worth.step:
        return None
    wide = (high - low) / BARS
    chances = [max(0.0, worth.exceeds(low + k * wide) - worth.exceeds(low + (k + 1) * wide)) for k in range(BARS)]
    top = max(chances)

    def along(value: float) -> float:
        return round((value - low) / (high - low) * WIDTH, 1)

    bars = []
    for k, chance in enumerate(chances):
        tall = round(chance / top * HEIGHT, 1)
        below = asked is not None and low + (k + 0.5) * wide < asked
        bars.append(Bar(round(k * WIDTH / BARS, 1), BASE_LINE - tall, WIDTH / BARS - 1, tall, below))
    ticks = tuple(_label(along(value), buying.figure(value)) for value in (low, worth.quantile(0.5), high))
    mark = None if asked is None else _label(along(asked), f"asked {buying.figure(asked)}")
    return WorthPicture(tuple(bars), ticks, mark, " ".join(buying.sum_up(advice)))


def _label(x: float, text: str) -> Label:
    anchor = "start" if x < EDGE else "end" if x > WIDTH - EDGE else "middle"
    return Label(x, x, text, anchor)
