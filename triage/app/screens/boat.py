"""The boat is the form: she is tapped, the nearest places are offered, and then the marks that are met there."""

from __future__ import annotations

import re
from functools import partial
from urllib.parse import urlencode

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.pictures import chart_of, legs_of
from triage.app.places import BOTH, UNKNOWN, marks_offered, place_sent, sides_sent, test_of
from triage.app.said import sentences
from triage.app.screen import fields, go_to, page, program
from triage.app.visiting import Visit, keep, open_visit
from triage.dialogue.describing import Describing
from triage.dialogue.judged import judged_boat
from triage.dialogue.moves import Move
from triage.dialogue.passing import look_at, looks_fine, tried_fine
from triage.dialogue.round import standing
from triage.dialogue.state import Asking, State
from triage.drawing.boat.chart import VIEWS, View
from triage.drawing.boat.draw import DrawnView, draw_spot, draw_view, nearest_spots
from triage.drawing.svg import Point
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.phrases import pictures
from triage.phrases import walking as words
from triage.phrases.words import at_side
from triage.survey.model import Survey

NOTED = "noted"
"""In an address: what the last step said is shown, for it was made on such a screen."""

_POINT = re.compile(r"(-?\d{1,4}),(-?\d{1,4})")

SIDE_VALUES = ("port", "starboard", BOTH, UNKNOWN)


async def boat(request: Request) -> Response:
    """The drawing, whose places are links; on a phone one view of her at a time."""
    asked = program(request)
    visit = open_visit(asked, request.path_params["visit"])
    return page(
        request,
        "boat.html",
        {
            **_common(asked.kb, visit),
            "views": tapped(asked.kb, visit.survey),
            "shown": _view(request),
            "just": NOTED in request.query_params,
        },
    )


async def near(request: Request) -> Response:
    """Which of these? The places nearest to a tap, each as a part of the same drawing."""
    asked = program(request)
    kb, visit = asked.kb, open_visit(asked, request.path_params["visit"])
    query, wanted = request.query_params, _view(request)
    view = tapped_view(kb, visit.survey, wanted)
    hit = (query.get("zone", ""), query.get("side", ""))
    at = _point(query.get("at", "")) or view.pen.anchors.get(hit)
    if at is None or (hit[0] and hit not in view.pen.anchors):
        raise HTTPException(404)
    coverage = judged_boat(kb, visit.survey).coverage
    nearest = [
        {
            "name": at_side(kb.zones[spot[0]].name, spot[1] or None),
            "trade": kb.zones[spot[0]].trade,
            "state": words.STATES[standing(coverage, *spot)],
            "picture": draw_spot(view, spot, ""),
            "href": f"place?{urlencode({'zone': spot[0], 'side': spot[1]})}",
        }
        for spot in nearest_spots(view, hit if hit[0] else None, at)
    ]
    return page(request, "near.html", {**_common(kb, visit), "view": view, "nearest": nearest, "shown": wanted})


async def places(request: Request) -> Response:
    """All places as a plain list, by the parts of the walk."""
    asked = program(request)
    kb, visit = asked.kb, open_visit(asked, request.path_params["visit"])
    coverage = judged_boat(kb, visit.survey).coverage
    listed = [
        (
            leg.name,
            [
                (kb.zones[zone], words.STATES[coverage.place(zone)])
                for zone in leg.zones
                if visit.survey.boat.has(kb.zones[zone])
            ],
        )
        for leg in kb.walk
    ]
    return page(request, "places.html", {**_common(kb, visit), "listed": [one for one in listed if one[1]]})


async def place(request: Request) -> Response:
    """What is there: no mark, tried, or one of the marks that are met there, each beside its confusion."""
    asked = program(request)
    kb, visit = asked.kb, open_visit(asked, request.path_params["visit"])
    zone = place_sent(kb, visit.survey, request.query_params.get("zone", ""))
    side = request.query_params.get("side", "")
    found = [one for one in visit.survey.marks if one.zone == zone]
    values = {
        "place": kb.zones[zone],
        "side": side if side in SIDE_VALUES else BOTH if kb.zones[zone].sided else "",
        "sides": SIDE_VALUES if kb.zones[zone].sided else (),
        "found": [(one.id, at_side(kb.signs[one.sign].name, one.side)) for one in found],
        "test": None if found else test_of(kb, visit.survey, zone),
        "marks": marks_offered(kb, visit.survey, zone),
        "leg": request.query_params.get("leg", ""),
    }
    return page(request, "place.html", {**_common(kb, visit), **values})


