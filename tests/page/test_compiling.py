"""The page runs its templates compiled, without their files."""

from __future__ import annotations

import inspect
import marshal
import sys
import textwrap
import zipfile
from collections.abc import Iterator
from pathlib import Path
from types import CodeType, ModuleType
from typing import Any

import pytest

from triage.page.compiling import TEMPLATES, compiled, make
from triage.resources import template_environment

FILES = {
    "drawings/line.svg": "<path d='M{{ 1.25|n }} {{ x|n }}'/>\n",
    "screens/base.html": "<h1>{% block title %}{% endblock %}</h1>\n",
    "screens/one.html": '{% extends "base.html" %}{% block title %}{{ title }}{% endblock %}',
    "short.txt": "{{ title }}\n",
}


def test_compiled_templates_need_no_files_and_escape_where_they_are_to(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sources, library = tmp_path / "sources.zip", tmp_path / "library.zip"
    with zipfile.ZipFile(sources, "w") as archive:
        for name, text in FILES.items():
            archive.writestr(f"{TEMPLATES}{name}", text)
    monkeypatch.setattr(sys, "path", [*sys.path])
    monkeypatch.setenv("TRIAGE_TEMPLATES_DIR", "")
    make(str(library), str(sources))
    monkeypatch.setenv("TRIAGE_TEMPLATES_DIR", str(tmp_path))
    monkeypatch.setenv("TRIAGE_TEMPLATES_COMPILED", f"{library}/compiled")

    drawings = template_environment("drawings", keep_trailing_newline=False)
    drawings.filters["n"] = "{:.0f}".format
    screen = template_environment("screens").get_template("one.html")
    plain = template_environment(autoescape=False).get_template("short.txt")

    assert drawings.get_template("line.svg").render(x=2.0) == "<path d='M1 2'/>"
    assert screen.render(title="<b>") == "<h1>&lt;b&gt;</h1>\n"
    assert plain.render(title="<b>") == "<b>\n"


HEADER = 16
"""Bytes before the code of a module as Python keeps it."""

TYPED = """
from dataclasses import dataclass

@dataclass
class Boat:
    name: str

    def hail(self, twice: bool = False) -> str:
        return self.name * (2 if twice else 1)
"""


def whole(name: str, source: str) -> CodeType:
    """A module as the page has it."""
    code = marshal.loads(compiled(name, source.encode())[HEADER:])
    assert isinstance(code, CodeType)
    return code


def lines(code: CodeType) -> Iterator[tuple[str, list[int | None]]]:
    """From which line each step of each function comes."""
    yield code.co_qualname, [place[0] for place in code.co_positions()]
    for part in code.co_consts:
        if isinstance(part, CodeType):
            yield from lines(part)


@pytest.mark.parametrize("module", [inspect, textwrap, zipfile])
def test_in_our_modules_each_step_knows_its_line_and_no_column(module: ModuleType) -> None:
    source = inspect.getsource(module)
    own = whole("triage/one.py", source)

    assert list(lines(own)) == list(lines(compile(source, "one", "exec", dont_inherit=True)))
    assert {place[2] for place in own.co_positions()} == {None}
    assert {place[0] for place in whole("other/one.py", source).co_positions()} == {None}


def test_functions_lose_their_types_and_classes_keep_their_fields() -> None:
    there: dict[str, Any] = {"__name__": __name__}
    exec(whole("triage/one.py", TYPED), there)

    assert there["Boat"]("Wren").hail(twice=True) == "WrenWren"
    assert there["Boat"].__annotations__ == {"name": str}
    assert there["Boat"].hail.__annotations__ == {}
