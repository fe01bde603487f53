"""Looking again: a boat's visits side by side, what was mended and by whom, what is due, and a calendar of it."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.pictures import legs_of
from triage.app.screen import Program, fields, go_to, page, problem, program
from triage.app.standing import let_go, take_up
from triage.app.visiting import Visit, keep, open_visit, take
from triage.concluding.assess import assess_survey
from triage.dialogue.edits import AddFinding, apply
from triage.dialogue.events import Change, Focus, Said, Same
from triage.dialogue.step import joined
from triage.drawing.lengths import Dated, draw_lengths
from triage.errors import NoSuch
from triage.log.again import GROWTH, Kind, Thread, kind_of, threads
from triage.log.boats import Entry, VisitEntry, What
from triage.log.calendar import Due, calendar
from triage.log.comparing import Compared, compared
from triage.phrases import again as words
from triage.survey.model import Finding
from triage.views.due import dues, title

NOTED = "noted"
"""In the address of the screen after something was written down, which is then said."""

LONGEST_NAME = 80
"""Letters of a name in a diary."""


@dataclass(frozen=True)
class Card:
    """A mark as the screen shows it; ``finding`` is the one of this visit, if it was found at this one; ``standing``
    the one that stands at it from an earlier visit, and was not looked at.
    """

    number: int
    thread: Thread
    title: str
    compared: Compared | None
    finding: Finding | None
    standing: Finding | None = None

    @property
    def id(self) -> str:
        """What it was called when somebody last looked at it."""
        return self.thread.seen[-1].finding.id

    @property
    def picture(self) -> Markup:
        """Its lengths from visit to visit, drawn; nothing where there are no two."""
        found = self.compared
        if found is None:
            return Markup()
        dated = [Dated(words.day(on), words.length(one, found.unit), one, off) for on, one, off in found.lengths]
        return draw_lengths(dated, "; ".join(words.lengths(found)))

    def mended_by(self, day: datetime.date) -> bool:
        """Whether it was mended on this very day: found again then, nobody could tell before from after."""
        mended = self.thread.mended
        return bool(mended and mended.on >= day)

    @property
    def proposed(self) -> str:
        """The answer to take, where none was given at this visit."""
        found = self.compared
        told = self.finding.readings.get(GROWTH) if self.finding else None
        was = self.thread.seen[-2].finding.readings.get(GROWTH) if len(self.thread.seen) > 1 else None
        return found.proposed if found and self.finding and told in (None, was) else ""


@dataclass(frozen=True)
class Boat:
    """A boat at one of her visits: that and the earlier ones, and her marks; ``later`` are the ids of later visits."""

    visit: Visit
    entries: Sequence[VisitEntry]
    cards: Sequence[Card]
    later: Sequence[str] = ()

    @property
    def day(self) -> datetime.date:
        """The day of the visit; today where none is named."""
        return self.visit.survey.seen_on or datetime.date.today()


async def again(request: Request) -> Response:
    """The marks of this visit beside those of the earlier ones, and what is due."""
    asked = program(request)
    boat = _boat(asked, request.path_params["visit"])
    here = [card for card in boat.cards if card.finding and not card.thread.closed]
    values = {
        "visit": boat.visit,
        "legs": legs_of(asked.kb, boat.visit.survey),
        "entries": boat.entries,
        "since": sorted((one for one in here if len(one.thread.seen) > 1), key=lambda one: one.compared is None),
        "new": [card for card in here if len(card.thread.seen) == 1],
        "before": [card for card in boat.cards if not card.finding and not card.thread.closed],
        "closed": [card for card in boat.cards if card.thread.closed],
        "due": _due(asked, boat),
        "noted": boat.visit.kept.said if NOTED in request.query_params else (),
        "day": boat.day,
        "today": datetime.date.today().isoformat(),
        "again": words,
    }
    return page(request, "again.html", values)


async def note(request: Request) -> Response:
    """A mark is still there, its growth is answered as proposed, or it was mended, or the mend holds."""
    asked, form = program(request), await fields(request)
    boat = _boat(asked, request.path_params["visit"])
    card = next((one for one in boat.cards if str(one.number) == form.get("mark") and _is(one, form)), None)
    if card is None:
        raise NoSuch(words.UNKNOWN)
    match form.get("act"):
        case "here" if card.finding is None and not card.mended_by(boat.day):
            return go_to(request, addresses.visit(_here(asked, boat.visit, card)))
        case "same" if card.standing:
            take(asked, boat.visit.kept.visit, [Same(card.standing.id)])
        case "grown" if card.finding and card.proposed:
            take(asked, boat.visit.kept.visit, [Change(card.finding.id, GROWTH), Said(card.proposed)])
        case "mended" | "closed" | "open" as what:
            if trouble := _trouble(card, form, what):
                return problem(request, 400, trouble)
            _write(asked, boat, card, form, what)
        case _:
            raise HTTPException(400)
    return go_to(request, f"{addresses.visit(boat.visit.kept.visit, 'again')}?{NOTED}")


async def due(request: Request) -> Response:
    """What is due on a boat as a calendar."""
    asked = program(request)
    return _calendar(_coming(asked, request.path_params["visit"]))


async def all_due(request: Request) -> Response:
    """What is due on every boat, each as of her last visit, as one calendar."""
    asked = program(request)
    return _calendar([one for boat in asked.boats.boats() for one in _coming(asked, boat.visits[0].id)])


def _coming(asked: Program, visit: str) -> list[Due]:
    """What is due, with the name of the boat; what should have been done already is put on today."""
    boat, today = _boat(asked, visit), datetime.date.today()
    name, kept = boat.visit.survey.boat.name, boat.visit.kept.boat
    return [
        replace(one, day=max(one.day, today), what=words.of_boat(name, one.what), key=f"{kept}/{one.key}")
        for one in _due(asked, boat)
    ]


def _calendar(coming: Sequence[Due]) -> Response:
    headers = {"content-disposition": 'attachment; filename="due.ics"', "cache-control": "no-store"}
    text = calendar(coming, datetime.datetime.now(datetime.UTC))
    return Response(text, media_type="text/calendar; charset=utf-8", headers=headers)


def _boat(asked: Program, visit: str) -> Boat:
    opened = open_visit(asked, visit)
    entries = next(one.visits for one in asked.boats.boats() if one.id == opened.kept.boat)
    newest = next(number for number, one in enumerate(entries) if one.id == visit)
    later, entries = [one.id for one in entries[:newest]], entries[newest:]
    surveys = [(one.id, opened.survey if one.id == visit else asked.boats.open(one.id).survey) for one in entries]
    marks = threads(reversed(surveys), asked.boats.diary(opened.kept.boat))
    cards = [_card(asked, number, thread, visit) for number, thread in enumerate(marks)]
    return Boat(opened, entries, cards, later)


def _card(asked: Program, number: int, thread: Thread, visit: str) -> Card:
    last = thread.seen[-1]
    finding = last.finding if last.visit == visit else None
    standing = next((one.finding for one in thread.stands if one.visit == visit), None)
    return Card(number, thread, title(asked.kb, thread), compared(asked.kb, thread), finding, standing)


def _due(asked: Program, boat: Boat) -> tuple[Due, ...]:
    assessment = assess_survey(boat.visit.survey, asked.kb)
    return dues(asked.kb, assessment, [card.thread for card in boat.cards], boat.visit.kept.visit, boat.day)


def _is(card: Card, form: Mapping[str, str]) -> bool:
    """Whether the form speaks of this very mark: numbers move when somebody else has added some."""
    told: Kind = (form.get("zone", ""), form.get("side") or None, form.get("sign", ""))
    return card.thread.kind == told and card.id == form.get("id")


def _here(asked: Program, visit: Visit, card: Card) -> str:
    """The mark is talked about next; one that was called mended is put into this visit without an answer."""
    if card.standing:
        return take(asked, visit.kept.visit, [Focus(card.standing.id)]).kept.visit
    last = card.thread.seen[-1].finding
    zone, side, sign = kind_of(last)
    taken = {finding.id for finding in visit.survey.findings}
    added, _ = apply(asked.kb, visit.survey, AddFinding(Finding("" if last.id in taken else last.id, zone, sign, side)))
    kept = keep(asked, visit.kept, joined(asked.kb, visit.state, added))
    new = next(one for one in added.findings if one.id not in taken)
    return take(asked, kept.visit, [Focus(new.id)]).kept.visit


def _trouble(card: Card, form: Mapping[str, str], what: str) -> str:
    """What keeps a line out of the diary; empty where nothing does."""
    who, on = form.get("by", "").strip(), _day(form.get("on", ""))
    if not (who and len(who) <= LONGEST_NAME and who.isprintable()):
        return words.WHO
    thread = card.thread
    before = thread.mended or (thread.closed if what == "open" else None)
    if what != "mended" and before is None:
        return words.NOT_MENDED
    since = before.on if before else thread.seen[-1].day
    if on is None or on > datetime.date.today() or (since and on < since):
        return words.WHEN
    return ""


def _day(text: str) -> datetime.date | None:
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        return None


def _write(asked: Program, boat: Boat, card: Card, form: Mapping[str, str], what: What) -> None:
    """A line of the diary; a mark that stands from before counts no more once it was mended, and again if not."""
    on, kept = _day(form.get("on", "")), boat.visit.kept
    assert on is not None
    line = Entry(*card.thread.kind, what, on, form["by"].strip(), card.id)
    asked.boats.write(kept.boat, line)
    (take_up if what == "open" else let_go)(asked, [kept.visit, *boat.later], card.thread)
    changed = asked.boats.open(kept.visit)
    asked.boats.save(changed, changed.survey, [words.written(line)])


ROUTES = [
    Route("/visit/{visit}/again", again),
    Route("/visit/{visit}/again", note, methods=["POST"]),
    Route("/visit/{visit}/due.ics", due),
    Route(f"/{addresses.DUE}", all_due),
]
