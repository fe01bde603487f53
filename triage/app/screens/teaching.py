"""A learner's run: a case is shown, named, tried and judged; then it stands beside what the program makes of it.

Nothing of the answer is on a screen before all is answered. A form carries how far the run had come when it was shown,
so what is sent twice, or from an old screen, changes nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses, own_cases
from triage.app.cases import ShownCase, checks_made, checks_to_make, shown_case, way_drawn
from triage.app.lessons import (
    JUDGING,
    NAMING,
    NameTaken,
    answered,
    begun,
    enough,
    keep_state,
    offered,
    own_case,
    played,
    questions,
    title_of,
    token_of,
)
from triage.app.otherwise import keep_against, said_against
from triage.app.screen import Program, fields, go_to, page, program
from triage.errors import BadInput
from triage.knowledge.model import VERDICT, KnowledgeBase
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
    asked = program(request)
    kb, state = asked.kb, played(asked, run)
    base: dict[str, object] = {"visit": None, "says": says, "run": run, "token": token_of(run)}
    base["case_title"] = title_of(kb, run)
    if state.asks is None:
        return _told_page(request, run, state)
    base |= {"case": _case(asked, run, state), "made": list(checks_made(kb, state)), "minutes": state.minutes}
    if state.asks.about == CHECK:
        return page(request, "teach_checks.html", {**base, "checks": checks_to_make(kb, state)})
    abouts = NAMING if state.asks.about in NAMING else JUDGING
    to_ask = questions(kb, state, abouts)
    left_out = [one.says for one in to_ask if one.about in missing]
    values = {"asked": to_ask, "judging": abouts is JUDGING, "form": form or {}, "missing": left_out}
    return page(
        request,
        "teach_asked.html",
        {**base, **values, "percent": CONFIDENCE, "verdict": VERDICT},
        422 if missing else 200,
    )


def _told_page(
    request: Request, run: Run, state: State, form: Mapping[str, str] | None = None, problems: Sequence[str] = ()
) -> Response:
    asked = program(request)
    worst = state.key.finding.verdict.worst
    values: dict[str, object] = {
        "visit": None,
        "says": says,
        "run": run,
        "case_title": title_of(asked.kb, run),
        "case": _case(asked, run, state),
        "against": list(said_against(asked, [run])),
        "verdicts": [level.name for level in asked.kb.scales[VERDICT].levels if level.name != worst],
        "form": form or {},
        "problems": problems,
        **_told(asked.kb, state),
    }
    return page(request, "teach_told.html", values, 422 if problems else 200)


def _case(asked: Program, run: Run, state: State) -> ShownCase:
    own = own_case(asked, run.case)
    return shown_case(asked.kb, state.case, own_cases.photos_of(asked, own, state.case) if own else ())


def _told(kb: KnowledgeBase, state: State) -> dict[str, object]:
    marked = mark_run(kb, state)
    return {
        "told": told_run(kb, marked),
        "marked": marked,
        "title": learning.mark_in_words(kb, state.case.mark, state.case.at_sight),
        "kind": kind(state.key.finding.verdict),
        "way": way_drawn(kb, state),
        "name": kb.signs[state.case.mark.sign].name,
    }


async def answer(request: Request) -> Response:
    """What the mark is called, or what is made of it; all questions of the form at once."""
    asked, run, form = await _sent(request)
    state = played(asked, run)
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
    state = played(asked, run)
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
    state = played(asked, run)
    if _is_now(run, form) and state.asks is not None and state.asks.about == JUDGING[0]:
        keep_state(asked, run, back(asked.kb, state))
    return go_to(request, addresses.run(run.id))


async def otherwise(request: Request) -> Response:
    """Somebody sees the case otherwise than the program: kept, and nothing changes by it."""
    asked, run, form = await _sent(request)
    try:
        keep_against(asked, run, form)
    except BadInput as error:
        problems = [f"{one.what}. {one.hint}" for one in error.problems]
        return _told_page(request, run, played(asked, run), form, problems=problems)
    return go_to(request, addresses.run(run.id))


async def photo(request: Request) -> Response:
    """A photograph of the case of this run, under an address that does not lead to her visit."""
    asked, name = program(request), request.path_params["name"]
    run = asked.boats.run(request.path_params["run"])
    own = own_case(asked, run.case)
    found = own_cases.photo(asked, own, name) if own and name in played(asked, run).case.mark.photos else None
    if found is None:
        raise HTTPException(404)
    return Response(found, media_type="image/jpeg", headers={"cache-control": "private, no-cache"})


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
    Route("/teach/run/{run}/otherwise", otherwise, methods=["POST"]),
    Route("/teach/run/{run}/photos/{name}", photo),
    Route("/teach/begin", again),
    Route("/teach/run/{run}/{form}", again),
]
