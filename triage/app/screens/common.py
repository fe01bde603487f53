"""Several boats at once: the causes that they have in common, and what these send somebody to look at on each."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app.screen import page, program
from triage.causes.shared import shared_causes
from triage.concluding.assess import assess_survey
from triage.phrases import common as says

MOST_BOATS = 20
"""Those last visited: each takes a moment to assess, in which a laptop answers nobody else."""


async def common(request: Request) -> Response:
    """The last visit to each boat, laid side by side."""
    asked = program(request)
    kept = [boat for boat in asked.boats.boats() if boat.visits]
    among = kept[:MOST_BOATS]
    assessed = [assess_survey(asked.boats.open(boat.visits[0].id).survey, asked.kb) for boat in among]
    values = {
        "visit": None,
        "says": says,
        "looked": len(among),
        "kept": len(kept),
        "found": shared_causes(assessed, asked.kb) if len(among) > 1 else (),
    }
    return page(request, "common.html", values)


ROUTES = [Route("/boats/common", common)]
