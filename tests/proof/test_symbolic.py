"""Formulas and the solver: what is joined, what is found, and what happens when finding takes too long."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from tests.inference.small import knowledge
from triage.proof.symbolic import Formula, Solver, Undecided, atom, both, either, no
from triage.proof.symbolic_finding import SymbolicBoat, SymbolicFinding


def test_what_is_joined_of_one_part_is_that_part() -> None:
    part = atom("it rains")

    assert part is both((part, True, part))
    assert part is either((part, False, part))


def test_what_is_not_not_so_is_so() -> None:
    part = atom("it rains")

    assert part is no(no(part))


def test_what_nobody_asked_about_is_one_way_or_the_other() -> None:
    rains = atom("it rains")

    truth = Solver([]).find(True)

    assert truth is not None
    assert truth(rains) != truth(no(rains))


def test_of_wishes_that_cannot_all_be_met_the_first_ones_are() -> None:
    days = [atom(f"it rains on day {day}") for day in range(6)]

    truth = Solver([]).find(either(days), [no(day) for day in days])

    assert truth is not None
    assert [False] * 5 + [True] == [truth(day) for day in days]


def test_a_question_that_takes_too_long_is_given_up_and_called_undecided() -> None:
    """Whether more pigeons fit than there are holes takes a solver that only tries ages to find out."""
    pigeons, holes = range(11), range(10)
    sits = {(pigeon, hole): atom(f"{pigeon} in {hole}") for pigeon in pigeons for hole in holes}
    somewhere: list[Formula] = [either(sits[pigeon, hole] for hole in holes) for pigeon in pigeons]
    alone = [no(both((sits[one, hole], sits[two, hole]))) for hole in holes for one, two in combinations(pigeons, 2)]

    with pytest.raises(Undecided, match="timeout"):
        Solver(alone, patience=0.05).can(*somewhere)


def test_no_survey_has_a_mark_on_a_part_that_she_is_said_not_to_have() -> None:
    kb = knowledge()
    kb = replace(kb, zones={**kb.zones, "tank": replace(kb.zones["tank"], only_if={"build": "cored"})})
    her = SymbolicBoat(kb)
    mark = SymbolicFinding(kb, her, "tank", "line")
    built = her.facts["build"]

    solver = Solver([*her.limits, *mark.limits])

    assert not solver.can(built["single"])
    assert solver.can(built["cored"])
    assert solver.can(no(either(built.values())))
