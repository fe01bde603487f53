"""A curve as a band: a result that is known from the least to the most, against what was measured."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Sequence

from markupsafe import Markup

from triage.drawing.bands import WIDTH, mark_step
from triage.drawing.svg import drawings, path

HEIGHT, LEFT, RIGHT, TOP, FOOT = 220.0, 46.0, 20.0, 26.0, 40.0
"""The picture, and the room around its field, in units."""

LETTERS, LINE = 36, 17.0
"""The most letters in a line of the name of a scale, and from one line to the next."""

Band = Sequence[tuple[float, float, float]]
"""Where along, and the least and the most there."""


def draw_curve(band: Band, here: tuple[float, float], along: str, up: str, says: str, name: str = "curve") -> Markup:
    """The band over what it depends on; ``here`` is what was measured, from the least to the most.

    ``along`` and ``up`` name the two scales with their units. Raises ValueError for fewer than two points.
    """
    if len(band) < 2:
        raise ValueError("a curve has at least two points")
    first, last = band[0][0], band[-1][0]
    step_up = _step(max(most for _, _, most in band))
    top = step_up * -(-max(most for _, _, most in band) // step_up)

    def x(value: float) -> float:
        return LEFT + (value - first) / (last - first) * (WIDTH - LEFT - RIGHT)

    def y(value: float) -> float:
        return HEIGHT - FOOT - max(0.0, value) / top * (HEIGHT - FOOT - TOP)

    lower, upper = ([(x(at), y(one[end])) for at, *one in band] for end in (0, 1))
    step = _step(last)
    names_up, names_along = (textwrap.wrap(name, LETTERS) for name in (up, along))
    marks = [step * i for i in range(int(last / step) + 1) if step * i >= first]
    return Markup(
        drawings()
        .get_template("bands/curve.svg")
        .render(
            name=name, says=says, along=names_along, up=names_up, line=LINE, down=LINE * (len(names_up) - 1),
            width=WIDTH, height=HEIGHT + LINE * (len(names_up) + len(names_along) - 2), left=LEFT, right=WIDTH - RIGHT,
            foot=HEIGHT - FOOT, top=TOP, band=path([*lower, *upper[::-1]], closed=True),
            here=[x(min(max(end, first), last)) for end in here],
            marks=[(x(at), f"{at:g}") for at in marks],
            ups=[(y(step_up * i), f"{step_up * i:g}") for i in range(round(top / step_up) + 1)],
        )
    )  # fmt: skip


def _step(most: float) -> float:
    """How far apart the marks of a scale are, which may reach to less than one."""
    power = 10.0 ** (math.floor(math.log10(most)) - 1) if most > 0 else 1.0
    return mark_step(most / power) * power
