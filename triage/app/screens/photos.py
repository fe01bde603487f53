"""Photographs of a mark: taken or chosen, kept without where and when they were taken; and a length from one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from urllib.parse import urlencode

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.pictures import legs_of
from triage.app.screen import MAX_PART, fields, go_to, page, program
from triage.app.visiting import Visit, keep, open_visit, take
from triage.dialogue.edits import AddPhoto, Edit, RemovePhoto, apply_all
from triage.dialogue.events import Change, Said
from triage.knowledge.model import KnowledgeBase
from triage.mechanics.interval import Interval
from triage.mechanics.photo_scale import Point, length
from triage.phrases import walking as words
from triage.phrases.sums import between
from triage.phrases.words import mark_at
from triage.survey.model import Finding
from triage.views.photos import fit_to_keep, size_of

SUM = "photo"
"""The sum that a length from a photograph is."""

TAP = 0.003
"""How far a tap that was placed and looked at is off, as a share of the longer side of the picture (estimate)."""

MOST_POINTS = 40
"""Of a line."""

LEAST_POINTS = 6
"""Four corners and two ends."""

_POINT = re.compile(r"(-?\d{1,5}(?:\.\d+)?)\s*,\s*(-?\d{1,5}(?:\.\d+)?)")


async def photos(request: Request) -> Response:
    """The photographs of a mark, and one more."""
    asked = program(request)
    kb, visit = asked.kb, open_visit(asked, request.path_params["visit"])
    mark = _mark(visit, request.query_params.get("mark", ""))
    values = {
        "visit": visit,
        "legs": legs_of(kb, visit.survey),
        "say": words,
        "mark": mark,
        "named": mark_at(kb.zones[mark.zone].name, mark.side, kb.signs[mark.sign].name),
        "just": "noted" in request.query_params,
        "measured": bool(scale_of(kb, mark)),
    }
    return page(request, "photos.html", values)


async def add(request: Request) -> Response:
    """Keep a photograph with a mark, or take one out."""
    asked = program(request)
    visit = open_visit(asked, request.path_params["visit"])
    async with request.form(max_files=1, max_fields=4, max_part_size=MAX_PART) as form:
        mark = _mark(visit, str(form.get("mark", "")))
        gone, file = str(form.get("remove", "")), form.get("photo")
        data = await file.read() if isinstance(file, UploadFile) else b""
    if gone and gone not in mark.photos:
        raise HTTPException(404)
    if gone:
        edit: Edit = RemovePhoto(mark.id, gone)
    elif data:
        edit = AddPhoto(mark.id, asked.boats.add_photo(visit.kept.visit, fit_to_keep(data)))
    else:
        kept = keep(asked, visit.kept, visit.state, [words.PHOTO_NOT_KEPT])
        return _to(request, kept.visit, "photos", mark=mark.id, noted="yes")
    survey, backs = apply_all(asked.kb, visit.survey, [edit])
    kept = keep(asked, visit.kept, visit.state.moved(visit.state.asking, survey, backs))
    return _to(request, kept.visit, "photos", mark=mark.id)


async def photo(request: Request) -> Response:
    """A photograph as it was kept."""
    kept = program(request).boats.photo(request.path_params["visit"], request.path_params["name"])
    return Response(kept, media_type="image/jpeg", headers={"cache-control": "private, max-age=31536000, immutable"})


async def measure(request: Request) -> Response:
    """Where to tap, and with all taps what they come to."""
    asked = program(request)
    kb, visit = asked.kb, open_visit(asked, request.path_params["visit"])
    mark, name = _mark(visit, request.query_params.get("mark", "")), request.query_params.get("name", "")
    if name not in mark.photos:
        raise HTTPException(404)
    wide, high = size_of(asked.boats.photo(visit.kept.visit, name))
    taps = _points(request.query_params.get("taps", ""))
    told, cannot = _reckoned(taps, TAP * max(wide, high)) if "taps" in request.query_params else ("", "")
    values = {
        "visit": visit,
        "legs": legs_of(kb, visit.survey),
        "say": words,
        "mark": mark,
        "name": name,
        "wide": wide,
        "high": high,
        "corners": [_written(taps[n : n + 1]) for n in range(4)],
        "line": _written(taps[4:]),
        "told": told,
        "cannot": cannot,
        "mind": kb.sums[SUM].mind if SUM in kb.sums else "",
        "scale": scale_of(kb, mark),
    }
    return page(request, "measure.html", values)


async def reckon(request: Request) -> Response:
    """Taps as they were sent become part of the address; or what they came to is taken as an answer."""
    asked, form = program(request), await fields(request)
    visit = open_visit(asked, request.path_params["visit"])
    mark = _mark(visit, form.get("mark", ""))
    scale, said = scale_of(asked.kb, mark), form.get("use", "")
    if said and scale:
        came = take(asked, visit.kept.visit, [Change(mark.id, scale), Said(said)])
        return go_to(request, addresses.visit(came.kept.visit))
    taps = " ".join(form.get(part, "") for part in ("corner1", "corner2", "corner3", "corner4", "line"))
    written = _written(_points(taps[: MAX_PART // 64]))
    return _to(request, visit.kept.visit, "measure", mark=mark.id, name=form.get("name", ""), taps=written)


def scale_of(kb: KnowledgeBase, mark: Finding) -> str:
    """The scale of the mark to which a length from a photograph may be proposed; empty where there is none."""
    told = kb.sums[SUM].tells.values() if SUM in kb.sums else ()
    there = kb.applicable(mark.zone, mark.sign)
    return next((one.answers for one in told if one.answers in there), "")


def _mark(visit: Visit, mark: str) -> Finding:
    """The mark of the visit that was sent. Raises HTTPException for one that is not there."""
    found = next((one for one in visit.survey.findings if one.id == mark), None)
    if found is None:
        raise HTTPException(404)
    return found


def _reckoned(taps: Sequence[Point], off: float) -> tuple[str, str]:
    """The length in words, or why there is none."""
    if not LEAST_POINTS <= len(taps) <= MOST_POINTS:
        return "", words.NO_TAPS
    try:
        found = length(taps[:4], taps[4:], off)
    except ValueError as error:
        return "", words.cannot_reckon(str(error))
    least = max(0.0, found.middle - found.error)
    return between(Interval(least * 1000, (found.middle + found.error) * 1000), "mm"), ""


def _points(text: str) -> list[Point]:
    return [(float(x), float(y)) for x, y in _POINT.findall(text)][:MOST_POINTS]


def _written(points: Sequence[Point]) -> str:
    return " ".join(f"{x:g},{y:g}" for x, y in points)


def _to(request: Request, visit: str, what: str, **query: str) -> Response:
    return go_to(request, addresses.visit(visit, f"{what}?{urlencode(query)}"))


ROUTES = [
    Route("/visit/{visit}/photos", photos),
    Route("/visit/{visit}/photos", add, methods=["POST"]),
    Route("/visit/{visit}/photos/{name}", photo),
    Route("/visit/{visit}/measure", measure),
    Route("/visit/{visit}/measure", reckon, methods=["POST"]),
]
