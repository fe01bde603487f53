"""The boats that are kept, with their visits; a visit begun, a boat named, a visit taken out."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.screen import Program, fields, go_to, page, program
from triage.app.visiting import keep, open_visit
from triage.dialogue.edits import NameBoat, apply
from triage.dialogue.following import named
from triage.dialogue.step import joined
from triage.log.boats import BoatEntry
from triage.phrases import again
from triage.phrases.money import exactly
from triage.phrases.screens import UNNAMED


async def boats(request: Request) -> Response:
    """All boats, the one last visited first."""
    asked = program(request)
    known = asked.boats.boats()
    apart = {one.id: told_apart(asked, one) for one in known if one.name in UNNAMED}
    return page(request, "boats.html", {"visit": None, "boats": known, "apart": apart, "again": again})


def told_apart(asked: Program, boat: BoatEntry) -> str:
    """What tells a boat without a name from the others: where she lies, what is asked for her, and a mark of hers."""
    offer, survey = asked.boats.offer(boat.id), asked.boats.open(boat.visits[0].id).survey
    price = exactly(offer["asking"], offer["currency"]) if "asking" in offer else ""
    marks = [named(asked.kb, one) for one in survey.in_walk_order(asked.kb).findings if not one.is_look]
    return "; ".join(filter(None, (offer.get("lives", ""), price, *marks[:1])))


async def name(request: Request) -> Response:
    """The boat is called so from now on."""
    asked, form = program(request), await fields(request)
    visit = open_visit(asked, request.path_params["visit"])
    survey, _ = apply(asked.kb, visit.survey, NameBoat(form.get("name", "").strip()))
    keep(asked, visit.kept, joined(asked.kb, visit.state, survey))
    to_answer = form.get("then") == "answer"
    return go_to(request, addresses.visit(visit.kept.visit, "answer") if to_answer else addresses.BOATS)


async def remove(request: Request) -> Response:
    """A visit is taken out."""
    program(request).boats.remove(request.path_params["visit"])
    return go_to(request, addresses.BOATS)


ROUTES = [
    Route("/boats", boats),
    Route("/visit/{visit}/name", name, methods=["POST"]),
    Route("/visit/{visit}/remove", remove, methods=["POST"]),
]
