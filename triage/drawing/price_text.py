"""What a boat may be worth, as rows of text over one scale, for where there is no other picture."""

from __future__ import annotations

from collections.abc import Sequence

from triage.drawing.price import Bar, Post

COLUMNS = 26
"""Letters from the least to the most of the scale."""

SAYS = 24
"""Letters for what a row is."""


def price_rows(bars: Sequence[Bar], post: Post | None) -> list[str]:
    """A row for each bar, and one for the post, which stands in all of them. Raises ValueError without bars."""
    if not bars:
        raise ValueError("there is nothing to draw")
    ends = [one for bar in bars for one in (bar.least, bar.most)] + ([post.at] if post else [])
    low, high = min(ends), max(ends)
    per = (COLUMNS - 1) / (high - low) if high > low else 0.0

    def along(value: float) -> int:
        return round((value - low) * per)

    def row(bar: Bar) -> str:
        first, last = along(bar.least), along(bar.most)
        drawn = ["#" if bar.all_of_it else "="] * (last - first + 1)
        cells = [" "] * first + drawn + [" "] * (COLUMNS - 1 - last)
        if post:
            cells[along(post.at)] = "|"
        return f"{bar.says:<{SAYS}} {''.join(cells)} {bar.figures}"

    rows = [row(bar) for bar in bars]
    return rows if post is None else [*rows, f"{'':<{SAYS}} {_under(along(post.at), post.says)}"]


def _under(column: int, says: str) -> str:
    """The words for a post, below it, on the side where there is room."""
    if column + 2 + len(says) > COLUMNS and column > len(says):
        return f"{says} |".rjust(column + 1)
    return f"{'|':>{column + 1}} {says}"
