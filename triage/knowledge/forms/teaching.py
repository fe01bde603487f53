"""The shape of lessons, of confusions and of the sheet by which a trainer scores."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, Id, Levels, Text, YesNo
from triage.parsing.forms import Form

Minutes = Annotated[int, Field(ge=1, le=240)]
Points = Annotated[int, Field(ge=1, le=20)]


class LookalikeForm(Form):
    """One of two things that look alike. ``drawing``: left out, that of the sign. ``tells``: what the checks show."""

    name: Text
    zone: str
    sign: str
    drawing: str = ""
    readings: Levels = Field(min_length=1)
    tells: Text


class ConfusionForm(Form):
    """Two things taken for each other, and the checks that tell them apart. ``at_sight``: what both look like."""

    asks: Text
    at_sight: str = ""
    one: LookalikeForm
    other: LookalikeForm
    checks: list[str] = Field(min_length=1)
    test: Text
    because: Text
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class StepForm(Form):
    """Something to do, and the check that it practises."""

    minutes: Minutes
    do: Text
    check: str = ""


class LessonCaseForm(Form):
    """A place with a mark, or a confusion; so many cases are drawn of it."""

    zone: str = ""
    sign: str = ""
    confusion: str = ""
    count: Annotated[int, Field(ge=1, le=30)] = 1


class QuestionForm(Form):
    """A question with its answer."""

    ask: Text
    answer: Text


class ScoreForm(Form):
    """What is counted, and from where on it is reached."""

    what: Text
    reached: Text


class LessonForm(Form):
    """One lesson: what somebody can do afterwards, and how to get there."""

    title: Text
    aim: Text
    bring: list[Text] = Field(min_length=1)
    steps: list[StepForm] = Field(min_length=1)
    cases: list[LessonCaseForm] = Field(min_length=1)
    questions: list[QuestionForm] = Field(min_length=1)
    looks_for: list[Text] = Field(min_length=1)
    cautions: list[Text] = Field(min_length=1)
    scores: list[ScoreForm] = Field(min_length=1)
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class SheetItemForm(Form):
    """What earns points: all of them, or some."""

    name: Text
    points: Points
    full: Text
    part: str = ""


class SheetFaultForm(Form):
    """What takes points away, leaves at ``most`` so many, or ``stops`` the try with none: one of the three."""

    name: Text
    points: Annotated[int, Field(ge=0, le=20)] = 0
    most: Annotated[int, Field(ge=0, le=20)] | None = None
    stops: YesNo = "no"
    because: Text


class SheetForm(Form):
    """How one finding is scored; ``says`` stands under it."""

    items: dict[Id, SheetItemForm] = Field(min_length=1)
    faults: dict[Id, SheetFaultForm] = {}
    says: list[Text] = []
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class TeachingForm(Form):
    """What holds for every lesson, in one file only: ``cautions`` for the trainer, and the ``sheet``."""

    cautions: list[Text] = []
    sheet: SheetForm
