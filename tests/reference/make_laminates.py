"""Write laminates.json anew with composipy: ``python -m tests.reference.make_laminates``.

composipy brings a library for charts, which nothing else here needs, so it is no part of the test requirements: what it
answers is kept in laminates.json beside the version that answered, and the tests compare with that.
"""

from __future__ import annotations

import json
import random
from importlib.metadata import version
from pathlib import Path
from typing import Any

MAT = {"along": 6.4e9, "across": 6.4e9, "poisson": 0.30, "shear": 2.4615e9}
CLOTH = {"along": 13.24e9, "across": 13.24e9, "poisson": 0.17, "shear": 3.056e9}


def stacks() -> list[list[dict[str, float]]]:
    """Skins as they are laid, one with all of its cloth on one face, and stacks drawn at random."""
    mat, thin, cloth = {**MAT, "thickness": 1.05e-3}, {**MAT, "thickness": 0.7e-3}, {**CLOTH, "thickness": 0.78e-3}
    laid = [[mat, mat, mat], [thin, mat, cloth, mat], [mat, cloth, mat], [mat, mat, cloth, cloth]]
    laid = [[{**ply, "angle": 0.0} for ply in stack] for stack in laid]
    return [*laid, *([_drawn(draw) for _ in range(draw.randint(1, 8))] for draw in map(random.Random, range(12)))]


def _drawn(draw: random.Random) -> dict[str, float]:
    along = round(draw.uniform(5e9, 180e9), -6)
    return {
        "thickness": round(draw.uniform(0.2e-3, 3e-3), 6),
        "along": along,
        "across": round(along * draw.uniform(0.05, 1), -6),
        "poisson": round(draw.uniform(0.1, 0.4), 3),
        "shear": round(draw.uniform(2e9, 10e9), -6),
        "angle": float(draw.randint(-90, 90)),
    }


def answered(stack: list[dict[str, float]]) -> dict[str, Any]:
    """A stack with what composipy makes of it."""
    from composipy import LaminateProperty, OrthotropicMaterial  # type: ignore[import-not-found]

    plies = [
        OrthotropicMaterial(one["along"], one["across"], one["poisson"], one["shear"], one["thickness"])
        for one in stack
    ]
    found = LaminateProperty([one["angle"] for one in stack], plies)
    return {"plies": stack, "A": found.A.tolist(), "B": found.B.tolist(), "D": found.D.tolist()}


def main() -> None:
    """Ask composipy about every stack and keep its answers."""
    kept = {"composipy": version("composipy"), "stacks": [answered(stack) for stack in stacks()]}
    Path(__file__).with_name("laminates.json").write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
