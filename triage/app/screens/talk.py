"""The conversation about a visit: what is asked now as a screen, and every answer to it as a step."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.asks import shown
from triage.app.pictures import legs_of
from triage.app.said import sentences
from triage.app.screen import fields, go_to, page, program
from triage.app.visiting import Came, open_visit, take, token_of
from triage.dialogue import events
from triage.dialogue.step import step

ACTS: Mapping[str, events.Event] = {
    "undo": events.Undo(),
    "skip": events.Skip(),
    "why": events.Why(),
    "how": events.How(),
    "new": events.New(),
    "marks": events.Marks(),
    "answers": events.Answers(),
    "keep": events.Keep(),
    "finish": events.Finish(),
}
"""What a button may do, by what its form sends as ``act``."""

ACTS_ON: Mapping[str, Callable[[str, str], events.Event]] = {
    "remove": lambda mark, _: events.Remove(mark),
    "same": lambda mark, _: events.Same(mark),
    "focus": lambda mark, _: events.Focus(mark),
    "change": events.Change,
    "clear": events.Clear,
    "decide": lambda card, decision: events.Decide(int(card) if card.isdecimal() else 0, decision),
}
"""The same for what is done to a mark, or to one answer about it, which the form names as ``mark`` and ``ask``."""

ANSWERING = ("skip", "why", "how", "decide", "keep")
"""What is done to the question of the form; all else may be done at any time."""


async def talk(request: Request) -> Response:
    """What is asked now; ``?why``: and why, which changes nothing."""
    asked = program(request)
    visit = open_visit(asked, request.path_params["visit"])
    ask = shown(asked.kb, visit)
    values = {"visit": visit, "legs": legs_of(asked.kb, visit.survey), "token": token_of(visit.state.asking)}
    if "why" in request.query_params:
        values["why"] = sentences(step(asked.kb, visit.state, events.Why())[1])
    return page(request, ask.template, {**values, **ask.values})


async def say(request: Request) -> Response:
    """Words: a description, an answer, a measurement, a question."""
    form = await fields(request)
    told: list[events.Event] = [events.Said(form.get("text", ""))]
    token = form.get("token", "")
    if form.get("new"):  # the box of the first screen, whatever was asked meanwhile
        told, token = [events.New(), *told], ""
    return _on(request, take(program(request), request.path_params["visit"], told, token))


async def choose(request: Request) -> Response:
    """One of the choices, by its number as it was shown."""
    form = await fields(request)
    ends = _number(form.get("number", "")), _number(form.get("to") or "0")
    chosen = events.Chose(*ends, pressed=True, both=bool(form.get("both")))
    return _on(request, take(program(request), request.path_params["visit"], [chosen], form.get("token", "")))


async def do(request: Request) -> Response:
    """Anything else: back, why, how, could not tell, another mark, all marks, the answer so far …"""
    form = await fields(request)
    act = form.get("act", "")
    if act not in ACTS and act not in ACTS_ON:
        raise HTTPException(400)
    event = ACTS[act] if act in ACTS else ACTS_ON[act](form.get("mark", ""), form.get("ask", ""))
    token = form.get("token", "") if act in ANSWERING else ""
    return _on(request, take(program(request), request.path_params["visit"], [event], token))


def _on(request: Request, came: Came) -> Response:
    if came.leaves:
        return go_to(request, addresses.BOATS)
    return go_to(request, addresses.visit(came.kept.visit, "answer" if came.reports else ""))


def _number(text: str) -> int:
    if not (text.isascii() and text.isdecimal() and len(text) < 5):
        raise HTTPException(400)
    return int(text)


ROUTES: Sequence[Route] = [
    Route("/visit/{visit}/", talk),
    Route("/visit/{visit}/say", say, methods=["POST"]),
    Route("/visit/{visit}/choose", choose, methods=["POST"]),
    Route("/visit/{visit}/do", do, methods=["POST"]),
]
