"""What the page leaves out, nobody misses there: in the page's own Python every import of ours is made, however late
it stands, and every screen is opened.
"""

from __future__ import annotations

import ast
import base64
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.phone import Phone
from tests.browser.served import WebSpace
from tests.browser.tour import Got, Tour, of_a_boat, of_a_class, routes
from tests.conftest import ROOT

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("page")]

FOUND = 200

DONE_WITHOUT = {
    "PIL": "a canvas shrinks photographs (page.js)",
    "weasyprint": "a browser prints",
    "segno": "nobody scans a code for a page that is in their own hand",
    "MissingExtra": "the figures of a class are then plain counts, and the screen says so",
    "scipy": "the same",
    "statsmodels": "the same",
    "krippendorff": "the same",
    "numpy": "the same",
    "networkx": "what it finds was found when the page was made (knowledge/compiled/orders)",
    "platformdirs": "there is no folder to keep anything in",
    "msvcrt": "only one system has it",
}
"""Libraries that are not in the page, and what stands in for each."""

IN_THE_PAGE = """
(statements) => {
  const { python } = program;
  python.globals.set("statements", JSON.stringify(statements));
  return JSON.parse(python.runPython(`
import json

def fails(statement):
    try:
        exec(statement, {})
    except Exception as error:
        return getattr(error, "name", "") or type(error).__name__
    return ""

json.dumps({statement: failed for statement in json.loads(statements) if (failed := fails(statement))})
`));
}
"""


def test_whatever_our_modules_import_however_late_is_in_the_page(
    context: BrowserContext, space: WebSpace, built: Path
) -> None:
    statements = sorted({said for name in carried(built) for said in imports(ROOT / name)})
    phone = Phone(context.new_page())
    phone.opens(space.address)
    phone.is_ready()

    failed = phone.page.workers[0].evaluate(IN_THE_PAGE, statements)

    assert {said: name for said, name in failed.items() if name.partition(".")[0] not in DONE_WITHOUT} == {}
    assert len(statements) > len(carried(built))


ASK = """
async ([method, address, kind, body]) => {
  const sent = body && Uint8Array.from(atob(body), (one) => one.charCodeAt(0));
  const got = await window.page.ask({ method, address, kind, body: sent });
  return [got.address, got.status, new TextDecoder().decode(got.answer)];
}
"""


def test_every_screen_is_there(context: BrowserContext, space: WebSpace) -> None:
    phone = Phone(context.new_page())
    phone.opens(space.address)
    phone.is_ready()

    def ask(method: str, address: str, kind: str, body: bytes) -> Got:
        return Got(*phone.page.evaluate(ASK, [method, address, kind, base64.b64encode(body).decode()]))

    tour = Tour(ask)
    of_a_boat(tour)
    of_a_class(tour)

    assert {address: status for address, status in tour.answers.items() if status != FOUND} == {}
    assert set(routes()) - tour.routes == set()
    assert phone.said == []


def carried(built: Path) -> list[str]:
    """The sources of those of our modules that the page has."""
    with zipfile.ZipFile(built / "library.zip") as library:
        return [
            name.removesuffix("c")
            for name in library.namelist()
            if name.startswith("triage/") and name.endswith(".pyc")
        ]


def imports(source: Path) -> Iterator[str]:
    """Every statement of a module that imports something, but for those that only a type checker reads."""
    found: list[ast.AST] = [ast.parse(source.read_text(encoding="utf-8"))]
    while found:
        node = found.pop()
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            continue
        if isinstance(node, ast.Import | ast.ImportFrom):
            yield ast.unparse(node)
        found += ast.iter_child_nodes(node)
