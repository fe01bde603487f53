"""The answer: may she sail, what was found, what to do next, what it rests on; the rest unfolds."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any
from urllib.parse import quote, urlencode

from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app.answers import next_question, reasons_of
from triage.app.pictures import legs_of
from triage.app.screen import page, program
from triage.app.visiting import Visit, open_visit
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.dialogue.wondering import answer_to
from triage.knowledge.model import KnowledgeBase
from triage.phrases import boat, headings, screens, sharing, short
from triage.views.boat_picture import picture_of
from triage.views.report import kind
from triage.views.short_answer import short_answer
from triage.views.story_pictures import costs_of, story_picture

WONDERED: Mapping[str, str] = {"afloat": "MAY_SHE_SAIL", "cost": "WHAT_COST", "cause": "WHAT_MADE"}
"""What may be asked of the answer, and the words on its button."""

NOTES: Mapping[str, Callable[[Assessment], str]] = {
    "anyone": sharing.message,
    "repairer": lambda assessment: "\n".join(sharing.brief(assessment)),
    "seller": lambda assessment: "\n".join(sharing.note(assessment)),
}
"""What is sent, by whom it is for."""


async def answer(request: Request) -> Response:
    """The short answer with the boat's picture; ``?ask=…``: what that question comes to; ``?to=…``: a note for whom."""
    asked = program(request)
    visit = open_visit(asked, request.path_params["visit"])
    base = {"visit": visit, "legs": legs_of(asked.kb, visit.survey)}
    if not visit.survey.findings:
        return page(request, "nothing.html", base)
    wondered, to = request.query_params.get("ask", ""), request.query_params.get("to", "anyone")
    if wondered not in ("", *WONDERED) or to not in NOTES:
        raise HTTPException(404)
    return page(request, "answer.html", {**base, **_told(asked.kb, visit, wondered, to)})


def _told(kb: KnowledgeBase, visit: Visit, wondered: str, to: str) -> dict[str, Any]:
    assessment = assess_survey(visit.survey, kb)
    note = NOTES[to](assessment)
    return {
        "s": short_answer(assessment),
        "nameless": assessment.boat in screens.UNNAMED,
        "picture": picture_of(assessment),
        "reasons": [reasons_of(job, assessment) for job in assessment.jobs],
        "next": next_question(kb, visit.survey, assessment),
        "wondered": wondered,
        "told": answer_to(kb, visit.survey, visit.state.asking.mark, wondered) if wondered else (),
        "costs": costs_of(assessment) if wondered == "cost" else None,
        "stories": list(_stories(assessment)) if wondered == "cause" else (),
        "questions": WONDERED,
        "to": to,
        "note": note,
        "mail": urlencode({"subject": assessment.boat, "body": note}, quote_via=quote),
        "short": short,
        "head": headings,
        "kind": kind,
        "whole": kind(assessment.verdict),
    }


def _stories(assessment: Assessment) -> Iterator[tuple[str, str, str, Markup]]:
    for story in assessment.stories:
        yield story.name, boat.as_likely(story), story.happens, story_picture(story, assessment)


ROUTES = [Route("/visit/{visit}/answer", answer)]
