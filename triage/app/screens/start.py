"""The first screen: what did you find? A box for a story, the walk round, the boat to tap; and where one left off."""

from __future__ import annotations

import datetime
from dataclasses import replace

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.pictures import views_of
from triage.app.screen import Program, fields, go_to, page, program
from triage.app.visiting import take
from triage.concluding.assess import assess_survey
from triage.dialogue.events import Said
from triage.dialogue.keeping import beginning
from triage.errors import NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.log.again import next_visit
from triage.phrases import screens as words
from triage.survey.model import Boat, Happened, Survey

THEN = ("boat", "walk", "advert")
"""Where a visit may begin other than with a story."""


async def start(request: Request) -> Response:
    """The first screen, before anything is said."""
    asked = program(request)
    boats = asked.boats.boats()
    nobody = Survey(Boat(words.NAMELESS), ())
    views = views_of(asked.kb, nobody)
    return page(
        request, "start.html", {"visit": None, "last": boats[0] if boats else None, "views": views, "standing": ()}
    )


async def new(request: Request) -> Response:
    """A visit begins: to a new boat or to one that is known, with a story or at the boat."""
    asked, form = program(request), await fields(request)
    text, then, boat = form.get("text", "").strip(), form.get("then", ""), form.get("boat", "")
    if not (text or boat or then in THEN):
        return go_to(request, addresses.START)
    today = datetime.date.today()
    survey = (
        _again(asked, boat, today)
        if boat
        else Survey(Boat(words.FOR_SALE if then == "advert" else words.NAMELESS), (), today)
    )
    kept = asked.boats.begin(survey, boat or None)
    if text:
        take(asked, kept.visit, [Said(text)])
    return go_to(request, addresses.visit(kept.visit, then if then in THEN and not text else ""))


def _again(asked: Program, boat: str, today: datetime.date) -> Survey:
    """Another visit to the boat, which first shows what stands from before. Raises NoSuch."""
    visits = next((one.visits for one in asked.boats.boats() if one.id == boat), ())
    if not visits:
        raise NoSuch(words.NO_SUCH_BOAT)
    earlier = [(one.id, asked.boats.open(one.id).survey) for one in reversed(visits)]
    survey = next_visit(asked.kb, earlier, asked.boats.diary(boat), today)
    return beginning(replace(survey, events=_waiting(asked.kb, earlier[-1][1])))


def _waiting(kb: KnowledgeBase, last: Survey) -> tuple[Happened, ...]:
    """What happened to her and makes rules suspect marks that nobody looked for since."""
    open_ = {event for one in assess_survey(last, kb).suspicions for event in one.events}
    return tuple(
        replace(told, on=last.seen_on, when="") if told.when == "today" and last.seen_on else told
        for told in last.events
        if told.event in open_
    )


ROUTES = [Route("/", start), Route("/new", new, methods=["POST"])]
