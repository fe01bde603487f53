"""What to begin with: real files and sentences, the mistakes that are written down, and what was found once."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import yaml

from tests.conftest import ROOT
from tests.mistakes import IN_RULES, IN_SURVEYS, SMALL
from tests.strategies import WEIRD_WORDS

FOUND = Path(__file__).parent / "found"
"""Inputs that once brought a harness down, in a folder by its name."""

SIZES = (
    *("9 cm", "1/2 inch", "1½ inch", "1,5 L", ".5 mm", "750ml", "2 l / min", "5 per cent", '3"', "−5 mm", "1,000 mm"),
    *("two and a half litres an hour", "as long as my hand", "1 1/2 inch wide", "half a cup of water", "a hand wide"),
)


def seeds(name: str) -> dict[str, bytes]:
    """The seeds of a harness, by a name to show."""
    return dict(_real(name)) | {f"found {file.name}": file.read_bytes() for file in sorted((FOUND / name).glob("*"))}


def _real(name: str) -> Iterator[tuple[str, bytes]]:
    match name:
        case "survey":
            yield from _files([*sorted((ROOT / "examples").glob("*.yaml")), *IN_SURVEYS])
        case "rules":
            yield from _files([*sorted((ROOT / "rules" / "promises").glob("*.yaml")), *sorted(SMALL.glob("*.yaml"))])
            yield from _files(IN_RULES)
        case "quantity" | "sentence":
            yield from ((text, text.encode()) for text in (*WEIRD_WORDS, *SIZES))
    if name == "sentence":
        phrases = yaml.safe_load((ROOT / "tests" / "listening" / "phrases.yaml").read_text(encoding="utf-8"))
        yield from ((one["say"], one["say"].encode()) for some in phrases.values() for one in some)


def _files(files: list[Path]) -> Iterator[tuple[str, bytes]]:
    yield from ((file.name, file.read_bytes()) for file in files)


def words() -> list[str]:
    """What a fuzzer may put in: the words of the files and what people have been seen to write in their place."""
    files = b"\n".join((*seeds("survey").values(), *seeds("rules").values())).decode()
    known = {word.strip(",[]{}:") for word in files.split()}
    return sorted(word for word in {*known, *WEIRD_WORDS, *SIZES} if 1 < len(word) < 40)
