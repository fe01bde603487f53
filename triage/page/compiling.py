"""Python sources and Jinja templates → compiled ones in a zip, with the methods that dataclasses write themselves.

It runs in the very Python that is to read them, which is the page's own.
"""

from __future__ import annotations

import ast
import importlib
import importlib.util
import marshal
import os
import re
import sys
import tempfile
import zipfile
from collections.abc import Callable, Iterator
from itertools import groupby
from types import CodeType
from typing import Any, NoReturn

_DAY = (1980, 1, 1, 0, 0, 0)  # the same bytes whenever they are made
_UNCHECKED = b"\1\0\0\0" + bytes(8)
_NOWHERE = 0b1_1111_000  # an entry of the table of lines for up to eight steps that come from none
_ON_A_LINE = 0b1_1101_000  # one for up to eight that come from a line, so many after that of the last entry
_AT_ONCE = 8
_OURS = "triage/"
_NO_WORDS = "."
"""Stands for what is only read by people: of a class that says nothing, dataclasses would make something up."""
_ONLY_TYPES = ("pydantic_core/core_schema.py",)
"""Modules whose classes tell what mappings hold, which only a type checker asks."""

_ASKED_FOR_TYPES = ("pyodide/", "_pyodide/")
"""Libraries that look up what types their functions were written with."""

TEMPLATES = "templates/"
"""What templates are called in the zip of the sources; in the other they are modules, and lie in `COMPILED`."""

COMPILED = "compiled/"

_ENVIRONMENTS = (
    ("screens", True, True, r".*\.html"),
    ("drawings", True, False, r".*\.svg"),
    ("", True, True, r"\w+\.(html|svg|css)|drawings/drawings\.css"),
    ("", False, True, r"\w+\.txt"),
)
"""How templates are asked for, as `triage.resources.template_environment` has it, and which of them."""


def make(target: str, sources: str, core: str = "") -> None:
    """Write a zip with all that is in another: Python compiled, everything else as it is.

    With ``core``, what is compiled for the machine, our own modules are imported once for what each start would make
    anew: the methods of their classes, and regular expressions.
    """
    with zipfile.ZipFile(sources) as found, zipfile.ZipFile(target, "w") as written:
        for name in sorted(found.namelist()):
            if name.startswith(TEMPLATES):
                continue
            data = found.read(name)
            if name.endswith(".py"):
                name, data = f"{name}c", compiled(name, data)
            written.writestr(zipfile.ZipInfo(name, _DAY), data)
        for name, source in _templates(sources, found):
            written.writestr(zipfile.ZipInfo(f"{name}c", _DAY), compiled(name, source))
    if core:
        _add_worked_out(target, core)


def compiled(name: str, source: bytes) -> bytes:
    """A module as Python keeps it, without what only readers of the source need."""
    tree = _without_docstrings(ast.parse(source))
    if not name.startswith(_ASKED_FOR_TYPES):
        tree = _without_types(tree, fields=not name.startswith(_ONLY_TYPES))
    code = compile(tree, f"/{name}", "exec", dont_inherit=True, optimize=0)
    kept = _with_lines(code) if name.startswith(_OURS) else _without_lines(code)
    return importlib.util.MAGIC_NUMBER + _UNCHECKED + marshal.dumps(kept)


def _templates(sources: str, found: zipfile.ZipFile) -> Iterator[tuple[str, bytes]]:
    """The templates as modules, made by the very Jinja that is to run them."""
    names = [name for name in found.namelist() if name.startswith(TEMPLATES)]
    if not names:
        return
    sys.path.append(sources)
    from jinja2 import ModuleLoader

    from triage.resources import compiled_folder, template_environment

    with tempfile.TemporaryDirectory() as there:
        found.extractall(there, names)
        os.environ["TRIAGE_TEMPLATES_DIR"] = f"{there}/{TEMPLATES}"
        for folder, autoescape, keeps_newline, wanted in _ENVIRONMENTS:
            environment = template_environment(folder, autoescape=autoescape, keep_trailing_newline=keeps_newline)
            environment.filters = _Filters(environment.filters)
            own = f"{COMPILED}{compiled_folder(folder, autoescape=autoescape)}/"
            for name in environment.list_templates():
                if not re.fullmatch(wanted, name):
                    continue
                with open(f"{there}/{TEMPLATES}{folder}/{name}", encoding="utf-8") as template:
                    source = environment.compile(template.read(), name, name, raw=True, defer_init=True)
                yield own + ModuleLoader.get_module_filename(name), source.encode("utf-8")


