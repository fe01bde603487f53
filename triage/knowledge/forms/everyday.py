"""The shape of what is expected of everyday marks."""

from __future__ import annotations

from triage.knowledge.forms.atoms import Id, Text
from triage.parsing.forms import Form


class StricterForm(Form):
    """Where the knowledge asks for more than is expected, or says more."""

    zone: str
    sign: str
    comes_to: Text
    because: Text


class EverydayForm(Form):
    """A common boat, and what is expected of marks on it: by sign and zone."""

    boat: dict[str, str]
    marks: dict[Id, dict[Id, Text]]
    stricter: list[StricterForm] = []
