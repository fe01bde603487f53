"""What is taught: lessons, what is confused with what and the test that tells them apart, and how a trainer scores."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from triage.errors import Place
from triage.knowledge.model.scale import NOWHERE, Basis


@dataclass(frozen=True)
class Lookalike:
    """One of two things that look alike: a mark, or a part that has no fault.

    ``readings`` are the levels that the separating checks find on it, ``tells`` says the same in words. ``drawing`` is
    the sign, or what is drawn because it is no fault.
    """

    name: str
    drawing: str
    zone: str
    sign: str
    readings: Mapping[str, int]
    tells: str


@dataclass(frozen=True, eq=False)
class Confusion:
    """Two things that are taken for each other, and the checks that separate them, the first one first.

    ``test`` is how, in one breath; ``because`` is why that separates them. ``at_sight`` is what both look like,
    where the picture of the mark says what only a check can tell.
    """

    id: str
    number: int
    asks: str
    pair: tuple[Lookalike, Lookalike]
    checks: tuple[str, ...]
    test: str
    because: str
    basis: Basis
    at_sight: str = ""
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class LessonStep:
    """Something to do in so many minutes; ``check`` is the one that is practised, if it is one."""

    minutes: int
    do: str
    check: str = ""


@dataclass(frozen=True)
class LessonCase:
    """What to draw cases of: a mark at a place, or one of the two of a confusion; ``count`` of them."""

    zone: str = ""
    sign: str = ""
    confusion: str = ""
    count: int = 1


@dataclass(frozen=True)
class LessonQuestion:
    """A question with its answer."""

    ask: str
    answer: str


@dataclass(frozen=True)
class LessonScore:
    """What is counted in a lesson, and from where on it is reached."""

    what: str
    reached: str


@dataclass(frozen=True, eq=False)
class Lesson:
    """Forty to sixty minutes with a class. ``aim`` is what somebody can do afterwards."""

    id: str
    number: int
    title: str
    aim: str
    bring: tuple[str, ...]
    steps: tuple[LessonStep, ...]
    cases: tuple[LessonCase, ...]
    questions: tuple[LessonQuestion, ...]
    looks_for: tuple[str, ...]
    cautions: tuple[str, ...]
    scores: tuple[LessonScore, ...]
    basis: Basis
    place: Place = field(default=NOWHERE, compare=False)

    @property
    def minutes(self) -> int:
        """Of all steps together."""
        return sum(step.minutes for step in self.steps)


@dataclass(frozen=True)
class SheetItem:
    """What earns points on a finding: ``full`` is what earns all of them, ``part`` what earns some."""

    id: str
    name: str
    points: int
    full: str
    part: str = ""


@dataclass(frozen=True)
class SheetFault:
    """What takes points away, leaves no more than ``most`` of them, or ends the try with none (``stops``)."""

    id: str
    name: str
    points: int
    stops: bool
    because: str
    most: int | None = None


@dataclass(frozen=True)
class Sheet:
    """How a trainer scores one finding."""

    items: tuple[SheetItem, ...] = ()
    faults: tuple[SheetFault, ...] = ()
    says: tuple[str, ...] = ()
    basis: Basis = field(default_factory=lambda: Basis("estimate"))

    @property
    def points(self) -> int:
        """At most."""
        return sum(item.points for item in self.items)


@dataclass(frozen=True, eq=False)
class Teaching:
    """Everything that is taught, in the order of the files."""

    lessons: Mapping[str, Lesson] = field(default_factory=dict)
    confusions: Mapping[str, Confusion] = field(default_factory=dict)
    sheet: Sheet = field(default_factory=Sheet)
    cautions: tuple[str, ...] = ()
