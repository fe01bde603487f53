"""The walk round her: part by part, in any order, with what decides most first for the minutes at hand."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, replace
from urllib.parse import urlencode

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.pictures import legs_of
from triage.app.places import Test, place_sent, sides_sent, test_of
from triage.app.screen import Program, fields, go_to, page, program
from triage.app.screens.boat import NOTED, passed_over, tapped_view
from triage.app.visiting import Visit, keep, open_visit
from triage.asking.told import question_of
from triage.concluding.looks import would_pass
from triage.dialogue.passing import look_at, looks_fine, not_looked
from triage.dialogue.round import AS_LONG_AS_IT_TAKES, MINUTES, Round, Stop, round_of
from triage.dialogue.seeing import seen_again
from triage.dialogue.state import State
from triage.drawing.boat.chart import View
from triage.knowledge.model import KnowledgeBase
from triage.phrases import pictures
from triage.phrases import walking as words
from triage.survey.model import Survey

VIEW_OF_LEG: Mapping[str, View] = {
    **dict.fromkeys(("inside", "buoyancy"), "inside"),
    **dict.fromkeys(("rig", "foils", "wheels"), "rig"),
    "underside": "under",
}
"""Which view of her stands beside a part of the round; beside the others the deck."""


@dataclass(frozen=True)
class Shown:
    """A place of the round as it is shown: what would pass it, what still has to be told, and what was last time."""

    stop: Stop
    side: str
    test: Test | None
    wanted: tuple[tuple[str, str, str], ...]
    before: tuple[tuple[str, str], ...]


async def walk(request: Request) -> Response:
    """How much time there is, once; then the parts of the round; then one of them."""
    asked = program(request)
    kb, visit = asked.kb, open_visit(asked, request.path_params["visit"])
    query = request.query_params
    common = {"visit": visit, "legs": legs_of(kb, visit.survey), "say": words}
    if not visit.state.minutes or query.get("minutes"):
        times = [(some, words.minutes(some)) for some in MINUTES]
        return page(request, "minutes.html", {**common, "times": [*times, (AS_LONG_AS_IT_TAKES, words.ALL_THE_TIME)]})
    round_ = round_of(kb, visit.survey, visit.state.minutes, datetime.date.today().year)
    whole = visit.state.minutes if visit.state.minutes in MINUTES else 0
    leg = query.get("leg", "")
    if not leg:
        values = {"round": round_, "whole": whole, "next": round_.after("")}
        return page(request, "round.html", {**common, **values})
    return page(
        request, "leg.html", {**common, **_leg(asked, visit, round_, leg), "whole": whole, "just": NOTED in query}
    )


def _leg(asked: Program, visit: Visit, round_: Round, leg: str) -> dict[str, object]:
    kb, stretch = asked.kb, round_.stretch(leg)
    if stretch is None:
        raise HTTPException(404)
    shown = [_shown(kb, visit.survey, stop) for stop in stretch.stops]
    number = round_.stretches.index(stretch) + 1
    view = tapped_view(kb, visit.survey, VIEW_OF_LEG.get(leg, "deck"))
    return {
        "round": round_,
        "stretch": stretch,
        "number": number,
        "first": [one for one in shown if one.stop.rank],
        "others": [one for one in shown if not one.stop.rank],
        "next": round_.after(leg),
        "view": view,
        "view_says": pictures.SHORT[view.view],
        "kb": kb,
    }


def _shown(kb: KnowledgeBase, survey: Survey, stop: Stop) -> Shown:
    """With both sides still to look at, both are meant; else the one that is left."""
    zone = stop.zone.id
    left = [one.side for one in stop.sides if one.status == "not looked at"]
    side = left[0] if len(left) == 1 else "both" if stop.zone.sided else ""
    marked = all(one.marks for one in stop.sides)
    return Shown(
        stop=stop,
        side=side,
        test=None if marked else test_of(kb, survey, zone),
        wanted=_wanted(kb, survey, stop),
        before=_before(kb, survey, zone),
    )


def _wanted(kb: KnowledgeBase, survey: Survey, stop: Stop) -> tuple[tuple[str, str, str], ...]:
    """What else has to be told before a part that was tried is passed: the look, what is asked, and the question."""
    for one in stop.sides:
        look = look_at(survey, stop.zone.id, one.side or None)
        if one.status == "nothing found" and look is not None and look.answered:
            options = would_pass(kb, survey.boat, look)[:1]
            return tuple((look.id, option.ask, question_of(kb, option.ask)) for option in options)
    return ()


def _before(kb: KnowledgeBase, survey: Survey, zone: str) -> tuple[tuple[str, str], ...]:
    """Marks that stand from earlier visits, and at which nobody has looked at this one."""
    return tuple(
        (one.id, words.last_time(one.seen_on, kb.signs[one.sign].name, one.side))
        for one in survey.marks
        if one.zone == zone and survey.stands_from_before(one)
    )


async def go_round(request: Request) -> Response:
    """How much time there is, or what was found at a place of the round."""
    asked, form = program(request), await fields(request)
    visit = open_visit(asked, request.path_params["visit"])
    if minutes := form.get("minutes", ""):
        if minutes not in {str(some) for some in (*MINUTES, AS_LONG_AS_IT_TAKES)}:
            raise HTTPException(400)
        kept = keep(asked, visit.kept, replace(visit.state, minutes=int(minutes)))
        return go_to(request, addresses.visit(kept.visit, "walk"))
    state, said = _gone(asked, visit, form)
    kept = keep(asked, visit.kept, state, [said])
    to = urlencode({"leg": form.get("leg", ""), NOTED: "yes"})
    at = f"#{form['zone']}" if form.get("zone") else ""
    return go_to(request, addresses.visit(kept.visit, f"walk?{to}{at}"))


def _gone(asked: Program, visit: Visit, form: dict[str, str]) -> tuple[State, str]:
    kb, state, do = asked.kb, visit.state, form.get("do", "")
    if do == "rest":
        return _rest(asked, visit, form.get("leg", ""))
    zone = place_sent(kb, visit.survey, form.get("zone", ""))
    sides = sides_sent(kb, zone, form.get("side", ""))
    if do in ("tried", "looks"):
        return passed_over(kb, state, zone, sides, tried=do == "tried")
    if do == "not":
        return not_looked(kb, state, [(zone, side) for side in sides]), words.noted_not_looked(
            kb.zones[zone].name, sides
        )
    if do.startswith("same/"):
        return _same(asked, visit, do.removeprefix("same/"))
    raise HTTPException(400)


def _rest(asked: Program, visit: Visit, leg: str) -> tuple[State, str]:
    """All that nobody has looked at on this part of the round looks fine; it is no test, so it passes nothing."""
    stretch = round_of(asked.kb, visit.survey, 0, 0).stretch(leg)
    if stretch is None:
        raise HTTPException(404)
    left = [(stop.zone.id, one.side) for stop in stretch.stops for one in stop.sides if one.status == "not looked at"]
    return looks_fine(asked.kb, visit.state, left), words.noted_rest(len({zone for zone, _ in left}))


def _same(asked: Program, visit: Visit, mark: str) -> tuple[State, str]:
    """A mark that stands from an earlier visit is as it was."""
    found = next((one for one in visit.survey.marks if one.id == mark), None)
    if found is None or not visit.survey.stands_from_before(found):
        raise HTTPException(404)
    survey, backs = seen_again(asked.kb, visit.survey, mark)
    return visit.state.moved(visit.state.asking, survey, backs), f"{words.same_as(found.seen_on)} {words.SAME_MEANS}"


ROUTES = [
    Route("/visit/{visit}/walk", walk),
    Route("/visit/{visit}/walk", go_round, methods=["POST"]),
]
