"""Regular expressions are worked out when the page is made; at a start each is only put together again."""

from __future__ import annotations

import importlib
import marshal
import types
from array import array
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any
from zipimport import zipimporter

PATTERNS = "patterns"
"""What they are called in the library."""

Worked = dict[tuple[str | bytes, int], tuple[Any, ...]]
"""By pattern and flags, what the matcher is made of; its steps are kept as bytes."""


def take_patterns(library: str) -> None:
    """Have those that the library brings put together; any other is worked out as ever."""
    _bring(marshal.loads(zipimporter(library).get_data(f"{library}/{PATTERNS}")))


@contextmanager
def patterns_noted(into: Worked) -> Iterator[None]:
    """What those that are compiled meanwhile are made of."""
    compiler: Any = importlib.import_module("re._compiler")
    own, matcher = compiler.compile, compiler._sre

    def compile_(pattern: Any, flags: int = 0) -> Any:
        def note(*made: Any) -> Any:
            if isinstance(pattern, str | bytes):
                said, all_flags, steps, *rest = made
                into[pattern, int(flags)] = (said, int(all_flags), array("I", steps).tobytes(), *rest)
            return matcher.compile(*made)

        compiler._sre = types.SimpleNamespace(**{**vars(matcher), "compile": note})
        try:
            return own(pattern, flags)
        finally:
            compiler._sre = matcher

    compiler.compile = compile_
    try:
        yield
    finally:
        compiler.compile = own


def _bring(worked: Mapping[tuple[str | bytes, int], tuple[Any, ...]]) -> None:
    compiler: Any = importlib.import_module("re._compiler")
    own, put_together = compiler.compile, compiler._sre.compile

    def compile_(pattern: Any, flags: int = 0) -> Any:
        made = worked.get((pattern, int(flags))) if isinstance(pattern, str | bytes) else None
        if made is None:
            return own(pattern, flags)
        said, all_flags, steps, *rest = made
        return put_together(said, all_flags, array("I", steps).tolist(), *rest)

    compiler.compile = compile_
