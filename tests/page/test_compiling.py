"""The page runs its templates compiled, without their files."""

from __future__ import annotations

import sys
import zipfile
from pathlib import Path

import pytest

from triage.page.compiling import TEMPLATES, make
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
