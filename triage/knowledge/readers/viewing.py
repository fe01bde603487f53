"""What is known of viewing a boat that is for sale, from what stands under ``viewing``."""

from __future__ import annotations

from triage.knowledge.forms.purchase import ViewingForm
from triage.knowledge.model.purchase import Afloat, Ask, SettingUp, Viewing
from triage.knowledge.readers.only import only
from triage.knowledge.readers.references import Loaded, Ontology, basis_of
from triage.parsing.documents import Document


def read_viewing(files: Loaded, ontology: Ontology) -> Viewing | None:
    """What stands under ``viewing``; a second one is told."""
    found = only(files, "viewing")
    if found is None:
        return None
    document, form = found
    return Viewing(
        asks=tuple(Ask(one) if isinstance(one, str) else Ask(one.say, one.unless) for one in form.asks),
        bring=tuple(form.bring),
        photos_show=tuple(form.photos_show),
        photos_hide=tuple(form.photos_hide),
        basis=basis_of(document, ("viewing",), form, ontology),
        setting_up={
            leg: SettingUp(one.say, one.minutes, document.place(("viewing", "setting_up", leg)))
            for leg, one in form.setting_up.items()
        },
        afloat=_afloat(document, form),
    )


def _afloat(document: Document, form: ViewingForm) -> Afloat | None:
    one = form.afloat
    if one is None:
        return None
    return Afloat(
        say=one.say,
        heard=tuple(one.heard),
        told=tuple(one.told),
        beyond=tuple(one.beyond),
        stands=dict(one.stands),
        asks=tuple(one.asks),
        place=document.place(("viewing", "afloat")),
    )
