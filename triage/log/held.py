"""Boats held in memory, each visit and each photograph a record of its own; for a phone, whose browser keeps them."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

from triage.errors import CannotWork, NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import BoatEntry, Entry, Kept
from triage.log.runs import NO_CASE, NO_RUN, OwnCase, Run, run_of, run_words
from triage.log.visits import (
    NO_BOAT,
    NO_PHOTO,
    NO_VISIT,
    Visit,
    begun,
    entry_of,
    entry_words,
    free_id,
    listed,
    photo_name,
    saved,
)
from triage.survey.model import Survey

FORM = 1
"""Of the records; a later form is not read."""

UNREADABLE = "What is kept here cannot be read: it is nothing of ours."


class HeldBoats:
    """Boats in memory. ``records`` is what was kept of them before: ``visit/ID``, ``photo/VISIT/NAME``,
    ``diary/BOAT/NUMBER``, ``run/ID``, ``case/ID`` and ``offer/BOAT``.

    ``changed`` holds each record that was written since somebody emptied it, None for one that was taken out. Whoever
    holds the boats keeps these before an answer is shown.
    """

    def __init__(self, kb: KnowledgeBase, records: Mapping[str, bytes] | None = None) -> None:
        """Raises CannotWork when a record is of a later form, or no record."""
        self.kb = kb
        self.changed: dict[str, bytes | None] = {}
        self._photos = {key: body for key, body in (records or {}).items() if key.startswith("photo/")}
        kept = (_visit(_told(body)) for key, body in (records or {}).items() if key.startswith("visit/"))
        self._visits = {visit.id: visit for visit in kept}
        self._opened: dict[str, Kept] = {}
        lines = ((key, _told(body)) for key, body in (records or {}).items() if key.startswith("diary/"))
        self._diary = {key: _line(told) for key, told in lines}
        played = (_run(_told(body)) for key, body in (records or {}).items() if key.startswith("run/"))
        self._runs = {run.id: (order, run) for order, run in sorted(played, key=lambda one: one[0])}
        made = (_case(_told(body)) for key, body in (records or {}).items() if key.startswith("case/"))
        self._cases = {case.id: (order, case) for order, case in sorted(made, key=lambda one: one[0])}
        offers = {key: _told(body) for key, body in (records or {}).items() if key.startswith("offer/")}
        self._offers = {key: _offer(told) for key, told in offers.items()}

    def boats(self) -> Sequence[BoatEntry]:
        """All boats, the one that was last visited first."""
        return listed(self._visits.values())

    def begin(self, survey: Survey, boat: str | None = None) -> Kept:
        """A new visit, to a new boat or to one that is known. Raises NoSuch, BadSurvey."""
        known = self._boats()
        if boat is not None and boat not in known:
            raise NoSuch(NO_BOAT)
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
        boat = self._visit(visit).boat
        gone = [f"visit/{visit}", *(key for key in self._photos if key.startswith(f"photo/{visit}/"))]
        del self._visits[visit]
        self._opened.pop(visit, None)
        if boat not in self._boats():
            gone += [key for key in self._diary if key.startswith(f"diary/{boat}/")]
            gone += [key for key in self._offers if key == f"offer/{boat}"]
        for key in gone:
            self._photos.pop(key, None)
            self._diary.pop(key, None)
            self._offers.pop(key, None)
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
            raise NoSuch(NO_PHOTO) from None

    def diary(self, boat: str) -> Sequence[Entry]:
        """What became of her marks, in the order in which it was written. Empty for a boat that is not kept."""
        lines = [key for key in self._diary if key.startswith(f"diary/{boat}/")]
        return [self._diary[key] for key in sorted(lines, key=_number)]

    def write(self, boat: str, entry: Entry) -> None:
        """Write a line into the diary of a boat; none is ever changed. Raises NoSuch."""
        if boat not in self._boats():
            raise NoSuch(NO_BOAT)
        key = f"diary/{boat}/{len(self.diary(boat)) + 1}"
        self._diary[key] = entry
        self.changed[key] = _record(entry_words(entry))

    def run(self, id_: str) -> Run:
        """A run as it was last kept. Raises NoSuch."""
        try:
            return self._runs[id_][1]
        except KeyError:
            raise NoSuch(NO_RUN) from None

    def keep_run(self, run: Run) -> None:
        """Keep a run, in place of what was kept of it before."""
        next_one = 1 + max((order for order, _ in self._runs.values()), default=0)
        order, _ = self._runs.get(run.id, (next_one, run))
        self._runs[run.id] = order, run
        self.changed[f"run/{run.id}"] = _record({"order": order, **run_words(run)})

    def runs(self, code: str) -> Sequence[Run]:
        """Every run of a class, in the order in which they were begun."""
        return [run for _, run in self._runs.values() if run.code == code]

    def remove_runs(self, code: str) -> None:
        """Take all runs of a class out."""
        for run in self.runs(code):
            del self._runs[run.id]
            self.changed[f"run/{run.id}"] = None

    def own_case(self, id_: str) -> OwnCase:
        """A case that a trainer made. Raises NoSuch."""
        try:
            return self._cases[id_][1]
        except KeyError:
            raise NoSuch(NO_CASE) from None

    def keep_own_case(self, case: OwnCase) -> None:
        """Keep a case that a trainer made."""
        order = 1 + max((order for order, _ in self._cases.values()), default=0)
        self._cases[case.id] = order, case
        self.changed[f"case/{case.id}"] = _record({"order": order, **asdict(case)})

    def own_cases(self, code: str) -> Sequence[OwnCase]:
        """The cases that were made for a class, in the order in which they were made."""
        return [case for _, case in self._cases.values() if case.code == code]

    def remove_own_case(self, id_: str) -> None:
        """Take a case out. Raises NoSuch."""
        self.own_case(id_)
        del self._cases[id_]
        self.changed[f"case/{id_}"] = None

    def offer(self, boat: str) -> Mapping[str, Any]:
        """What a buyer brings along; empty where nothing is kept."""
        return dict(self._offers.get(f"offer/{boat}", {}))

    def keep_offer(self, boat: str, offer: Mapping[str, Any]) -> None:
        """Keep what a buyer brings along, in place of what was kept. Raises NoSuch."""
        if boat not in self._boats():
            raise NoSuch(NO_BOAT)
        self._offers[f"offer/{boat}"] = dict(offer)
        self.changed[f"offer/{boat}"] = _record({"offer": dict(offer)})

    def _boats(self) -> set[str]:
        return {visit.boat for visit in self._visits.values()}

    def _visit(self, visit: str) -> Visit:
        try:
            return self._visits[visit]
        except KeyError:
            raise NoSuch(NO_VISIT) from None

    def _keep(self, visit: Visit) -> Kept:
        self._opened[visit.id] = kept = visit.kept(self.kb)
        self._visits[visit.id] = visit
        self.changed[f"visit/{visit.id}"] = _record(asdict(visit))
        return kept


def _number(key: str) -> int:
    return int(key.rpartition("/")[2])


def _record(words: Mapping[str, Any]) -> bytes:
    return json.dumps({"form": FORM, **words}, ensure_ascii=False).encode("utf-8")


def _told(record: bytes) -> dict[str, Any]:
    """What a record says. Raises CannotWork."""
    try:
        told: dict[str, Any] = json.loads(record)
        if told.pop("form") > FORM:
            raise CannotWork("What is kept here was written by a newer version of the program. Load the page anew.")
    except (ValueError, TypeError, KeyError, AttributeError):
        raise CannotWork(UNREADABLE) from None
    return told


def _visit(told: Mapping[str, Any]) -> Visit:
    try:
        return Visit(**told)
    except TypeError:
        raise CannotWork(UNREADABLE) from None


def _line(told: Mapping[str, Any]) -> Entry:
    try:
        return entry_of(told)
    except (ValueError, KeyError):
        raise CannotWork(UNREADABLE) from None


def _run(told: dict[str, Any]) -> tuple[int, Run]:
    try:
        return int(told.pop("order")), run_of(told)
    except (ValueError, TypeError, KeyError):
        raise CannotWork(UNREADABLE) from None


def _case(told: dict[str, Any]) -> tuple[int, OwnCase]:
    try:
        return int(told.pop("order")), OwnCase(**told)
    except (ValueError, TypeError, KeyError):
        raise CannotWork(UNREADABLE) from None


def _offer(told: Mapping[str, Any]) -> dict[str, Any]:
    offer = told.get("offer")
    if not isinstance(offer, dict):
        raise CannotWork(UNREADABLE)
    return offer
