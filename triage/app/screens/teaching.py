"""A learner's run: a case is shown, named, tried and judged; then it stands beside what the program makes of it.

Nothing of the answer is on a screen before all is answered. A form carries how far the run had come when it was shown,
so what is sent twice, or from an old screen, changes nothing.
"""

from __future__ import annotations

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.cases import checks_made, checks_to_make, shown_case, way_drawn
from triage.app.lessons import (
    JUDGING,
    NAMING,
    NameTaken,
    answered,
    begun,
    enough,
    keep_state,
    offered,
    played,
    questions,
    token_of,
)
from triage.app.screen import Program, fields, go_to, page, program
from triage.errors import BadInput
from triage.knowledge.model import KnowledgeBase
from triage.log.runs import Run
from triage.phrases import learning
from triage.phrases import teaching as says
from triage.teaching.questions import CHECK, CONFIDENCE
from triage.teaching.run import State, back
from triage.teaching.sheet import mark_run
from triage.views.marked_run import told_run
from triage.views.report import kind


async def start(request: Request) -> Response:
    """Who learns, in which class, and which cases; the address may say so already."""
    return _start(request, request.query_params)


def _start(request: Request, form: Mapping[str, str], problems: tuple[str, ...] = (), status: int = 200) -> Response:
    values = {"visit": None, "says": says, "form": form, "offered": offered(program(request).kb), "problems": problems}
    return page(request, "teach.html", values, status)


async def begin(request: Request) -> Response:
    """A run is begun, or one that was left open is gone on with."""
    form = await fields(request)
    try:
        run = begun(program(request), form)
    except NameTaken as taken:
        return page(request, "teach_same.html", {"visit": None, "says": says, "form": form, "taken": taken})
    except BadInput as error:
        return _start(request, form, tuple(f"{one.what}. {one.hint}" for one in error.problems), 422)
    return go_to(request, addresses.run(run.id))


async def show(request: Request) -> Response:
    """Where the run is: a case to name, to try or to judge, or all of it beside the program's reasoning."""
    return _show(request, program(request).boats.run(request.path_params["run"]))


def _show(request: Request, run: Run, form: Mapping[str, str] | None = None, missing: tuple[str, ...] = ()) -> Response:
    kb = program(request).kb
    state = played(kb, run)
    base: dict[str, object] = {"visit": None, "says": says, "run": run, "token": token_of(run)}
    if state.asks is None:
        return page(request, "teach_told.html", {**base, **_told(kb, state)})
    case = shown_case(kb, state.case)
    base |= {"case": case, "made": list(checks_made(kb, state)), "minutes": state.minutes}
    if state.asks.about == CHECK:
        return page(request, "teach_checks.html", {**base, "checks": checks_to_make(kb, state)})
    abouts = NAMING if state.asks.about in NAMING else JUDGING
    asked = questions(kb, state, abouts)
    left_out = [one.says for one in asked if one.about in missing]
    values = {"asked": asked, "judging": abouts is JUDGING, "form": form or {}, "missing": left_out}
    return page(request, "teach_asked.html", {**base, **values, "percent": CONFIDENCE}, 422 if missing else 200)


def _told(kb: KnowledgeBase, state: State) -> dict[str, object]:
    marked = mark_run(kb, state)
    return {
        "told": told_run(kb, marked),
        "marked": marked,
        "title": learning.mark_in_words(kb, state.case.mark),
        "kind": kind(state.key.finding.verdict),
        "way": way_drawn(kb, state),
        "case": shown_case(kb, state.case),
        "name": kb.signs[state.case.mark.sign].name,
    }


async def answer(request: Request) -> Response:
    """What the mark is called, or what is made of it; all questions of the form at once."""
    asked, run, form = await _sent(request)
    state = played(asked.kb, run)
    if not _is_now(run, form) or state.asks is None or state.asks.about == CHECK:
        return go_to(request, addresses.run(run.id))
    after, missing = answered(asked.kb, state, form)
    if missing:
        return _show(request, run, form, tuple(missing))
    keep_state(asked, run, after)
    return go_to(request, addresses.run(run.id))


async def check(request: Request) -> Response:
    """A check is made, or enough were."""
    asked, run, form = await _sent(request)
    state = played(asked.kb, run)
    if _is_now(run, form) and state.asks is not None and state.asks.about == CHECK:
        try:
            after = enough(asked.kb, state, form.get("check", ""))
        except IndexError:
            return go_to(request, addresses.run(run.id))
        keep_state(asked, run, after)
    return go_to(request, addresses.run(run.id))


async def more(request: Request) -> Response:
    """Back from the verdict to the checks; what was told stays told."""
    asked, run, form = await _sent(request)
    state = played(asked.kb, run)
    if _is_now(run, form) and state.asks is not None and state.asks.about == JUDGING[0]:
        keep_state(asked, run, back(asked.kb, state))
    return go_to(request, addresses.run(run.id))


async def following(request: Request) -> Response:
    """The next case of the same kind, for the same learner in the same class."""
    asked, run, _ = await _sent(request)
    same = {"name": run.name, "code": run.code, "about": run.about, "when": run.when, "mine": run.id}
    return go_to(request, addresses.run(begun(asked, same).id))


async def again(request: Request) -> Response:
    """An address that takes a form, opened: to where its run is now, or to the beginning."""
    run = request.path_params.get("run")
    return go_to(request, addresses.run(run) if run else addresses.TEACH)


async def _sent(request: Request) -> tuple[Program, Run, dict[str, str]]:
    asked = program(request)
    return asked, asked.boats.run(request.path_params["run"]), await fields(request)


def _is_now(run: Run, form: Mapping[str, str]) -> bool:
    return form.get("token") == token_of(run)


ROUTES = [
    Route("/teach", start),
    Route("/teach/begin", begin, methods=["POST"]),
    Route("/teach/run/{run}/", show),
    Route("/teach/run/{run}/answer", answer, methods=["POST"]),
    Route("/teach/run/{run}/check", check, methods=["POST"]),
    Route("/teach/run/{run}/more", more, methods=["POST"]),
    Route("/teach/run/{run}/next", following, methods=["POST"]),
    Route("/teach/begin", again),
    Route("/teach/run/{run}/{form}", again),
]
