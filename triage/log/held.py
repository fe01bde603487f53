"""Boats held in memory, each visit and each photograph a record of its own; for a phone, whose browser keeps them."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict

from triage.errors import CannotWork, NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import BoatEntry, Kept
from triage.log.visits import Visit, begun, free_id, listed, photo_name, saved
from triage.survey.model import Survey

FORM = 1
"""Of the records; a later form is not read."""


class HeldBoats:
    """Boats in memory. ``records`` is what was kept of them before: ``visit/ID`` and ``photo/VISIT/NAME``.

    ``changed`` holds each record that was written since somebody emptied it, None for one that was taken out. Whoever
    holds the boats keeps these before an answer is shown.
    """

    def __init__(self, kb: KnowledgeBase, records: Mapping[str, bytes] | None = None) -> None:
        """Raises CannotWork when a record is of a later form, or no record."""
        self.kb = kb
        self.changed: dict[str, bytes | None] = {}
        self._photos = {key: body for key, body in (records or {}).items() if key.startswith("photo/")}
        kept = (_visit(body) for key, body in (records or {}).items() if key.startswith("visit/"))
        self._visits = {visit.id: visit for visit in kept}
        self._opened: dict[str, Kept] = {}

    def boats(self) -> Sequence[BoatEntry]:
        """All boats, the one that was last visited first."""
        return listed(self._visits.values())

    def begin(self, survey: Survey, boat: str | None = None) -> Kept:
        """A new visit, to a new boat or to one that is known. Raises NoSuch, BadSurvey."""
        known = {visit.boat for visit in self._visits.values()}
        if boat is not None and boat not in known:
            raise NoSuch("This boat is not kept here any more.")
        number = max((visit.number for visit in self._visits.values()), default=0) + 1
        return self._keep(begun(self.kb, survey, boat or free_id(known), free_id(self._visits), number))

    def open(self, visit: str) -> Kept:
        """A visit as it was last kept. Raises NoSuch."""
        if visit not in self._opened:
            self._opened[visit] = self._visit(visit).kept(self.kb)
        return self._opened[visit]

    def save(self, opened: Kept, survey: Survey, said: Sequence[str] = ()) -> Kept:
        """Keep what became of a visit since it was opened. Raises NoSuch, BadSurvey."""
        both = saved(self.kb, self._visit(opened.visit), opened, survey, said)
        return self.begin(survey, opened.boat) if both is None else self._keep(both)

    def remove(self, visit: str) -> None:
        """Take a visit out with its photographs, and its boat with the last one. Raises NoSuch."""
        del self._visits[self._visit(visit).id]
        self._opened.pop(visit, None)
        for key in [f"visit/{visit}", *(key for key in self._photos if key.startswith(f"photo/{visit}/"))]:
            self._photos.pop(key, None)
            self.changed[key] = None

    def add_photo(self, visit: str, jpeg: bytes) -> str:
        """Keep a photograph with a visit; its name. Raises NoSuch."""
        begins = f"photo/{self._visit(visit).id}/"
        name = photo_name(1 + sum(key.startswith(begins) for key in self._photos))
        self._photos[begins + name] = self.changed[begins + name] = jpeg
        return name

    def photo(self, visit: str, name: str) -> bytes:
        """A photograph. Raises NoSuch."""
        try:
            return self._photos[f"photo/{visit}/{name}"]
        except KeyError:
            raise NoSuch("This photograph is not kept here any more.") from None

    def _visit(self, visit: str) -> Visit:
        try:
            return self._visits[visit]
        except KeyError:
            raise NoSuch("This visit is not kept here any more.") from None

    def _keep(self, visit: Visit) -> Kept:
        self._opened[visit.id] = kept = visit.kept(self.kb)
        self._visits[visit.id] = visit
        self.changed[f"visit/{visit.id}"] = _record(visit)
        return kept


def _record(visit: Visit) -> bytes:
    return json.dumps({"form": FORM, **asdict(visit)}, ensure_ascii=False).encode("utf-8")


def _visit(record: bytes) -> Visit:
    try:
        told = json.loads(record)
        form = told.pop("form")
        if form > FORM:
            raise CannotWork("What is kept here was written by a newer version of the program. Load the page anew.")
        return Visit(**told)
    except (ValueError, TypeError, KeyError, AttributeError):
        raise CannotWork("What is kept here cannot be read: it is no visit of ours.") from None
