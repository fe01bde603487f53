"""Words as people write them: made alike, guessed at when misspelt, and made fit to print."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable

WIDTH = 80
"""Columns of text for a terminal."""


def same(text: str) -> str:
    """The text with case, spaces, dashes, underscores and apostrophes made alike."""
    return re.sub(r"[\s_-]+", " ", text.replace("’", "'")).strip().casefold()


ALIKE = 60
"""Of 100: the share of letters that two words have in common, in the same order, from which on they are near."""

AS_NEAR = 15
"""Of 100: how much less like the word than the nearest one another may be, to be named beside it."""


def nearest(word: str, known: Iterable[str], *, at_most: int = 3) -> list[str]:
    """The known words that may have been meant, the nearest first; case makes no difference."""
    from rapidfuzz import fuzz, process  # only somebody who misspells waits for it

    names = {name.casefold(): name for name in sorted(set(known))}
    near = process.extract(word.casefold(), list(names), scorer=fuzz.ratio, limit=at_most, score_cutoff=ALIKE)
    return [names[name] for name, likeness, _ in near if likeness > near[0][1] - AS_NEAR]


def did_you_mean(word: str, known: Iterable[str], *, at_most: int = 3) -> str:
    """A hint with the nearest known words, or with all of them when they are few."""
    names = sorted(set(known), key=str.casefold)
    near = nearest(word, names, at_most=at_most)
    if near:
        return "Did you mean " + " or ".join(f'"{name}"' for name in near) + "?"
    if 0 < len(names) <= 20:
        return "It can be: " + ", ".join(names) + "."
    return ""


def fold(text: str, indent: int = 0, first: str | None = None) -> str:
    """The text in lines of at most WIDTH columns, indented; ``first`` stands in the indent of the first line."""
    space = " " * indent
    start = space if first is None else first.ljust(indent)
    return textwrap.fill(plain(text), WIDTH, initial_indent=start, subsequent_indent=space, break_on_hyphens=False)


def plain(text: str) -> str:
    """Somebody's words without control characters, so that a note cannot drive the terminal."""
    return "".join(character if character.isprintable() else " " for character in text)
