"""What the screens of a buyer share: the visit that is asked for, and what was told of the sale."""

from __future__ import annotations

import datetime
from collections.abc import Container
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request

from triage.app.pictures import legs_of
from triage.app.screen import Program, program
from triage.app.visiting import Visit, open_visit
from triage.buying.noticed import noticed
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.phrases import advert as words
from triage.phrases.words import capital


def opened(request: Request) -> tuple[Program, Visit, Assessment]:
    """The visit of a request, assessed. Raises HTTPException where the rules hold nothing about buying."""
    asked = program(request)
    if asked.kb.purchase.judging is None:
        raise HTTPException(404)
    visit = open_visit(asked, request.path_params["visit"])
    return asked, visit, assess_survey(visit.survey, asked.kb)


def common(asked: Program, visit: Visit) -> dict[str, Any]:
    """What every screen of a buyer is given."""
    return {"visit": visit, "legs": legs_of(asked.kb, visit.survey), "say": words}


def told_of_the_sale(asked: Program, visit: Visit, ticked: Container[str]) -> list[str]:
    """The sentences of the note that tell of the sale, but for what is ticked in the advert."""
    told = noticed(asked.kb, visit.survey.note)
    return list(dict.fromkeys(sentence for sign, sentence in told.items() if sign not in ticked))


def plainly(what: str, hint: str) -> str:
    """A problem as a sentence, with what to do."""
    return f"{capital(what)}. {hint}".strip()


def today() -> datetime.date:
    """The day."""
    return datetime.date.today()
