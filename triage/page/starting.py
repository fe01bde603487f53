"""Python is made ready in a browser, before anything of the program is imported.

What Python does anew at each start, and comes to the same, was done when the page was made: dataclasses write the
source of their methods and have it compiled, and an importer reads a module once to say where it lies and once more to
run it.
"""

from __future__ import annotations

import dataclasses
import gc
import marshal
import sys
import types
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from hashlib import blake2b
from importlib.machinery import ModuleSpec
from importlib.util import spec_from_file_location
from types import CodeType
from typing import Any
from zipimport import zipimporter

METHODS = "methods"
"""What the compiled methods are called in the library."""

CORE = "pydantic_core._pydantic_core"
"""The one module that is compiled for the machine, and lies beside the library."""

_THREADS = ("anyio", "anyio.abc", "anyio.to_thread")
"""Starlette's for waiting and for threads; in a browser is neither."""

_SELDOM = 100_000
"""Objects that are made between two looks for those that nobody needs."""


class Library(zipimporter):
    """Modules in a zip, each read once."""

    def get_filename(self, fullname: str) -> str:
        """Where a module lies, without reading it."""
        end = "/__init__.pyc" if self.is_package(fullname) else ".pyc"
        return f"{self.archive}/{self.prefix}{fullname.rpartition('.')[2]}{end}"


class _Core:
    """Finds the part that is compiled."""

    def __init__(self, file: str) -> None:
        self._file = file

    def find_spec(self, name: str, *_: object) -> ModuleSpec | None:
        return spec_from_file_location(name, self._file) if name == CORE else None


def prepare(core: str) -> None:
    """Have the program imported, with the compiled module in this file."""
    for name in _THREADS:
        sys.modules[name] = types.ModuleType(name)
    sys.meta_path.insert(0, _Core(core))
    sys.path_hooks.insert(0, Library)
    sys.path_importer_cache.clear()
    gc.set_threshold(_SELDOM)


def take_methods(library: str) -> None:
    """Run the methods of dataclasses as this library has them; what it does not have is compiled as ever."""
    _run_methods_by(_Made(marshal.loads(zipimporter(library).get_data(f"{library}/{METHODS}"))))


@contextmanager
def methods_noted(into: dict[bytes, CodeType]) -> Iterator[None]:
    """The methods of the dataclasses that are made meanwhile, compiled."""

    def run(source: str, known: dict[str, Any], made: dict[str, Any]) -> None:
        code = into[_key(source)] = compile(source, "<methods>", "exec", dont_inherit=True)
        exec(code, known, made)

    _run_methods_by(run)
    try:
        yield
    finally:
        del vars(dataclasses)["exec"]


class _Made:
    """Runs the source of methods as it was compiled before; what was not is compiled now."""

    def __init__(self, methods: Mapping[bytes, CodeType]) -> None:
        self._methods = methods

    def __call__(self, source: str, known: dict[str, Any], made: dict[str, Any]) -> None:
        exec(self._methods.get(_key(source), source), known, made)


def _run_methods_by(run: Any) -> None:
    vars(dataclasses)["exec"] = run


def _key(source: str) -> bytes:
    return blake2b(source.encode(), digest_size=16).digest()
