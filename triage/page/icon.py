"""The icon of the screens again as points, for telephones that take no drawing."""

from __future__ import annotations

import io

PAPER, BUFF, INK = "#fbf8f0", "#f5edd8", "#12212b"
UNITS = 64
"""The square in which the icon is drawn, as in reports/templates/screens/icon.svg."""

_FINER = 4
"""Drawn larger and made smaller again, edges are smooth."""

_HUES = 64
"""Three, and those between them at the edges."""

_STEPS = 24

_RIGHT = ((32, 6), (46, 16), (50, 34), (45, 56))  # from the stem to the stern, as a curve of Bézier's
_LINES = (((32, 20), (32, 46)), ((24, 38), (40, 38)))

Point = tuple[float, float]


def png(size: int) -> bytes:
    """The icon as a square of so many points."""
    from PIL import Image, ImageDraw

    scale = size * _FINER / UNITS
    image = Image.new("RGB", (size * _FINER, size * _FINER), PAPER)
    draw = ImageDraw.Draw(image)
    hull = [(x * scale, y * scale) for x, y in _hull()]
    draw.polygon(hull, fill=BUFF)
    draw.line([*hull, hull[0], hull[1]], fill=INK, width=round(4 * scale), joint="curve")
    for ends in _LINES:
        draw.line([(x * scale, y * scale) for x, y in ends], fill=INK, width=round(3 * scale))
    written = io.BytesIO()
    image.resize((size, size), Image.Resampling.LANCZOS).quantize(_HUES).save(written, "PNG", optimize=True)
    return written.getvalue()


def _hull() -> list[Point]:
    right = [_on_curve(step / _STEPS) for step in range(_STEPS + 1)]
    return right + [(UNITS - x, y) for x, y in reversed(right[1:])]


def _on_curve(t: float) -> Point:
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
    x, y = (sum(weight * point[axis] for weight, point in zip(weights, _RIGHT, strict=True)) for axis in (0, 1))
    return x, y
