"""The first screen: what did you find? A box for a story, the walk round, the boat to tap; and where one left off."""

from __future__ import annotations

import datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.pictures import views_of
from triage.app.screen import fields, go_to, page, program
from triage.app.visiting import take
from triage.dialogue.events import Said
from triage.log.again import next_visit
from triage.log.boats import Boats
from triage.phrases import screens as words
from triage.survey.model import Boat, Survey

THEN = ("boat", "walk")
"""Where a visit may begin other than with a story."""


async def start(request: Request) -> Response:
    """The first screen, before anything is said."""
    asked = program(request)
    boats = asked.boats.boats()
    nobody = Survey(Boat(words.NAMELESS), ())
    views = views_of(asked.kb, nobody)
    return page(request, "start.html", {"visit": None, "last": boats[0] if boats else None, "views": views})


async def new(request: Request) -> Response:
    """A visit begins: to a new boat or to one that is known, with a story or at the boat."""
    asked, form = program(request), await fields(request)
    boat, today = form.get("boat") or None, datetime.date.today()
    kept = asked.boats.begin(next_visit(last_of(asked.boats, boat), today) if boat else nameless(today), boat)
    if text := form.get("text", "").strip():
        take(asked, kept.visit, [Said(text)])
    then = form.get("then", "")
    return go_to(request, addresses.visit(kept.visit, then if then in THEN and not text else ""))


def nameless(day: datetime.date) -> Survey:
    """A visit to a boat of which nothing is known."""
    return Survey(Boat(words.NAMELESS), (), day)


def last_of(boats: Boats, boat: str) -> Survey:
    """The last visit to a boat. Raises NoSuch."""
    visits = next((one.visits for one in boats.boats() if one.id == boat), ())
    return boats.open(visits[0].id if visits else "").survey


ROUTES = [Route("/", start), Route("/new", new, methods=["POST"])]
