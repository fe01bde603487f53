"""What every screen is made with: the knowledge, the boats, the templates, and the ways to answer a request.

A screen is a module in ``screens/`` with ``ROUTES``; `triage.app.application` lists them. Its handlers are coroutines
that call plain functions, because in a browser there are no threads.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, partial
from typing import TYPE_CHECKING, Any

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from triage.app import addresses
from triage.app.way import way_of
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Boats
from triage.phrases import screens as words
from triage.resources import data_dir, template_environment

if TYPE_CHECKING:
    import jinja2

FOLDER = "screens"

MAX_FIELDS = 50
"""In one form: more than a screen has that does not say otherwise."""

MAX_PART = 64 * 1024
"""Of one field of a form that holds a file, in bytes; a story is shorter."""


FOR_LEARNER = "triage.for_learner"
"""Stands in the scope of a request by somebody who was let in to learn, and no more."""


@dataclass(frozen=True)
class Program:
    """What the screens speak for: the knowledge and the boats.

    ``class_link``: what opens the program for learners; empty where nobody else can reach it.
    """

    kb: KnowledgeBase
    boats: Boats
    class_link: str = ""


def program(request: Request) -> Program:
    """The program that a request asks."""
    found: Program = request.app.state.program
    return found


def page(request: Request, template: str, values: Mapping[str, Any], status: int = 200) -> HTMLResponse:
    """A screen. Templates know ``root`` (the way to the program's folder), ``at`` (addresses), ``words``, and whether
    it is for a ``learner``.
    """
    given = {
        "root": addresses.up(own_path(request)),
        "screen": template.removesuffix(".html"),
        "learner": FOR_LEARNER in request.scope,
        "way_of": partial(way_of, program(request)),
    }
    text = templates().get_template(template).render({**given, **values})
    return HTMLResponse(text, status, {"cache-control": "no-store"})


def own_path(request: Request) -> str:
    """The path of the request below the program's own folder, with its stroke in front."""
    path, root = str(request.scope["path"]), str(request.scope.get("root_path", ""))
    return path.removeprefix(root) if root and path.startswith(f"{root}/") else path


def go_to(request: Request, address: str) -> Response:
    """On to another screen, after something was kept; reloading that screen sends nothing again."""
    return RedirectResponse(f"{addresses.up(own_path(request))}{address}", 303)


def problem(request: Request, status: int, text: str = "", lines: tuple[str, ...] = ()) -> HTMLResponse:
    """What was not done, why, and what to do; ``text`` and ``lines`` in place of what is usually said."""
    title, usual = words.PROBLEMS.get(status, words.PROBLEMS[500])
    values = {"visit": None, "title": title, "text": text or usual, "lines": lines}
    return page(request, "problem.html", values, status)


async def fields(request: Request, most: int = MAX_FIELDS) -> dict[str, str]:
    """The words of a form of so many fields; files are left out."""
    async with request.form(max_files=0, max_fields=most, max_part_size=MAX_PART) as form:
        return {name: value for name, value in form.items() if not isinstance(value, UploadFile)}


@cache
def templates() -> jinja2.Environment:
    """The templates of the screens. Raises CannotWork when there are none."""
    environment = template_environment(FOLDER)
    environment.globals |= {
        "at": addresses,
        "words": words,
        "words_of": words.__dict__.__getitem__,
        "sheets": _files("css"),
        "scripts": _files("js"),
    }
    return environment


def _files(kind: str) -> tuple[str, ...]:
    """The style sheets or scripts of the screens: every one is on every page, so that a page can be swapped for
    another.
    """
    return tuple(sorted(file.name for file in (data_dir("templates") / FOLDER).glob(f"*.{kind}")))
