"""What comes and goes as a file: the report, a survey or a whole boat; and style, script and icon of the screens."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Mapping

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.screen import FOLDER, Program, go_to, program
from triage.app.visiting import Visit, open_visit
from triage.concluding.assess import assess_survey
from triage.drawing.svg import style_sheet
from triage.errors import NoSuch
from triage.log.travelling import arrive, boat_text, is_boat, read_boat
from triage.parsing.text import plain
from triage.resources import data_dir
from triage.survey.read import survey_from_text
from triage.survey.write import survey_text
from triage.views.photos import in_page
from triage.views.report import render

KINDS = {"css": "text/css", "js": "text/javascript", "svg": "image/svg+xml"}

DRAWINGS = "drawings.css"
"""The one style sheet of all drawings, which is kept with them."""

REPORT_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"
"""A report is one page with its style in it, as it is sent to somebody."""


async def report(request: Request) -> Response:
    """The whole report as one page."""
    asked = program(request)
    visit = open_visit(asked, request.path_params["visit"])
    photos = kept_photos(asked, visit)
    text = render(assess_survey(visit.survey, asked.kb), "html", photos=photos)
    return Response(text, media_type="text/html", headers={"content-security-policy": REPORT_POLICY})


def kept_photos(asked: Program, visit: Visit) -> Mapping[str, str]:
    """The photographs of the marks that are kept with the visit, as data URIs by name."""
    found = {}
    for name in {name: None for one in visit.survey.findings for name in one.photos}:
        with contextlib.suppress(NoSuch):  # a survey from a file may name what is not here
            found[name] = in_page(asked.boats.photo(visit.kept.visit, name))
    return found


async def survey(request: Request) -> Response:
    """The survey as a file to keep."""
    visit = open_visit(program(request), request.path_params["visit"])
    return Response(
        survey_text(visit.kept.survey), media_type="application/yaml", headers=_as_file(visit, "survey", ".yaml")
    )


async def whole_boat(request: Request) -> Response:
    """All her visits and her diary as a file to keep."""
    asked = program(request)
    visit = open_visit(asked, request.path_params["visit"])
    text = boat_text(asked.boats, visit.kept.boat)
    return Response(text, media_type="application/json", headers=_as_file(visit, "boat", "-over-time.json"))


def _as_file(visit: Visit, unnamed: str, end: str) -> dict[str, str]:
    name = re.sub(r"[^a-z0-9]+", "-", visit.survey.boat.name.casefold()).strip("-") or unnamed
    return {"content-disposition": f'attachment; filename="{name}{end}"'}


async def upload(request: Request) -> Response:
    """A survey from a file becomes a visit, and a boat from a file a boat with her visits."""
    asked = program(request)
    async with request.form(max_files=1, max_fields=4) as form:
        file = form.get("file")
        if not isinstance(file, UploadFile):
            raise HTTPException(400)
        data = await file.read()
    source = plain(file.filename or "the file")
    if is_boat(data):
        kept = arrive(asked.boats, read_boat(data, asked.kb, source))
    else:
        kept = asked.boats.begin(survey_from_text(data, asked.kb, source=source))
    return go_to(request, addresses.visit(kept.visit))


async def look(request: Request) -> Response:
    """A style sheet, a script or the icon."""
    name = request.path_params["name"]
    stem, _, kind = name.rpartition(".")
    if name == DRAWINGS:
        return Response(style_sheet(), media_type=KINDS["css"], headers={"cache-control": "no-cache"})
    file = data_dir("templates") / FOLDER / name
    if kind not in KINDS or not re.fullmatch(r"[a-z_]+", stem) or not file.is_file():
        raise HTTPException(404)
    return Response(file.read_bytes(), media_type=KINDS[kind], headers={"cache-control": "no-cache"})


ROUTES = [
    Route("/visit/{visit}/report.html", report),
    Route("/visit/{visit}/survey.yaml", survey),
    Route("/visit/{visit}/boat.json", whole_boat),
    Route("/open", upload, methods=["POST"]),
    Route("/look/{name}", look),
]
