"""Words as people write them: made alike, guessed at when misspelt, and made fit to print."""

from __future__ import annotations

import difflib
import re
import textwrap
from collections.abc import Iterable

WIDTH = 80
"""Columns of text for a terminal."""


def same(text: str) -> str:
    """The text with case, spaces, dashes, underscores and apostrophes made alike."""
    return re.sub(r"[\s_-]+", " ", text.replace("’", "'")).strip().casefold()


def did_you_mean(word: str, known: Iterable[str], *, at_most: int = 3) -> str:
    """A hint with the nearest known words, or with all of them when they are few."""
    names = {name.lower(): name for name in sorted(set(known))}
    near = difflib.get_close_matches(word.lower(), names, n=at_most, cutoff=0.6)
    if near:
        likeness = [difflib.SequenceMatcher(None, name, word.lower()).ratio() for name in near]
        told = [names[name] for name, like in zip(near, likeness, strict=True) if like > likeness[0] - 0.15]
        return "Did you mean " + " or ".join(f'"{name}"' for name in told) + "?"
    if 0 < len(names) <= 20:
        return "It can be: " + ", ".join(names.values()) + "."
    return ""


def fold(text: str, indent: int = 0, first: str | None = None) -> str:
    """The text in lines of at most WIDTH columns, indented; ``first`` stands in the indent of the first line."""
    space = " " * indent
    start = space if first is None else first.ljust(indent)
    return textwrap.fill(plain(text), WIDTH, initial_indent=start, subsequent_indent=space, break_on_hyphens=False)


def plain(text: str) -> str:
    """Somebody's words without control characters, so that a note cannot drive the terminal."""
    return "".join(character if character.isprintable() else " " for character in text)
