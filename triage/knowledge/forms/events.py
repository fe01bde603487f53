"""The shape of events and of the rules about them."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, RuleId, Text, YesNo
from triage.knowledge.forms.rules import SuspectForm
from triage.parsing.forms import Form

Force = Literal["light", "hard", "unknown"]
Ago = Literal["today", "this season", "earlier", "unknown"]


class EventForm(Form):
    """Something that happened to a boat, or was done to her. ``said``: how people say it; ``told``: words that stand
    in this order with others between, "<hits> <walls>", of which <hits> is any of the ``words`` of that name.

    ``speaks_for`` names causes with a word of ``told`` in the weights; ``hides`` names signs that nobody can look for
    in vain after it; ``note`` is said whenever it is told.
    """

    name: Text
    kind: Literal["happened", "done"]
    said: list[Text] = Field(min_length=1)
    told: list[Text] = []
    speaks_for: dict[str, str] = {}
    hides: list[str] = []
    note: str = ""
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None


class EventWhenForm(Form):
    """One of these events, of such ``force`` and so long ``ago``; without these, whatever they are."""

    happened: str | list[str]
    force: list[Force] = Field(default=["light", "hard", "unknown"], min_length=1)
    ago: list[Ago] = Field(default=["today", "this season", "earlier", "unknown"], min_length=1)


class LookForm(Form):
    """A check somewhere."""

    zone: str
    check: str


class EventGivenForm(Form):
    """An event as it is told, and facts of the boat."""

    happened: str
    force: Force = "unknown"
    ago: Ago = "unknown"
    facts: dict[str, str] = {}


class EventCaseForm(Form):
    """An event, and whether the rule holds for it."""

    given: EventGivenForm
    expect: Literal["fires", "silent"]


class EventRuleForm(Form):
    """When the event is told: ``suspects`` keep the boat open until somebody has looked, ``looks`` are advice."""

    id: RuleId
    when: EventWhenForm
    only_if: dict[str, str] = {}
    suspects: list[SuspectForm] = []
    looks: list[LookForm] = []
    because: Text
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None
    cases: list[EventCaseForm] = Field(min_length=1)


class TellingForm(Form):
    """Words by which people tell how long ``ago`` something was, and with what ``force``.

    Words that follow one of ``denied`` tell of nothing up to one of ``held_true``, and ``in_doubt`` are phrases with
    such a word that deny nothing; nor does a sentence that begins with one of ``asked`` tell of anything.
    ``words`` are groups of words by a name, for the ``told`` of events.
    ``stood_before``: a mark that was read no worse than this on this scale was there before this season.
    """

    ago: dict[Literal["today", "this season", "earlier"], list[Text]] = {}
    force: dict[Literal["light", "hard"], list[Text]] = {}
    words: dict[str, list[Text]] = {}
    denied: list[Text] = []
    in_doubt: list[Text] = []
    held_true: list[Text] = []
    asked: list[Text] = []
    stood_before: dict[str, int] = {}