async def found(request: Request) -> Response:
    """What somebody found at a place: kept, then asked about; or that it looks fine, or was tried."""
    asked, form = program(request), await fields(request)
    kb, visit = asked.kb, open_visit(asked, request.path_params["visit"])
    zone = place_sent(kb, visit.survey, form.get("zone", ""))
    side, do = form.get("side", ""), form.get("do", "")
    sides = sides_sent(kb, zone, side)
    if do in ("looks", "tried"):
        state, said = passed_over(kb, visit.state, zone, sides, tried=do == "tried")
        kept = keep(asked, visit.kept, state, [said])
        leg = form.get("leg", "")
        to = {"leg": leg, NOTED: "yes"} if leg else {NOTED: "yes"}
        return go_to(request, addresses.visit(kept.visit, f"{'walk' if leg else 'boat'}?{urlencode(to)}"))
    sign = do.removeprefix("mark/")
    if sign not in kb.offers[zone] or sign == NOTHING_SEEN:
        raise HTTPException(400)
    draft = Asking("confirm", zone=zone, sign=sign, side=side if side in SIDE_VALUES else "unknown")
    move = Describing(kb, visit.state).record(draft)
    assert isinstance(move, Move)  # what is recorded always goes on to its first question
    state = visit.state.moved(move.asking, move.survey, move.backs)
    return go_to(request, addresses.visit(keep(asked, visit.kept, state, sentences(move.says)).visit))


def passed_over(
    kb: KnowledgeBase, state: State, zone: str, sides: tuple[str, ...], *, tried: bool
) -> tuple[State, str]:
    """The state after a part was tried or looked at, and what is said of that."""
    name = kb.zones[zone].name
    if not tried:
        return looks_fine(kb, state, [(zone, side) for side in sides]), words.noted_looks(name, sides)
    state = tried_fine(kb, state, zone, sides)
    coverage = judged_boat(kb, state.survey).coverage
    looks = [look_at(state.survey, zone, side or None) for side in sides]
    passed = all(look is not None and coverage.passes_alone(look) for look in looks)
    return state, words.noted_tried(name, sides, passed=passed)


def tapped(kb: KnowledgeBase, survey: Survey) -> list[DrawnView]:
    """Every view of her, each place a link that is reached by keyboard too."""
    return [tapped_view(kb, survey, view) for view in VIEWS]


def tapped_view(kb: KnowledgeBase, survey: Survey, view: View) -> DrawnView:
    """One of them."""
    return draw_view(chart_of(kb, survey, partial(_tap, view), tapped=True), view, pictures.VIEWS[view])


def _tap(view: View, zone: str, side: str) -> str:
    return f"near?{urlencode({'view': view, 'zone': zone, 'side': side})}"


def _point(text: str) -> Point | None:
    """Where the finger was, in units of the view; None where nobody says."""
    found = _POINT.fullmatch(text)
    return (float(found[1]), float(found[2])) if found else None


def _view(request: Request) -> View:
    asked = request.query_params.get("view", VIEWS[0])
    found = next((view for view in VIEWS if view == asked), None)
    if found is None:
        raise HTTPException(404)
    return found


def _common(kb: KnowledgeBase, visit: Visit) -> dict[str, object]:
    key = [(status, pictures.STANDS[status]) for status in ("not_looked", "seen", "passed", "found")]
    return {"visit": visit, "legs": legs_of(kb, visit.survey), "say": words, "key": key}


ROUTES = [
    Route("/visit/{visit}/boat", boat),
    Route("/visit/{visit}/near", near),
    Route("/visit/{visit}/places", places),
    Route("/visit/{visit}/place", place),
    Route("/visit/{visit}/place", found, methods=["POST"]),
]
