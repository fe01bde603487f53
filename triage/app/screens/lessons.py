"""The six lessons with all that is printed and projected for them: handouts, answers, notes, cards, a quiz."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app.screen import page, program
from triage.errors import NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.teaching import Lesson
from triage.phrases import lessons as printed
from triage.phrases import teaching as says
from triage.views.lessons import Reader, render_confusions, render_lesson, render_quiz, render_sheet

PROJECTED = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"
"""What is printed or projected is one page with its style in it, as it is written to a file."""

READERS: Mapping[str, Reader] = {"handout": "learner", "answers": "answers", "notes": "trainer"}

_LESSON = re.compile(r"lesson-([1-9][0-9]?)-(handout|answers|notes|large)")
_QUIZ = re.compile(r"quiz-([0-9]{1,6})(-large)?")

ALONE: Mapping[str, Callable[[KnowledgeBase], str]] = {
    "cards": render_confusions,
    "cards-large": lambda kb: render_confusions(kb, projector=True),
    "sheet": render_sheet,
}
"""What is neither of one lesson nor drawn by a number."""


async def lessons(request: Request) -> Response:
    """What there is to teach with."""
    values = {
        "visit": None,
        "says": says,
        "kinds": {name: printed.KINDS[reader] for name, reader in READERS.items()},
        "lessons": program(request).kb.teaching.lessons.values(),
        "seed": _seed(request.query_params.get("seed", "")),
        "printed": printed,
    }
    return page(request, "lessons.html", values)


async def show(request: Request) -> Response:
    """One page to print, or to project."""
    text = _page(program(request).kb, request.path_params["name"])
    return Response(text, media_type="text/html", headers={"content-security-policy": PROJECTED})


def _page(kb: KnowledgeBase, name: str) -> str:
    """The page of this name. Raises NoSuch."""
    if name in ALONE and kb.teaching.lessons:
        return ALONE[name](kb)
    if found := _QUIZ.fullmatch(name):
        return render_quiz(kb, int(found[1]), projector=bool(found[2]))
    if found := _LESSON.fullmatch(name):
        lesson, how = _lesson(kb, int(found[1])), found[2]
        return render_lesson(kb, lesson, READERS.get(how, "learner"), projector=how not in READERS)
    raise NoSuch(says.NO_SUCH_PAGE)


def _lesson(kb: KnowledgeBase, number: int) -> Lesson:
    for lesson in kb.teaching.lessons.values():
        if lesson.number == number:
            return lesson
    raise NoSuch(printed.no_such(number, len(kb.teaching.lessons)))


def _seed(said: str) -> int:
    return int(said) if re.fullmatch(r"[0-9]{1,6}", said) else 1


ROUTES = [
    Route("/teach/lessons", lessons),
    Route("/teach/{name}.html", show),
]
