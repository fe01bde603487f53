"""The shape of what a boat is made of: facts, places, signs, scales, checks and sources."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from triage.knowledge.forms.atoms import BasisKind, Id, Levels, LevelSaid, Text, YesNo
from triage.knowledge.model import PairKind
from triage.parsing.forms import Form


class FactForm(Form):
    """A fact about the boat, asked once: the question, its answers by name, and how to ``find_out``."""

    asks: Text
    values: dict[Id, Text] = Field(min_length=1)
    find_out: str = ""


class GroupForm(Form):
    """Zones that rules speak of together."""

    name: Text
    zones: list[str] = Field(min_length=1)


class LegForm(Form):
    """One stretch of the walk-round: where to ``stand``, and the zones in the order they are looked at."""

    leg: Id
    name: Text
    stand: Text
    zones: list[str] = Field(min_length=1)


class PassForm(Form):
    """A way of passing a place: the scales answered well, and the boat facts that it takes."""

    by: list[str] = Field(min_length=1)
    where: dict[str, str] = {}


class ZoneForm(Form):
    """A place on the boat. ``trade`` holds its trade names, with commas between.

    ``passed_by`` lists sets of scales, any one of which, answered well, passes the zone, together with ``passed_with``,
    which a mark there does not call for. ``also_open`` are scales that
    a zone without a mark is judged by too. ``passed_alone``: shorter ways, while there is neither a mark nor a
    suspicion there. ``named_checks`` (by default where criticality is primary): no presumption
    stands in for these until they are answered. ``not_asked`` are scales of marks that have no meaning there.
    ``only_if``: the boat facts without which she has no such part.
    """

    name: Text
    trade: Text
    load: Literal["rig", "crew", "grounding", "foil", "steering", "lifting", "pressure", "road", "none"]
    criticality: Literal["primary", "secondary", "none"]
    below_water: Literal["no", "part", "yes"]
    encloses_buoyancy: Literal["no", "varies", "yes"]
    sided: YesNo = "no"
    neighbours: list[str] = []
    reached: Text
    trouble: Text
    compare: str = ""
    passed_by: list[list[str]] = Field(min_length=1)
    passed_with: list[str] = []
    how_passed: Text
    passed_alone: list[PassForm] = []
    also_open: list[str] = []
    not_asked: list[str] = []
    named_checks: YesNo | None = None
    only_if: dict[str, str] = {}


class CapForm(Form):
    """The worst level that a scale can have under the sign, and what sign a worse one would be (``else``)."""

    at_most: LevelSaid
    otherwise: str = Field(alias="else")


class SignForm(Form):
    """What the eye, ear, hand or sponge notices; ``scales`` are those it is judged by.

    It is itself a reading of the scales it is ``about`` (``about_in`` a zone: of others). ``least`` holds the mildest
    levels that its picture allows, ``caps`` the worst; of ``above_zero`` a measurement is never nothing.
    ``scales_in`` a zone are scales that it is judged by only there.
    """

    name: Text
    picture: Text
    not_this: str = ""
    about: list[str] = []
    about_in: dict[str, list[str]] = {}
    scales: list[str] = []
    scales_in: dict[str, list[str]] = {}
    caps: dict[str, CapForm] = {}
    least: Levels = {}
    above_zero: list[str] = []
    named_checks: Literal["all", "first", "none"] = "all"
    also_named: list[str] = []
    harmless: str = ""


class OfferForm(Form):
    """Signs that can be met in each of these zones."""

    zones: list[str] = Field(min_length=1)
    signs: list[str] = Field(min_length=1)


class ObservationForm(Form):
    """One thing that somebody may have found, as it stands after "you found that", and other words for the same."""

    say: Text
    heard: list[Text] = []


def _as_observations(said: Any) -> Any:
    """A sentence alone is an observation, and one observation is a list of one."""
    every = said if isinstance(said, list) else [said]
    return [{"say": one} if isinstance(one, str) else one for one in every]


Observations = Annotated[list[ObservationForm], BeforeValidator(_as_observations)]


class LevelForm(Form):
    """One step of a scale. What is observed has observations (``seen``), each enough by itself; what rules conclude has
    a ``phrase`` that stands after "you found that". ``role`` is for levels of the outcomes alone.
    """

    name: Text
    phrase: str = ""
    seen: Observations = []
    means: str = ""
    role: str = ""
    kept_for: str = ""


class PairForm(Form):
    """Two quantities ``in`` one unit that make a reading, an example of them (``say``), and what length or head
    (``standard``) the scale's own figures are for.
    """

    say: Text
    unit: str = Field(default="", alias="in")
    standard: float | None = Field(default=None, gt=0)


class CountForm(Form):
    """How many of how many fail: from how many on each level begins, or from which percent of all (``share``).

    ``turn``: what takes no more of a turn than this bites.
    """

    say: Text
    words: list[Text] = Field(min_length=1)
    limits: list[float | Literal["none"]]
    share: list[float | Literal["none"]]
    turn: float = Field(gt=0)


class CrowdForm(Form):
    """From how many to the square metre each level begins, whatever their size; just above those in ``over``."""

    say: Text
    words: list[Text] = Field(min_length=1)
    limits: list[float | Literal["none"]]
    over: list[float] = []


class ScaleForm(Form):
    """An ordered attribute, its best level first: ``observed`` by checks, or ``derived`` by rules.

    ``limits`` say where each level from 1 up begins, in ``unit``; what is exactly at one of those in ``over`` has not
    reached its level yet. ``most`` is the largest value that can be believed.
    ``pairs``, ``count`` and ``crowd`` are other ways in which people have it. ``argued``: how the limits compare with
    what a sum makes of them.
    """

    kind: Literal["observed", "derived"]
    name: Text
    levels: list[LevelForm] = Field(min_length=2, max_length=5)
    asks: str = ""
    unit: str = ""
    limits: list[float | Literal["any", "always", "none"]] = []
    over: list[float] = []
    worse: Literal["larger", "smaller"] = "larger"
    measures: str = ""
    most: float | None = None
    pairs: dict[PairKind, PairForm] = {}
    count: CountForm | None = None
    crowd: CrowdForm | None = None
    basis: BasisKind | None = None
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None
    argued: str = ""


class WaitForm(Form):
    """How long a check makes people wait besides the work: ``hours`` to weigh it by, and how it is ``said``."""

    hours: float = Field(gt=0, le=2000)
    say: Text


class CheckForm(Form):
    """What a person does to read scales. ``minutes`` of work and a ``wait``; ``misses``, ``false_alarms``: fractions.

    ``basis`` is that of the way it is done; how often it misses is an estimate. ``wait``: what goes by before the
    answer is there. ``loads``: it is not planned where something is structural already. ``only_in``: the zones it is
    made for.
    """

    name: Text
    reads: list[str] = Field(min_length=1)
    steps: list[Text] = Field(min_length=1)
    tools: list[str] = []
    minutes: float = Field(gt=0, le=600)
    wait: WaitForm | None = None
    dismantling: Literal["none", "partial", "off"]
    helper: YesNo = "no"
    loads: YesNo = "no"
    care: str = ""
    misses: float = Field(ge=0, lt=1)
    false_alarms: float = Field(ge=0, lt=1)
    only_in: list[str] = []
    basis: BasisKind = "estimate"
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class SourceForm(Form):
    """A publication, and how much of it was ``seen``: its text, an excerpt, or nothing.

    ``about``: what it speaks of, where that is something else than small boats.
    """

    title: Text
    about: str = ""
    seen: Literal["text", "excerpt", "no"]
    note: str = ""
