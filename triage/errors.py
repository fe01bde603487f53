"""What can go wrong, in one tree.

    TriageError
    ├── BadInput         something a person wrote does not hold together; carries every Problem
    │   ├── BadOffer     … in what a buyer brings along
    │   ├── BadRules     … in the knowledge
    │   ├── BadSurvey    … in a survey
    │   └── TooLong      … in a story, which is longer than anybody tells
    ├── BadPhoto         what was handed in as a photograph is none, or of a kind that is not read
    ├── CannotWork       disk, terminal, permissions or files of our own stand in the way
    ├── MissingExtra     an optional library is needed and not installed
    └── NoSuch           a boat, a visit or a photograph that is not kept, or not any more

The library raises these and never prints; only the command line and the web translate them. Some more are turned
into one of these, or into an answer, before anybody sees them:

    ValueError
    ├── NotAQuantity     a text that is no number with a unit (quantities)
    │   └── UnknownUnit  … because nobody measures in that unit here
    ├── CannotBe         two quantities that cannot be what they are said to be (survey.pairs)
    ├── CannotCount      a count that cannot be, or says too little (survey.counts)
    ├── NotUnderstood    an answer that means no level of its scale (survey.readings)
    └── Refused          a sum that is not done although its numbers go together (mechanics.catalogue.formula)
    NameTaken            a nickname that somebody in the class has; they are asked whose it is (app.lessons)
    Undecided            a proof that came to no answer in the time it had (proof.symbolic)
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Place:
    """Where something stands in a file; lines and columns count from 1, 0 means not known."""

    source: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        return f"{self.source}:{self.line}:{self.column}" if self.line else self.source


@dataclass(frozen=True, order=True)
class Problem:
    """One thing that is wrong: where, what, the line itself (from ``start`` on, if it is long), and what to do."""

    place: Place
    what: str
    hint: str = ""
    excerpt: str = ""
    start: int = 0

    def __str__(self) -> str:
        lines = [f"{self.place}: {self.what}"]
        if self.excerpt.strip():
            lines.append(f"    {self.place.line:>4} | {self.excerpt}")
            if self.place.column:
                lines.append(" " * (11 + self.place.column - self.start - 1) + "^")
        if self.hint:
            lines.append(f"    {self.hint}")
        return "\n".join(lines)


class TriageError(Exception):
    """Base of every error this package raises on purpose."""


MOST_TOLD = 50
"""Problems that an error tells one by one; of the others it tells how many there are."""


class BadInput(TriageError):
    """Input that does not hold together. ``problems`` holds all of them, in reading order; its text the first."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(set(problems)))
        super().__init__("\n\n".join([*map(str, self.problems[:MOST_TOLD]), *self._others()]))

    def _others(self) -> Iterator[str]:
        others = len(self.problems) - MOST_TOLD
        if others > 0:
            yield f"… and {others} more {'problem' if others == 1 else 'problems'}. Mend these first."


class BadOffer(BadInput):
    """What a buyer brings along does not hold together."""


class BadRules(BadInput):
    """The knowledge does not hold together."""


class BadSurvey(BadInput):
    """A survey does not hold together, or says something that cannot be."""


class BadPhoto(TriageError):
    """What was handed in as a photograph cannot be kept as one."""

    def __init__(self) -> None:
        super().__init__("This is no photograph that can be read. Choose one in JPEG, PNG or WebP.")


class CannotWork(TriageError):
    """Nothing is wrong with what was asked; the disk, the terminal, a permission or a missing file is in the way.

    Its text is plain sentences: what could not be done and where, why, and what to do.
    """


class MissingExtra(TriageError):
    """An optional library is needed."""

    def __init__(self, needed_for: str, extra: str) -> None:
        super().__init__(f"{needed_for} needs an extra: pip install 'dinghy-triage[{extra}]'")


class NoSuch(TriageError):
    """There is no boat, visit or photograph of this id; perhaps somebody took it out."""
