"""Python sources → compiled ones in a zip. It runs in the very Python that is to read them, which is the page's own."""

from __future__ import annotations

import ast
import importlib.util
import marshal
import zipfile
from types import CodeType

_DAY = (1980, 1, 1, 0, 0, 0)  # the same bytes whenever they are made
_UNCHECKED = b"\1\0\0\0" + bytes(8)
_NOWHERE = 0b1_1111_000  # an entry of the table of lines for up to eight steps that come from none
_OURS = "triage/"


def compile_all(sources: str, target: str) -> None:
    """Write a zip with all that is in another: Python compiled, everything else as it is."""
    with zipfile.ZipFile(sources) as found, zipfile.ZipFile(target, "w") as written:
        for name in sorted(found.namelist()):
            data = found.read(name)
            if name.endswith(".py"):
                name, data = f"{name}c", compiled(name, data)
            written.writestr(zipfile.ZipInfo(name, _DAY), data)


def compiled(name: str, source: bytes) -> bytes:
    """A module as Python keeps it, without what only readers of the source need."""
    code = compile(_without_docstrings(source), f"/{name}", "exec", dont_inherit=True, optimize=0)
    kept = code if name.startswith(_OURS) else _without_lines(code)
    return importlib.util.MAGIC_NUMBER + _UNCHECKED + marshal.dumps(kept)


def _without_lines(code: CodeType) -> CodeType:
    """Which line a step came from: a quarter of it all, and read only by who mends the library."""
    parts = tuple(_without_lines(one) if isinstance(one, CodeType) else one for one in code.co_consts)
    steps = len(code.co_code) // 2
    rest = bytes([_NOWHERE + steps % 8 - 1]) if steps % 8 else b""
    return code.replace(co_consts=parts, co_linetable=bytes([_NOWHERE + 7]) * (steps // 8) + rest)


def _without_docstrings(source: bytes) -> ast.Module:
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)) and node.body:
            first = node.body[0]
            if (
                isinstance(first, ast.Expr)
                and isinstance(first.value, ast.Constant)
                and isinstance(first.value.value, str)
            ):
                first.value.value = ""
    return tree
