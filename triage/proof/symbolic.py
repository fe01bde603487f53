"""Formulas and the solver that decides them. Only this module imports z3.

Formulas are built by the million and most are never asked about, so they are light objects of our own; z3 sees those
that a question reaches, each once.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Sequence
from typing import Any, Literal, TypeAlias

from triage.errors import MissingExtra

try:
    import z3
except ImportError:  # pragma: no cover - the message is the behaviour
    raise MissingExtra("proving the rules", "prove") from None


Operator: TypeAlias = Literal["atom", "and", "or", "not"]


class Expression:
    """A formula that is not simply True or False: an atom with a name, or parts joined."""

    __slots__ = ("name", "operator", "parts", "z3_ref")

    def __init__(self, operator: Operator, parts: tuple[Expression, ...], name: str = "") -> None:
        self.operator, self.parts, self.name = operator, parts, name
        self.z3_ref: Any = None


Formula: TypeAlias = bool | Expression
"""True or False where nothing is left open."""

Model: TypeAlias = Callable[[Formula], bool]
"""What a formula is in one survey that the solver found."""


def atom(name: str) -> Formula:
    """Something that may be so or not; the same name is the same thing."""
    return Expression("atom", (), name)


def both(parts: Iterable[Formula]) -> Formula:
    """All of the parts."""
    found: dict[Expression, None] = {}
    for part in parts:
        if part is False:
            return False
        if isinstance(part, Expression):
            found[part] = None
    return Expression("and", tuple(found)) if len(found) > 1 else next(iter(found), True)


def either(parts: Iterable[Formula]) -> Formula:
    """At least one of the parts."""
    found: dict[Expression, None] = {}
    for part in parts:
        if part is True:
            return True
        if isinstance(part, Expression):
            found[part] = None
    return Expression("or", tuple(found)) if len(found) > 1 else next(iter(found), False)


def no(part: Formula) -> Formula:
    """Not the part."""
    if isinstance(part, bool):
        return not part
    return part.parts[0] if part.operator == "not" else Expression("not", (part,))


def at_least(count: int, parts: Sequence[Formula]) -> Formula:
    """At least ``count`` of the parts."""
    return either(both(some) for some in itertools.combinations(parts, count))


class Undecided(Exception):
    """The solver gave up before its time was over."""


class Solver:
    """Looks for surveys among those that ``limits`` allow. ``patience`` is in seconds for each question."""

    def __init__(self, limits: Iterable[Formula], patience: float = 20.0) -> None:
        self.solver = z3.SolverFor("QF_FD")
        self.solver.set("timeout", int(patience * 1000))
        self.solver.add(*map(to_z3, limits))

    def find(self, wanted: Formula, preferences: Iterable[Formula] = ()) -> Model | None:
        """A survey of which ``wanted`` holds, with as many ``preferences`` as can be, the first ones first.

        None when there is no such survey. Raises Undecided.
        """
        if not self.can(wanted):
            return None
        kept = [wanted]
        for preference in preferences:
            if self.can(*kept, preference):
                kept.append(preference)
        self.can(*kept)
        model = self.solver.model()
        return lambda formula: z3.is_true(model.eval(to_z3(formula), True))

    def can(self, *wanted: Formula) -> bool:
        """Whether all of these can hold together. Raises Undecided."""
        together = both(wanted)
        if together is False:
            return False
        said = self.solver.check() if together is True else self.solver.check(self._named(together))
        if said == z3.unknown:
            raise Undecided(self.solver.reason_unknown())
        return bool(said == z3.sat)

    def _named(self, formula: Formula) -> Any:
        """A new literal that implies the formula: before 5.4 z3 assumes literals only, and later it makes its own."""
        literal = z3.FreshBool("assumed")
        self.solver.add(z3.Implies(literal, to_z3(formula)))
        return literal


def to_z3(formula: Formula) -> Any:
    """The formula as z3 knows it. z3's own `And` and `Or` check each part again, which takes longer than solving."""
    if isinstance(formula, bool):
        return z3.BoolVal(formula)
    if formula.z3_ref is None:
        context = z3.main_ctx().ref()
        parts = [to_z3(part).ast for part in formula.parts]
        match formula.operator:
            case "atom":
                formula.z3_ref = z3.Bool(formula.name)
            case "not":
                formula.z3_ref = z3.BoolRef(z3.Z3_mk_not(context, parts[0]))
            case "and":
                formula.z3_ref = z3.BoolRef(z3.Z3_mk_and(context, len(parts), (z3.Ast * len(parts))(*parts)))
            case "or":
                formula.z3_ref = z3.BoolRef(z3.Z3_mk_or(context, len(parts), (z3.Ast * len(parts))(*parts)))
    return formula.z3_ref
