"""The house rules that a program can check: which room may know which, how light the doors are, what is never said."""

from __future__ import annotations

import ast
import importlib
import pkgutil
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pytest
from click.testing import CliRunner
from importlinter.cli import lint_imports_command
from pydantic import BaseModel

import triage
from tests.conftest import ROOT
from triage import errors
from triage.knowledge import forms

CODE = {
    path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8")
    for path in sorted((ROOT / "triage").rglob("*.py"))
}
TREES = {name: ast.parse(code) for name, code in CODE.items()}
HEAVY = ("experta", "jinja2", "networkx", "pydantic", "yaml", "z3")
MOST_LINES = 250


def test_the_rooms_know_only_the_rooms_below_them() -> None:
    result = CliRunner().invoke(
        lint_imports_command, ["--config", str(ROOT / "pyproject.toml"), "--no-cache", "--no-logo"]
    )

    assert 0 == result.exit_code, result.output


def test_every_room_has_its_place_in_the_layers() -> None:
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"][
        "contracts"
    ]
    placed = {name for layer in contracts[0]["layers"] for name in layer.split(" : ")}
    rooms = {f"triage.{found.name}" for found in pkgutil.iter_modules(triage.__path__)} - {"triage.__main__"}

    assert rooms == placed


def loaded_by(code: str) -> set[str]:
    """Those of the heavy libraries that a fresh Python has loaded after this code."""
    shown = f"import sys\n{code}\nprint(*sorted(set(sys.modules) & set({HEAVY!r})))"
    done = subprocess.run([sys.executable, "-c", shown], cwd=ROOT, capture_output=True, text=True, check=True)
    return set(done.stdout.splitlines()[-1].split())


@pytest.mark.parametrize(
    "code",
    [
        "import triage",
        "import triage.cli",
        "from click.testing import CliRunner as R; from triage.cli import main; R().invoke(main, ['--help'])",
        "from click.testing import CliRunner as R; from triage.cli import main; R().invoke(main, ['assess', '--help'])",
    ],
)
def test_the_door_opens_without_the_heavy_libraries(code: str) -> None:
    assert set() == loaded_by(code)


ASSESSING = """
from contextlib import redirect_stdout, suppress
import io
from triage.cli import main
with redirect_stdout(io.StringIO()), suppress(SystemExit):
    main(['assess', 'examples/club-boat.yaml'])
"""


def test_assessing_with_rules_remembered_needs_no_solver_and_walks_no_graph(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(tmp_path))

    reading, remembering = loaded_by(ASSESSING), loaded_by(ASSESSING)

    assert {"experta", "jinja2", "networkx", "pydantic", "yaml"} == reading
    assert {"experta", "jinja2", "pydantic", "yaml"} == remembering


def test_assessing_seldom_looks_for_garbage() -> None:
    shown = f"{ASSESSING}\nimport gc; print(sum(each['collections'] for each in gc.get_stats()))"
    done = subprocess.run([sys.executable, "-c", shown], cwd=ROOT, capture_output=True, text=True, check=True)

    assert int(done.stdout) < 100  # some 30 while Python and the command line start; nearly 200 without our doing


def test_the_check_for_heavy_libraries_would_notice_them() -> None:
    assert {"pydantic", "yaml"} <= loaded_by("import triage.survey.read")


def test_the_public_names_are_sorted_complete_and_there() -> None:
    tree = ast.parse((ROOT / "triage" / "__init__.py").read_text(encoding="utf-8"))
    (typed,) = (node for node in tree.body if isinstance(node, ast.If))
    declared = {name.name for node in typed.body if isinstance(node, ast.ImportFrom) for name in node.names}

    assert sorted(triage.__all__) == triage.__all__
    assert declared == set(triage.__all__)
    for name in triage.__all__:
        assert getattr(triage, name).__name__ == name


def test_a_name_that_is_not_public_is_not_there() -> None:
    with pytest.raises(AttributeError, match="has no attribute 'nothing_of_the_kind'"):
        _ = triage.nothing_of_the_kind


def test_no_module_is_longer_than_a_person_can_hold() -> None:
    assert [] == [name for name, code in CODE.items() if len(code.splitlines()) > MOST_LINES]


def test_every_module_says_what_it_is_for() -> None:
    assert [] == [name for name, tree in TREES.items() if not ast.get_docstring(tree)]


def raised_here() -> set[str]:
    """Every exception class that the library defines for others."""
    found = set()
    for module in pkgutil.walk_packages(triage.__path__, "triage."):
        if not module.name.startswith(("triage.__main__", "triage.cli")):
            for name, thing in vars(importlib.import_module(module.name)).items():
                if isinstance(thing, type) and issubclass(thing, Exception) and thing.__module__ == module.name:
                    found.add(name)
    return {name for name in found if not name.startswith("_")}


def test_every_error_stands_in_the_tree_and_the_tree_holds_no_other() -> None:
    drawn = set(re.findall(r"^    [│├└─ ]*([A-Z]\w+)", str(errors.__doc__), re.MULTILINE))

    assert raised_here() | {"ValueError"} == drawn


FORMS: list[type[BaseModel]] = [
    thing
    for room in pkgutil.iter_modules(forms.__path__, f"{forms.__name__}.")
    for thing in vars(importlib.import_module(room.name)).values()
    if isinstance(thing, type) and thing.__module__ == room.name
]
README = (ROOT / "rules" / "README.md").read_text(encoding="utf-8")


def test_every_key_of_a_rules_file_is_documented() -> None:
    keys = {(form.__name__, field.alias or name) for form in FORMS for name, field in form.model_fields.items()}

    assert len(keys) > len(FORMS)
    assert set() == {(form, key) for form, key in keys if not re.search(rf"\b{key}:|`{key}\b", README)}


def test_every_word_a_key_may_have_is_documented() -> None:
    words = {
        (form.__name__, word)
        for form in FORMS
        for field in form.model_fields.values()
        for kind in (field.annotation, *get_args(field.annotation))
        for word in get_args(kind)
        if isinstance(word, str)
    }

    assert words
    assert set() == {(form, word) for form, word in words if not re.search(rf"\b{word}\b", README)}


NEVER = re.compile(r"(?<!')(?<!'wasm-)(?<!\|)(?<!\| )\b(un)?safe(ly|r|st)?\b(?!-area-inset)", re.IGNORECASE)
"""What browsers ('unsafe-inline', safe-area-inset-top) and templates (text | safe) are told is not said to anybody."""


ASKED = "rules/words/listening.yaml"
"""What people say and ask: "is it safe?" is to be understood, and nothing of the file is ever said."""


def texts() -> Iterator[tuple[str, str]]:
    """Everything somebody may read: the rules, the templates, and every text in the code."""
    for folder, ending in (("rules", "*.yaml"), ("rules", "*.md"), ("reports/templates", "*"), ("examples", "*")):
        for file in sorted(path for path in (ROOT / folder).rglob(ending) if path.is_file() and path.suffix != ".png"):
            yield file.relative_to(ROOT).as_posix(), file.read_text(encoding="utf-8")
    for name, tree in TREES.items():
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield f"{name}:{node.lineno}", node.value


def test_the_word_that_promises_too_much_is_never_said() -> None:
    said = [(where, found[0]) for where, text in texts() if where != ASKED for found in NEVER.finditer(text)]

    assert [] == said
    assert NEVER.search("She is safe.")
