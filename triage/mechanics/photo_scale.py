"""A length from a photograph: a bank card beside the line gives the scale, and the slant at which it was taken.

Four corners of a flat card and its known size fix the one projective map (homography) from the picture to the plane of
the card; lengths are taken in that plane. What a tap is usually off makes the error, to the first order.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from triage.mechanics.linear import solve

Point = tuple[float, float]
"""In the picture, to the right and down, in any one unit; or on the card, in metres."""

LONG, SHORT = 0.0856, 0.05398
"""The sides of a bank card, in metres: ISO/IEC 7810, ID-1."""

CARD: tuple[Point, ...] = ((0.0, 0.0), (LONG, 0.0), (LONG, SHORT), (0.0, SHORT))
"""Its corners, gone round from one end of a long side."""

DEVIATIONS = 2.0
"""Standard deviations between the middle and each end of what is told: about 19 of 20 lie within."""

SMALLEST_TURN = 0.05
"""Sine of the least angle at a corner; of less the four taps are no card, or one that is seen from its edge."""

SHORTENED = 0.9
"""How short the long sides may look against the short ones, before it was probably begun at a short side."""


@dataclass(frozen=True)
class Length:
    """A length in metres, and how far it may be off either way for the taps alone."""

    middle: float
    error: float


def length(corners: Sequence[Point], along: Sequence[Point], off: float) -> Length:
    """The length along these points, each tap being off by ``off``, as a standard deviation each way.

    Raises ValueError, with a sentence that says why, where the corners cannot be those of a card.
    """
    taps = [*corners, *along]
    middle = _length(taps)
    slopes = [_slope(taps, number, direction) for number in range(len(taps)) for direction in (0, 1)]
    return Length(middle, DEVIATIONS * off * math.hypot(*slopes))


def _length(taps: Sequence[Point]) -> float:
    taps = [(x - taps[0][0], y - taps[0][1]) for x, y in taps]  # a corner of the card is on this side of the horizon
    corners, along = taps[:4], taps[4:]
    to_card = homography(_card(corners), CARD)
    return sum(math.dist(a, b) for a, b in pairwise([moved(to_card, point) for point in along]))


def _slope(taps: Sequence[Point], number: int, direction: int) -> float:
    """By how much the length changes as one coordinate of one tap does: a central difference."""
    step = 1e-4 * max(math.dist(taps[0], taps[2]), math.dist(taps[1], taps[3]))
    ends = []
    for sign in (1, -1):
        shifted = list(taps[number])
        shifted[direction] += sign * step
        ends.append(_length([*taps[:number], (shifted[0], shifted[1]), *taps[number + 1 :]]))
    return (ends[0] - ends[1]) / (2 * step)


def _card(corners: Sequence[Point]) -> Sequence[Point]:
    """The corners, if a card can have them. Raises ValueError."""
    around = [*corners, *corners[:2]]
    turns = [_turn(a, b, c) for a, b, c in zip(around, around[1:], around[2:], strict=False)]
    if min(abs(turn) for turn in turns) < SMALLEST_TURN or len({turn > 0 for turn in turns}) > 1:
        raise ValueError("the four taps are not the corners of a card, gone round one after the other")
    sides = [math.dist(a, b) for a, b in pairwise(around[:5])]
    if sides[0] + sides[2] < SHORTENED * (sides[1] + sides[3]):
        raise ValueError("the first two taps should be the ends of a long side of the card")
    return corners


def _turn(a: Point, b: Point, c: Point) -> float:
    """The sine of the turn at ``b``; nothing where two points are one."""
    one, two = (b[0] - a[0], b[1] - a[1]), (c[0] - b[0], c[1] - b[1])
    lengths = math.hypot(*one) * math.hypot(*two)
    return (one[0] * two[1] - one[1] * two[0]) / lengths if lengths else 0.0


def homography(seen: Sequence[Point], real: Sequence[Point]) -> tuple[float, ...]:
    """The eight numbers of the projective map that takes four points to four others. ValueError where there is none."""
    *matrix, right = zip(*_equations(seen, real), strict=True)
    try:
        return tuple(solve(list(zip(*matrix, strict=True)), right))
    except ValueError:
        raise ValueError("the four taps are not the corners of a card") from None


def moved(map_: Sequence[float], point: Point) -> Point:
    """Where the map takes a point. ValueError for one beyond the horizon of the plane."""
    a, b, c, d, e, f, g, h = map_
    x, y = point
    depth = g * x + h * y + 1
    if depth <= 0:
        raise ValueError("the line runs out of the plane of the card")
    return (a * x + b * y + c) / depth, (d * x + e * y + f) / depth


def _equations(seen: Sequence[Point], real: Sequence[Point]) -> Iterator[list[float]]:
    for (x, y), (u, v) in zip(seen, real, strict=True):
        yield [x, y, 1, 0, 0, 0, -u * x, -u * y, u]
        yield [0, 0, 0, x, y, 1, -v * x, -v * y, v]
