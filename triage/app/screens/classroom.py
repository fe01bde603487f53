"""What a trainer sees of a class: who did which case, and what the class made of them.

Neither answers nor who was right stand here, so that it may be shown to all; both are on the trainer's own page.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from markupsafe import Markup
from pydantic import TypeAdapter
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.lessons import title_of
from triage.app.screen import fields, go_to, page, program
from triage.errors import BadInput, MissingExtra, NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.log.runs import Run
from triage.phrases import classroom as room
from triage.phrases import marking
from triage.phrases import teaching as says
from triage.teaching.classes import Class, Result, class_code, class_text
from triage.teaching.counts import counts_of
from triage.views import marked_class as views

if TYPE_CHECKING:
    from triage.teaching.marking import MarkedClass

RESULT = TypeAdapter(Result)

STATISTICS = "krippendorff"
"""The one of the libraries of the extra by which it is told to be there."""


@dataclass(frozen=True)
class Learner:
    """A nickname, and its runs."""

    name: str
    runs: Sequence[Run]


async def find(request: Request) -> Response:
    """To the class of the code that was typed."""
    return go_to(request, addresses.classroom(_code(request.query_params.get("code", ""))))


async def classroom(request: Request) -> Response:
    """The class as it is now."""
    asked, code = program(request), code_of(request)
    runs = asked.boats.runs(code)
    done = _class(code, runs)
    link = f"{asked.class_link}&{urlencode({'code': code})}" if asked.class_link else ""
    full = "figures" in request.query_params
    figures, sure = _figures(asked.kb, done, runs, full=full)
    values = {
        "visit": None,
        "says": says,
        "room": room,
        "code": code,
        "link": link,
        "scan": _to_scan(link) if link else "",
        "learners": learners_of(runs),
        "finished": len(done.results),
        "begun": len(runs),
        "titles": titles_of(asked.kb, runs),
        "installed": find_spec(STATISTICS) is not None,
        "figures": figures,
        "sure": sure,
        "full": full,
    }
    return page(request, "class.html", values)


async def file(request: Request) -> Response:
    """The results as the file that the terminal reads."""
    code = code_of(request)
    done = _class(code, program(request).boats.runs(code))
    headers = {"content-disposition": f'attachment; filename="class-{code}.json"'}
    return Response(class_text(done), media_type="application/json", headers=headers)


async def remove(request: Request) -> Response:
    """All of a class is taken out, once that is said twice."""
    code = code_of(request)
    if (await fields(request)).get("sure") == "yes":
        boats = program(request).boats
        boats.remove_runs(code)
        for case in boats.own_cases(code):
            boats.remove_own_case(case.id)
    return go_to(request, addresses.classroom(code))


def code_of(request: Request) -> str:
    """The class of an address. Raises NoSuch for what is no code."""
    return _code(request.path_params["code"])


def _code(said: str) -> str:
    try:
        return class_code(said.strip().upper())
    except BadInput as error:
        raise NoSuch(" ".join(f"{one.what}. {one.hint}" for one in error.problems)) from None


def learners_of(runs: Sequence[Run]) -> Sequence[Learner]:
    """Each nickname with its runs, in the order in which they came: nobody is first."""
    names = dict.fromkeys(run.name for run in runs)
    return [Learner(name, [run for run in runs if run.name == name]) for name in names]


def titles_of(kb: KnowledgeBase, runs: Sequence[Run]) -> Mapping[str, str]:
    """What the case of each run is called, by the id of the run."""
    return {run.id: title_of(kb, run) for run in runs}


def _class(code: str, runs: Sequence[Run]) -> Class:
    return Class(code, tuple(RESULT.validate_python(dict(run.result)) for run in runs if run.result))


def _to_scan(link: str) -> Markup:
    """The link as a code to scan, light behind it in the dark too."""
    import segno

    return Markup(segno.make(link, micro=False).svg_inline(omitsize=True, border=2, light="#fff"))


def _figures(kb: KnowledgeBase, done: Class, runs: Sequence[Run], *, full: bool) -> tuple[Sequence[str], Markup]:
    """The class in plain counts, or, where that is asked, with how sure they are, and drawn: to fetch the statistics
    takes seconds, in which no learner is answered.
    """
    if not done.results:
        return [], Markup()
    counted = list(views.counted_lines(counts_of(kb, done)))
    if not full:
        return counted if find_spec(STATISTICS) else [*counted, room.INSTALL], Markup()
    try:
        from triage.teaching.marking import marked_class
        from triage.teaching.reliability import reliability_drawn

        marked = marked_class(kb, done)
        return list(_lines(marked, {run.case: title_of(kb, run) for run in runs})), reliability_drawn(marked)
    except MissingExtra:
        return [*counted, room.INSTALL], Markup()


def _lines(marked: MarkedClass, titles: Mapping[str, str]) -> Iterator[str]:
    yield from views.verdict_lines(marked)
    yield from views.agreement_lines(marked)
    yield from views.calibration_lines(marked)
    yield from views.case_lines(marked, lambda case: titles.get(case, case))
    yield from views.change_lines(marked)
    yield marking.AGAIN


ROUTES = [
    Route("/teach/class", find),
    Route("/teach/class/{code}/", classroom),
    Route("/teach/class/{code}/results.json", file),
    Route("/teach/class/{code}/remove", remove, methods=["POST"]),
]
