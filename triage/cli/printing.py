"""Everything that the command line prints goes through here: plain, and in letters that the other end has.

Names of files and boats, rules and notes are written by anybody. No control, escape or bidirectional character of
theirs reaches a terminal, and no encoding is so poor that a report cannot be printed in it.
"""

from __future__ import annotations

import codecs
import io
import os
import re
import sys
from typing import TextIO

import click

from triage.errors import CannotWork

LETTERS = {
    "○": "o", "◇": "<>", "■": "#", "□": "[]", "●": "*", "◆": "<>", "•": "*", "·": ".",
    "“": '"', "”": '"', "„": '"', "‘": "'", "’": "'", "‚": "'", "«": '"', "»": '"', "′": "'", "″": '"',
    "–": "-", "—": "-", "‑": "-", "‐": "-", "−": "-", "×": "x", "÷": "/", "±": "+/-", "≤": "<=", "≥": ">=", "≈": "~",
    "→": "->", "←": "<-", "↑": "^", "↓": "v", "…": "...", "°": " deg", "µ": "u", "€": "EUR", "£": "GBP",
    "ß": "ss", "æ": "ae", "Æ": "AE", "ø": "o", "Ø": "O", "œ": "oe", "Œ": "OE", "ł": "l", "Ł": "L", "đ": "d", "ð": "d",
    "þ": "th", "α": "a", "π": "pi", "ρ": "rho", "μ": "u", "√": "root ", "∛": "cube root ",
}  # fmt: skip
"""What stands for a letter or sign that an encoding lacks."""

POOR = "triage.plain-letters"
"""The name under which the streams know `_in_plain_letters`."""

_OURS = re.compile(r"(\033\[(?:[0-9;]*)m)")
_LINE = "\n"


def tell(text: str = "", *, err: bool = False, nl: bool = True, coloured: bool = False) -> None:
    """Print lines of text without anything that could drive the terminal. ``coloured``: our own colours stay.

    Raises CannotWork when there is nowhere to print to; OSError when it cannot be printed.
    """
    click.echo(_coloured(text) if coloured else plain_lines(text), _stream(err), nl=nl, color=coloured or None)


def tell_json(text: str) -> None:
    """Print JSON. What does not print, and what the other end has no letter for, is written as an escape."""
    stream = _stream(err=False)
    encoding = stream.encoding or "utf-8"
    click.echo("".join(one if _prints(one, encoding) else _escape(one) for one in text), stream, nl=False)


def tell_markup(text: str) -> None:
    """Print a page, a drawing or a graph: in UTF-8, whatever the terminal has, because that is what it says it is."""
    click.echo(plain_lines(text).encode("utf-8"), _stream(err=False), nl=False)


def plain_lines(text: str) -> str:
    """The text with a space for every character that does not print, except for the ends of lines."""
    if text.isascii() and text.replace(_LINE, "").isprintable():
        return text
    return "".join(character if character.isprintable() or character == _LINE else " " for character in text)


def _coloured(text: str) -> str:
    """Every second part is one of the codes that set a colour, and nothing else."""
    parts = _OURS.split(text)
    return "".join(part if number % 2 else plain_lines(part) for number, part in enumerate(parts))


def _prints(character: str, encoding: str) -> bool:
    if character == _LINE:
        return True
    try:
        character.encode(encoding)
    except UnicodeEncodeError:
        return False
    return character.isprintable()


def _escape(character: str) -> str:
    pair = character.encode("utf-16-be", "surrogatepass").hex()
    return "".join(f"\\u{pair[start : start + 4]}" for start in range(0, len(pair), 4))


def _stream(err: bool) -> TextIO:
    """The stream as it is; left to itself, click would write UTF-8 to one that says that it has but ASCII."""
    stream = sys.stderr if err else sys.stdout
    if stream is None:
        raise CannotWork("There is nowhere to print to: the output is closed. Open it, or name a file with -o.")
    return stream


def prepare_streams() -> None:
    """Have both streams print something readable for every letter that their encoding lacks."""
    codecs.register_error(POOR, _in_plain_letters)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=POOR)


def _in_plain_letters(error: UnicodeError) -> tuple[str, int]:
    import unicodedata

    if not isinstance(error, UnicodeEncodeError):
        raise error
    said = []
    for character in error.object[error.start : error.end]:
        simple = unicodedata.normalize("NFKD", character).encode("ascii", "ignore").decode("ascii")
        said.append(LETTERS.get(character) or simple or "?")
    return "".join(said), error.end


def flush() -> None:
    """Have everything printed. Raises OSError when that cannot be."""
    for stream in (sys.stdout, sys.stderr):
        if stream is not None:
            stream.flush()


def give_up(stream: TextIO | None) -> None:
    """Have the rest of a stream that nobody can be told by go nowhere, so that Python does not complain at the end."""
    try:
        if stream is not None:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, stream.fileno())
            os.close(nowhere)
            stream.flush()
    except (OSError, ValueError):
        return
