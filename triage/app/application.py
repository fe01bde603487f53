"""The program as one ASGI app: what a laptop serves, and what a phone runs by itself."""

from __future__ import annotations

from collections.abc import Sequence

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response

from triage.app.guards import BodyLimit, OriginCheck, SecurityHeaders
from triage.app.screen import Program, problem
from triage.app.screens import (
    advert,
    again,
    answer,
    boat,
    boats,
    buying,
    classroom,
    common,
    files,
    lessons,
    photos,
    start,
    talk,
    teaching,
    trainer,
    walk,
)
from triage.errors import BadPhoto, BadSurvey, CannotWork, NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Boats

SCREENS = (
    start,
    talk,
    boat,
    walk,
    photos,
    answer,
    boats,
    common,
    files,
    again,
    advert,
    buying,
    trainer,
    teaching,
    classroom,
    lessons,
)
"""Every screen module, each with its ``ROUTES``."""


def create_app(
    kb: KnowledgeBase, boats_kept: Boats, *, guards: Sequence[Middleware] = (), class_link: str = ""
) -> Starlette:
    """The screens over this knowledge and these boats. ``guards`` stand before everything but the headers;
    ``class_link`` is what opens them for learners.
    """
    app = Starlette(
        routes=[route for screen in SCREENS for route in screen.ROUTES],
        middleware=[Middleware(SecurityHeaders), *guards, Middleware(OriginCheck), Middleware(BodyLimit)],
        exception_handlers={
            HTTPException: _refused,
            NoSuch: _no_such,
            BadSurvey: _bad_survey,
            BadPhoto: _bad_photo,
            CannotWork: _cannot_work,
            Exception: _mistake,
        },
    )
    app.state.program = Program(kb, boats_kept, class_link)
    return app


async def _refused(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    return problem(request, error.status_code)


async def _no_such(request: Request, error: Exception) -> Response:
    return problem(request, 404, str(error))


async def _bad_survey(request: Request, error: Exception) -> Response:
    assert isinstance(error, BadSurvey)
    return problem(request, 422, lines=tuple(str(one) for one in error.problems))


async def _bad_photo(request: Request, error: Exception) -> Response:
    return problem(request, 422, str(error))


async def _cannot_work(request: Request, error: Exception) -> Response:
    return problem(request, 500, str(error))


async def _mistake(request: Request, _: Exception) -> Response:
    return problem(request, 500)
