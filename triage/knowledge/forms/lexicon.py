"""The shape of what people call things."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from triage.knowledge.forms.atoms import Text, YesNo
from triage.knowledge.forms.speech import AlsoForm, ListeningForm, RepliesForm, Ways
from triage.parsing.forms import Form


class ZoneTermsForm(Form):
    """What people call a zone, and the zone as a picture in words."""

    picture: Text
    said: list[Text] = Field(min_length=1)


class SignTermsForm(Form):
    """What people call a sign; ``usual_in`` names zones and groups where such phrases mostly mean this one."""

    said: list[Text] = Field(min_length=1)
    usual_in: list[str] = []


class SizeForm(Form):
    """Things that people measure by ("hand"), and the length or volume that one of them ``is`` ("100 mm")."""

    said: list[Text] = Field(min_length=1)
    is_: Text = Field(alias="is")


class SizesForm(Form):
    """Sizes without a ruler, all of them estimates."""

    basis: Literal["estimate"]
    taken_as: list[SizeForm]


class SizeUseForm(Form):
    """When a size is a reading of the scale: ``beside`` one of these words, or ``alone``, with no other word needed."""

    beside: list[Text] = []
    alone: YesNo = "no"


class LexiconForm(Form):
    """The section ``words``: what people say, by what it stands for.

    ``ignored`` words say nothing; a word after one of ``denials`` is not matched, one after ``asides`` counts for less;
    beside one of ``doubts`` no answer is taken that is not given word for word.
    ``asking`` holds, by outcome, how people ask for it. ``also``, ``complaints`` (whole sentences, by zone and sign)
    and ``listening`` are for whole stories, ``replies`` for what is said at a question.
    """

    zones: dict[str, ZoneTermsForm] = {}
    signs: dict[str, SignTermsForm] = {}
    ignored: list[Text] = []
    denials: list[Text] = []
    doubts: list[Text] = []
    asides: list[Text] = []
    sides: dict[str, list[Text]] = {}
    sizes: SizesForm | None = None
    readings: dict[str, SizeUseForm] = {}
    asking: dict[str, list[Text]] = {}
    could_not_tell: list[Text] = []
    also: AlsoForm = AlsoForm()
    complaints: dict[str, Ways] = {}
    observations: dict[str, Ways] = {}
    listening: ListeningForm | None = None
    replies: RepliesForm | None = None
