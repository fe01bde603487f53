"""A few linear equations at once."""

from __future__ import annotations

from collections.abc import Sequence


def solve(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """The x of A x = b, by elimination with partial pivoting. ValueError where no single x does it.

    Written here because the phone has no numpy, and eight equations are the most that are ever solved.
    """
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size = len(rows)
    for column in range(size):
        pivot = max(range(column, size), key=lambda row: abs(rows[row][column]))
        if rows[pivot][column] == 0:
            raise ValueError("these equations have no single answer")
        rows[column], rows[pivot] = rows[pivot], rows[column]
        for row in range(column + 1, size):
            share = rows[row][column] / rows[column][column]
            for at in range(column, size + 1):
                rows[row][at] -= share * rows[column][at]
    found = [0.0] * size
    for row in reversed(range(size)):
        known = sum(rows[row][at] * found[at] for at in range(row + 1, size))
        found[row] = (rows[row][size] - known) / rows[row][row]
    return found
