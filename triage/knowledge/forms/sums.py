"""The shape of a sum in a file."""

from __future__ import annotations

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, Id, Text, YesNo
from triage.parsing.forms import Form


class AskedForm(Form):
    """Something to measure; ``error`` is written with its unit. ``scale``: whose measured answers can be used;
    ``outside``: what is said of what is less or more than can be.
    """

    what: Text
    scale: str = ""
    unit: str
    error: str | float = 0
    least: float = Field(ge=0)
    most: float = Field(gt=0)
    outside: str = ""


class GivenForm(Form):
    """A value that nobody can measure, from the least to the most."""

    what: Text
    unit: str
    from_: float = Field(alias="from", gt=0)
    to: float = Field(gt=0)


class ToldForm(Form):
    """A result; ``answers``: the scale to which it may be proposed as an answer."""

    say: Text
    unit: str
    how: Text
    answers: str = ""


class PlotForm(Form):
    """A curve: a result against what is asked."""

    against: Id
    shows: Id


class SumForm(Form):
    """One sum; a ``worksheet`` gives quantities to whoever does the work."""

    name: Text
    helps: Text
    asks: dict[Id, AskedForm] = Field(min_length=1)
    given: dict[Id, GivenForm] = {}
    tells: dict[Id, ToldForm] = Field(min_length=1)
    plot: PlotForm | None = None
    pieces: ToldForm | None = None
    worksheet: YesNo = "no"
    mind: Text
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None
