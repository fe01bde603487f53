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
    kept = asked.boats.begin(Survey(Boat(words.NAMELESS), (), datetime.date.today()), form.get("boat") or None)
    if text := form.get("text", "").strip():
        take(asked, kept.visit, [Said(text)])
    then = form.get("then", "")
    return go_to(request, addresses.visit(kept.visit, then if then in THEN and not text else ""))


ROUTES = [Route("/", start), Route("/new", new, methods=["POST"])]
