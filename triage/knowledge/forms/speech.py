"""The shape of how people tell a whole story."""

from __future__ import annotations

from triage.knowledge.forms.atoms import Text
from triage.parsing.forms import Form

Ways = dict[str, list[Text]]


class AlsoForm(Form):
    """More of what people call zones, signs and events, beside their own entries; several files may add to one."""

    zones: Ways = {}
    signs: Ways = {}
    events: Ways = {}


class DimensionForm(Form):
    """The words beside a figure that tell what it measures, and the scales that it can be a reading of."""

    words: list[Text] = []
    of: list[str] = []
    scales: list[str] = []
    beside: list[str] = []
    unsaid_from: str | None = None
    most: str | None = None


class NoSizeForm(Form):
    """The words before or after a figure with which it is no size of a mark."""

    before: list[Text] = []
    after: list[Text] = []


class RepliesForm(Form):
    """The section ``replies`` under ``words``; see `triage.knowledge.model.speech`."""

    commands: Ways = {}
    corrects: list[Text] = []
    opens: list[Text] = []
    apart: list[Text] = []
    instead: list[Text] = []
    other_side: list[Text] = []
    agrees: list[Text] = []
    disagrees: list[Text] = []


class ListeningForm(Form):
    """The section ``listening`` under ``words``; see `triage.knowledge.model.speech`."""

    breaks: list[Text] = []
    together: list[Text] = []
    denials: list[Text] = []
    denial_ends: list[Text] = []
    turns: list[Text] = []
    partly: list[Text] = []
    no_denial: list[Text] = []
    absent: list[Text] = []
    undone: list[Text] = []
    not_doing: list[Text] = []
    between: list[Text] = []
    asides: list[Text] = []
    contrasts: list[Text] = []
    facing: list[Text] = []
    points_back: list[Text] = []
    told_again: list[Text] = []
    said_of: list[Text] = []
    of_it: list[Text] = []
    shows: list[Text] = []
    likened: list[Text] = []
    definite: list[Text] = []
    one_more: list[Text] = []
    ordinary: list[Text] = []
    leads_to: list[Text] = []
    everywhere: list[Text] = []
    stating: list[Text] = []
    weak_alone: list[Text] = []
    not_looked: list[Text] = []
    asked_first: list[Text] = []
    asked_of: list[Text] = []
    asked_by: list[Text] = []
    asked_then: list[Text] = []
    asked_amid: list[Text] = []
    asked_on: list[Text] = []
    asked_or: list[Text] = []
    wishes: list[Text] = []
    asks_for: list[Text] = []
    hesitations: list[Text] = []
    praise: list[Text] = []
    praised_after: list[Text] = []
    unpraised: list[Text] = []
    directions: list[Text] = []
    tests: list[Text] = []
    people: list[Text] = []
    told_beside: list[Text] = []
    sides: Ways = {}
    senses: Ways = {}
    passes: Ways = {}
    measures: dict[str, DimensionForm] = {}
    no_size: NoSizeForm = NoSizeForm()
    things: dict[str, Text] = {}
    long_things: dict[str, Text] = {}
    thin_things: dict[str, Text] = {}
    wide_things: dict[str, Text] = {}
    vessels: dict[str, Text] = {}
    coins: dict[str, dict[str, Text]] = {}
    gallons: dict[str, Text] = {}
    pints: dict[str, Text] = {}
    quarts: dict[str, Text] = {}
    countries: Ways = {}
    spelling: dict[str, Text] = {}
    variants: dict[str, Text] = {}
    questions: Ways = {}
    question_words: Ways = {}
    question_begins: Ways = {}
    facts: dict[str, Ways] = {}
