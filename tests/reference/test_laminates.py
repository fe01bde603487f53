"""Classical lamination against composipy, whose answers are kept in laminates.json (see make_laminates.py)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from triage.mechanics.lamination import Matrix, Ply, Stack

ANSWERED: list[dict[str, Any]] = json.loads(Path(__file__).with_name("laminates.json").read_text(encoding="utf-8"))[
    "stacks"
]


def flat(matrix: Matrix) -> list[float]:
    return [value for row in matrix for value in row]


def stack_of(plies: list[dict[str, float]]) -> Stack:
    return Stack([Ply(**ply) for ply in plies])


@pytest.mark.parametrize("kept", ANSWERED, ids=lambda kept: f"{len(kept['plies'])} layers")
def test_a_stack_stretches_couples_and_bends_as_composipy_says(kept: dict[str, Any]) -> None:
    stack = stack_of(kept["plies"])

    for order, name in enumerate("ABD"):
        theirs = flat(kept[name])
        near = 1e-9 * max(map(abs, flat(kept["A"]))) * stack.thickness**order
        assert theirs == pytest.approx(flat(stack.moment(order)), rel=1e-9, abs=near)


def test_what_a_stack_gives_way_is_the_inverse_of_what_composipy_calls_its_stiffness() -> None:
    import numpy as np

    for kept in ANSWERED:
        whole = np.block([[np.array(kept["A"]), np.array(kept["B"])], [np.array(kept["B"]), np.array(kept["D"])]])
        gives = np.diag(np.linalg.inv(whole))
        assert [stack_of(kept["plies"]).compliance(at) for at in range(6)] == pytest.approx(list(gives), rel=1e-6)


def test_layers_in_millimetres_are_noticed() -> None:
    """A known unit error: it makes D a thousand million times as large."""
    kept = ANSWERED[0]
    wrong = stack_of([{**ply, "thickness": ply["thickness"] * 1000} for ply in kept["plies"]])

    assert wrong.moment(2)[0][0] == pytest.approx(1e9 * kept["D"][0][0])
