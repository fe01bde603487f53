"""What the page's Python need not do again at each start."""

from __future__ import annotations

import dataclasses
import importlib.util
import marshal
import sys
import zipfile
import zipimport
from collections.abc import Iterator
from pathlib import Path
from types import CodeType

import pytest

from triage.page.starting import METHODS, Library, methods_noted, take_methods


@pytest.fixture
def library(tmp_path: Path) -> Iterator[Path]:
    """A place for one; what is taken from it is given back."""
    yield tmp_path / "library.zip"
    vars(dataclasses).pop("exec", None)


def spot(name: str) -> type:
    return dataclasses.make_dataclass(name, [(f"of_{name}", int)], frozen=True)


def test_methods_that_were_noted_are_run_as_they_were_compiled_and_others_as_ever(library: Path) -> None:
    noted: dict[bytes, CodeType] = {}
    with methods_noted(noted):
        spot("known")
    assert noted
    marked = {key: compile("raise LookupError('as noted')", "", "exec") for key in noted}
    with zipfile.ZipFile(library, "w") as archive:
        archive.writestr(METHODS, marshal.dumps(marked))

    take_methods(str(library))

    with pytest.raises(LookupError, match="as noted"):
        spot("known")
    assert repr(spot("new")(3)) == "new(of_new=3)"


def test_where_a_module_lies_is_told_without_reading_it_and_reading_it_gives_the_same(library: Path) -> None:
    code = importlib.util.MAGIC_NUMBER + bytes(12) + marshal.dumps(compile("here = __file__", "one.py", "exec"))
    with zipfile.ZipFile(library, "w") as archive:
        archive.writestr("whole/__init__.pyc", code)
        archive.writestr("whole/one.pyc", code)
        archive.writestr("spoilt.pyc", b"no code at all")
    quick, slow = Library(str(library)), zipimport.zipimporter(str(library))

    assert quick.get_filename("whole") == slow.get_filename("whole")
    assert Library(f"{library}/whole").get_filename("whole.one") == f"{library}/whole/one.pyc"
    assert quick.get_filename("spoilt") == f"{library}/spoilt.pyc"
    with pytest.raises(ImportError):
        slow.get_filename("spoilt")
    spec = quick.find_spec("whole")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    assert module.here == f"{library}/whole/__init__.pyc"
    assert "whole" not in sys.modules
