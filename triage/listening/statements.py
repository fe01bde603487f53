"""What is understood from a story: one thing each, with the words that it rests on and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from triage.listening.choosing import Choice

Sense = Literal["seen", "felt", "heard", "measured", "told"]
Side = Literal["port", "starboard", "both", ""]


@dataclass(frozen=True)
class Statement:
    """One thing: ``text[start:end]`` is what it rests on; ``sure`` is from 0 to 1."""

    start: int
    end: int
    sure: float


@dataclass(frozen=True)
class Found(Statement):
    """A mark at a place, with what else the words may mean.

    ``clear``: place and mark are both named, and sure enough to be proposed by themselves; else one of the ``choices``
    is asked for. The first of these is the likeliest.
    """

    choices: tuple[Choice, ...]
    side: Side
    sense: Sense
    clear: bool

    @property
    def zone(self) -> str:
        """The likeliest place."""
        return self.choices[0].zone

    @property
    def sign(self) -> str:
        """The likeliest mark."""
        return self.choices[0].sign


@dataclass(frozen=True)
class Measured(Statement):
    """A figure: ``low`` to ``high`` in ``unit``, what it is a measure of, and of which scale it is a reading.

    ``scale`` is empty where it could be bound to none; then it is asked, and never forced. ``of``: where the finding
    stands that it belongs to, or None. ``over``: the length in mm that a bend was measured over, or 0.
    ``bound``: the words before it that bound it ("about", "less than").
    """

    low: float
    high: float
    unit: str
    measure: str
    scale: str
    of: tuple[int, int] | None
    estimated: bool
    over: float = 0.0
    bound: str = ""

    @property
    def answer(self) -> str:
        """The figure as an answer, with the words that bound it: "about 5 L"."""
        return f"{self.bound} {self.quantity}".strip()

    @property
    def quantity(self) -> str:
        """The figure as it can be written down: "6 to 8 mm", "14 mm over 1700 mm"."""
        low, high = f"{self.low:g}", f"{self.high:g}"
        said = f"{low} {self.unit}" if low == high else f"{low} to {high} {self.unit}"
        return f"{said} over {self.over:g} mm" if self.over else said


@dataclass(frozen=True)
class Denied(Statement):
    """A mark that is said not to be there. It is never recorded as a finding, nor as a pass."""

    sign: str
    zone: str


@dataclass(frozen=True)
class Passed(Statement):
    """A part that is said to be well: by which reading, or by an adjective alone (``scale`` is empty), which passes
    nothing until the test is named.
    """

    zone: str
    scale: str
    side: Side


@dataclass(frozen=True)
class NotLooked(Statement):
    """Something that was not looked at or could not be seen; ``zone`` may be empty."""

    zone: str


@dataclass(frozen=True)
class BoatFact(Statement):
    """A fact of the boat and its value."""

    fact: str
    value: str


@dataclass(frozen=True)
class Told(Statement):
    """What happened to her, or was done to her; ``force`` and ``ago`` are empty where nobody says.

    ``words``: where each word begins that tells it; those between tell of something else.
    """

    event: str
    done: bool
    force: str
    ago: str
    words: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Time(Statement):
    """When something was, or how long it has been so."""

    ago: str


@dataclass(frozen=True)
class Asked(Statement):
    """A question, by what it asks for; empty where that is not understood."""

    about: str


@dataclass(frozen=True)
class Unheard(Statement):
    """Words that nothing was made of. ``zone``: the place they speak of, if they name one."""

    zone: str


Story = tuple[Statement, ...]
