"""What a boat may be worth, as bars over one scale, with what is asked for her as a post that stands in all of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from triage.drawing.bands import LETTER, WIDTH, mark_step
from triage.drawing.svg import drawings

EDGE = 12.0
"""From the side of the picture to the ends of the scale."""


@dataclass(frozen=True)
class Bar:
    """Money from the least to the most, what it is and in figures; ``all_of_it``: what the others come to."""

    says: str
    figures: str
    least: float
    most: float
    all_of_it: bool = False


@dataclass(frozen=True)
class Post:
    """A figure that stands fast, and what it is."""

    says: str
    at: float


def draw_price(bars: Sequence[Bar], post: Post | None, says: str) -> Markup:
    """The bars, uppermost first, and the post among them. Raises ValueError when there are no bars."""
    if not bars:
        raise ValueError("there is nothing to draw")
    ends = [one for bar in bars for one in (bar.least, bar.most)] + ([post.at] if post else [])
    step = mark_step(max(ends) - min(ends))
    low = step * math.floor(min(ends) / step)
    high = max(step * math.ceil(max(ends) / step), low + step)
    per = (WIDTH - 2 * EDGE) / (high - low)

    def along(value: float) -> float:
        return EDGE + (value - low) * per

    half = len(post.says) * LETTER / 2 + 6 if post else 0.0
    marks = [low + step * i for i in range(round((high - low) / step) + 1)]
    return Markup(
        drawings()
        .get_template("bands/price.svg")
        .render(
            says=says,
            width=WIDTH,
            bars=[(bar, along(bar.least), along(bar.most)) for bar in bars],
            post=post and (post.says, along(post.at), min(max(along(post.at), half), WIDTH - half)),
            marks=[(value, along(value)) for value in marks],
        )
    )