def _add_worked_out(library: str, core: str) -> None:
    """What the dataclasses of all that the page imports at its start write for themselves, and its patterns."""
    sys.path.insert(0, library)
    from triage.page import patterns, starting

    starting.prepare(core)
    methods: dict[bytes, CodeType] = {}
    worked: patterns.Worked = {}
    with starting.methods_noted(methods), patterns.patterns_noted(worked):
        importlib.import_module("triage.page.warming")
    bare = {key: _without_lines(methods[key]) for key in sorted(methods)}
    in_order = sorted(worked.items(), key=lambda one: repr(one[0]))
    with zipfile.ZipFile(library, "a") as written:
        written.writestr(zipfile.ZipInfo(starting.METHODS, _DAY), marshal.dumps(bare))
        written.writestr(zipfile.ZipInfo(patterns.PATTERNS, _DAY), marshal.dumps(dict(in_order)))


class _Filters(dict[str, Callable[..., Any]]):
    """Those of Jinja, and for any other name one that is there when the template runs."""

    def get(self, name: str, _: Any = None) -> Callable[..., Any]:
        return super().get(name, _not_yet)


def _not_yet(*_: object, **__: object) -> NoReturn:
    raise NotImplementedError  # so Jinja works out nothing with it beforehand


def _with_lines(code: CodeType) -> CodeType:
    """Which line a step came from, without the columns in it, which nobody can be shown without the source."""
    parts = tuple(_with_lines(one) if isinstance(one, CodeType) else one for one in code.co_consts)
    table, last = bytearray(), code.co_firstlineno
    for start, end, line in _runs(code):
        steps = (end - start) // 2
        while steps:
            at_once = min(steps, _AT_ONCE)
            if line is None:
                table.append(_NOWHERE + at_once - 1)
            else:
                table.append(_ON_A_LINE + at_once - 1)
                table += _signed(line - last)
                last = line
            steps -= at_once
    return code.replace(co_consts=parts, co_linetable=bytes(table))


def _runs(code: CodeType) -> Iterator[tuple[int, int, int | None]]:
    """From which step to which one all come from one line."""
    for line, run in groupby(code.co_lines(), key=lambda one: one[2]):
        first, *others = run
        yield first[0], (others or [first])[-1][1], line


def _signed(number: int) -> bytes:
    """A number as the table of lines writes it: six bits to a byte, the lowest first, of which the last is the sign."""
    rest, told = (abs(number) << 1) | (number < 0), bytearray()
    while rest > 0b11_1111:
        told.append(0b100_0000 | rest & 0b11_1111)
        rest >>= 6
    return bytes((*told, rest))


def _without_lines(code: CodeType) -> CodeType:
    """Which line a step came from: a quarter of it all, and read only by who mends the library."""
    parts = tuple(_without_lines(one) if isinstance(one, CodeType) else one for one in code.co_consts)
    whole, rest = divmod(len(code.co_code) // 2, _AT_ONCE)
    last = bytes([_NOWHERE + rest - 1]) if rest else b""
    return code.replace(co_consts=parts, co_linetable=bytes([_NOWHERE + _AT_ONCE - 1]) * whole + last)


def _without_docstrings(tree: ast.Module) -> ast.Module:
    for node in ast.walk(tree):
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)) and node.body:
            first = node.body[0]
            if (
                isinstance(first, ast.Expr)
                and isinstance(first.value, ast.Constant)
                and isinstance(first.value.value, str)
            ):
                first.value.value = _NO_WORDS
            elif isinstance(node, ast.ClassDef) and any("dataclass" in ast.unparse(one) for one in node.decorator_list):
                node.body.insert(0, ast.copy_location(ast.Expr(ast.Constant(_NO_WORDS)), first))
    return ast.fix_missing_locations(tree)


def _without_types(tree: ast.Module, *, fields: bool) -> ast.Module:
    """Functions as if they were written without types; those of classes make their ``fields``, and stay for these."""
    for node in ast.walk(tree):
        if isinstance(node, ast.arg):
            node.annotation = None
        elif isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            node.returns = None
        elif isinstance(node, ast.ClassDef) and not fields:
            node.body = [one for one in node.body if not isinstance(one, ast.AnnAssign)] or [ast.Pass()]
    return ast.fix_missing_locations(tree)
