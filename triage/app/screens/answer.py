"""The answer: may she sail, what was found, what to do next, what it rests on; the rest unfolds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app.pictures import legs_of
from triage.app.screen import page, program
from triage.app.visiting import open_visit
from triage.concluding.assess import assess_survey
from triage.dialogue.wondering import answer_to
from triage.phrases import headings, sharing, short
from triage.views.boat_picture import picture_of
from triage.views.report import kind
from triage.views.short_answer import short_answer

WONDERED: Mapping[str, str] = {"afloat": "MAY_SHE_SAIL", "cost": "WHAT_COST", "cause": "WHAT_MADE"}
"""What may be asked of the answer, and the words on its button."""


async def answer(request: Request) -> Response:
    """The short answer with the boat's picture; with ``?ask=…`` what that question comes to."""
    asked = program(request)
    visit = open_visit(asked, request.path_params["visit"])
    values: dict[str, Any] = {"visit": visit, "legs": legs_of(asked.kb, visit.survey)}
    if not visit.survey.findings:
        return page(request, "nothing.html", values)
    wondered = request.query_params.get("ask", "")
    if wondered and wondered not in WONDERED:
        raise HTTPException(404)
    told = answer_to(asked.kb, visit.survey, visit.state.asking.mark, wondered) if wondered else ()
    assessment = assess_survey(visit.survey, asked.kb)
    values |= {
        "a": assessment,
        "s": short_answer(assessment),
        "picture": picture_of(assessment),
        "wondered": wondered,
        "told": told,
        "questions": WONDERED,
        "note": sharing.message(assessment),
        "short": short,
        "head": headings,
        "kind": kind,
    }
    return page(request, "answer.html", values)


ROUTES = [Route("/visit/{visit}/answer", answer)]
