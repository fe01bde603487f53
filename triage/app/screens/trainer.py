"""What is for the trainer alone, because answers stand there: cases of one's own, keys to talk about, disagreements."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses, own_cases
from triage.app.lessons import first, played
from triage.app.otherwise import proposals, said_against
from triage.app.screen import Program, fields, go_to, page, program
from triage.app.screens.classroom import code_of, learners_of, titles_of
from triage.errors import BadInput, BadSurvey, NoSuch
from triage.knowledge.model import VERDICT
from triage.log.runs import OwnCase, Run
from triage.phrases import classroom as room
from triage.phrases import teaching as says
from triage.phrases.learning import covered
from triage.phrases.words import between
from triage.teaching.cases import Case
from triage.teaching.coverage import coverage_of


@dataclass(frozen=True)
class Made:
    """A case of one's own in the list: its number, its mark, and what the program makes of it."""

    id: str
    number: int
    says: str
    key: str


@dataclass(frozen=True)
class Done:
    """A case that somebody has finished: one run of it shows the answer. ``wrong`` of ``of`` said otherwise than the
    key; ``others`` are still at it.
    """

    run: Run
    wrong: int
    of: int
    others: int


@dataclass(frozen=True)
class Row:
    """What one learner said, case by case in the order of the columns; None where they have not judged it."""

    name: str
    runs: Sequence[Run | None]


async def trainer(request: Request) -> Response:
    """The page."""
    return _page(request)


def _page(request: Request, problems: Sequence[str] = (), told: str = "") -> Response:
    asked, code = program(request), code_of(request)
    runs = asked.boats.runs(code)
    values = {
        "visit": None,
        "says": says,
        "room": room,
        "code": code,
        "made": list(_made(asked, code)),
        "choices": list(own_cases.choices(asked)),
        "learners": learners_of(runs),
        "titles": titles_of(asked.kb, runs),
        "verdicts": [level.name for level in asked.kb.scales[VERDICT].levels],
        "done": (done := sorted(_done(runs), key=lambda one: -one.wrong)),
        "rows": list(_rows(runs, [one.run.case for one in done])),
        "against": list(said_against(asked, runs)),
        "covered": list(_covered(asked, runs)) if "covered" in request.query_params else [],
        "problems": problems,
        "told": told,
        "most": own_cases.MOST_WORDS,
    }
    return page(request, "trainer.html", values, 422 if problems else 200)


def _made(asked: Program, code: str) -> Iterator[Made]:
    for number, own in enumerate(asked.boats.own_cases(code), start=1):
        yield _of(asked, own, number)


def _of(asked: Program, own: OwnCase, number: int) -> Made:
    try:
        state = first(asked, f"{own_cases.PREFIX}{own.id}")
    except (NoSuch, BadSurvey):
        return Made(own.id, number, says.OTHER_RULES, "")
    mark, boat = state.case.mark, state.case.truth.boat.name
    name, where = asked.kb.signs[mark.sign].name, asked.kb.zones[mark.zone].name
    return Made(own.id, number, says.mark_of(boat, None, name, where, mark.side), between(state.key.finding.verdict))


def _done(runs: Sequence[Run]) -> Iterator[Done]:
    """Each case once, by the first run that came to its end."""
    for case in dict.fromkeys(run.case for run in runs if run.result):
        of_it = [run for run in runs if run.case == case]
        ended = [run for run in of_it if run.result]
        wrong = sum(not run.result["right"] for run in ended)
        yield Done(ended[0], wrong, len(ended), len(of_it) - len(ended))


def _rows(runs: Sequence[Run], cases: Sequence[str]) -> Iterator[Row]:
    """Every learner's first verdict on each of these cases."""
    for one in learners_of(runs):
        ended = {run.case: run for run in reversed(one.runs) if run.result}
        yield Row(one.name, [ended.get(case) for case in cases])


def _covered(asked: Program, runs: Sequence[Run]) -> Iterator[str]:
    """What the cases of a class are about, and what none is; of a case that is no more, nothing is counted."""
    cases = list[Case]()
    for name in dict.fromkeys(run.case for run in runs):
        with suppress(NoSuch, BadSurvey):
            cases.append(first(asked, name).case)
    for one in coverage_of(asked.kb, cases):
        yield covered(asked.kb, one.kind, len(one.all), one.missing)


async def make(request: Request) -> Response:
    """A mark becomes a case."""
    form = await fields(request)
    try:
        own_cases.made(program(request), code_of(request), form)
    except BadInput as error:
        return _page(request, [f"{one.what}. {one.hint}" for one in error.problems], form.get("told", ""))
    return go_to(request, addresses.classroom(code_of(request), "trainer"))


async def take_out(request: Request) -> Response:
    """A case is taken out; what was played of it stays counted."""
    asked, gone = program(request), (await fields(request)).get("case", "")
    if asked.boats.own_case(gone).code == code_of(request):
        asked.boats.remove_own_case(gone)
    return go_to(request, addresses.classroom(code_of(request), "trainer"))


async def of_class(request: Request) -> Response:
    """What the class has said against the keys, as proposals for the rules."""
    asked, code = program(request), code_of(request)
    return _file(proposals(asked, asked.boats.runs(code)), f"proposals-{code}")


async def of_run(request: Request) -> Response:
    """What was said against the key of one run."""
    asked, run = program(request), program(request).boats.run(request.path_params["run"])
    played(asked, run)
    return _file(proposals(asked, [run]), "proposals")


def _file(text: str, name: str) -> Response:
    if not text:
        raise NoSuch(room.NOTHING_AGAINST)
    headers = {"content-disposition": f'attachment; filename="{name}.yaml"'}
    return Response(text, media_type="application/yaml", headers=headers)


ROUTES = [
    Route("/teach/class/{code}/trainer", trainer),
    Route("/teach/class/{code}/cases", make, methods=["POST"]),
    Route("/teach/class/{code}/cases/remove", take_out, methods=["POST"]),
    Route("/teach/class/{code}/proposals.yaml", of_class),
    Route("/teach/run/{run}/proposals.yaml", of_run),
]
