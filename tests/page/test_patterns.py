"""Regular expressions that were worked out beforehand match as those that are worked out now."""

from __future__ import annotations

import importlib
import marshal
import re
import zipfile
from pathlib import Path

import pytest

from triage.page.patterns import PATTERNS, Worked, patterns_noted, take_patterns

SAID = ("Two 3 mm cracks", "é 12 cm", "RING", "", "ring ring")
ASKED = [(r"(?P<figure>\d+) ?(?P<unit>mm|cm)", 0), (r"^ring\b|é", re.IGNORECASE), (r"(\w)\1*", re.ASCII)]


@pytest.fixture
def compiler(monkeypatch: pytest.MonkeyPatch) -> object:
    """What compiles them, as it was before; what was compiled is forgotten."""
    own = importlib.import_module("re._compiler")
    monkeypatch.setattr(own, "compile", vars(own)["compile"])
    re.purge()
    return own


@pytest.mark.usefixtures("compiler")
def test_what_was_noted_is_put_together_and_anything_else_is_worked_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    noted: Worked = {}
    with patterns_noted(noted):
        expected = [found(re.compile(pattern, flags)) for pattern, flags in ASKED]
    library = tmp_path / "library.zip"
    with zipfile.ZipFile(library, "w") as archive:
        archive.writestr(PATTERNS, marshal.dumps(noted))
    re.purge()

    take_patterns(str(library))

    assert re.compile("new+").findall("new newww") == ["new", "newww"]
    monkeypatch.setattr("re._parser.parse", None)
    assert [found(re.compile(pattern, flags)) for pattern, flags in ASKED] == expected
    with pytest.raises(TypeError):
        re.compile("newer+")


def found(pattern: re.Pattern[str]) -> list[object]:
    """All that can be told of one."""
    matches = [[(one.span(), one.groups(), one.groupdict()) for one in pattern.finditer(said)] for said in SAID]
    return [pattern.pattern, pattern.flags, pattern.groupindex, matches]
