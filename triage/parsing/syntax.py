"""What a YAML parser stumbles over, in plain words and at the place where a person would mend it."""

from __future__ import annotations

import re
from typing import Any

UNPRINTABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]")

_ALIGN = "Lines that belong together start in the same column; nothing may follow a closing quote or bracket."
_BRACKET = "Close it, and put a comma between two entries."
_QUOTE = "Put the whole text in quotes."

# The parser's words, ours ({char} is what stands there, {line} the line in which the broken part began), what to do,
# and whether the beginning of the broken part is the place to show.
_FAULTS: tuple[tuple[str, str, str, bool], ...] = (
    ("tab character", "a tab stands here", "Indent with spaces, not tabs.", False),
    ("nesting depth", "brackets in brackets in brackets, too many", "Look for a missing bracket.", False),
    ("expected ':'", "a line without a colon", 'Write "word: text", or put it in the line it belongs to.', True),
    ("unexpected end of stream", "a quote that is opened here and never closed", "Close it.", True),
    ("',' or ']'", 'the "[" of line {line} is not closed before this', _BRACKET, False),
    ("',' or '}'", 'the "{{" of line {line} is not closed before this', _BRACKET, False),
    (
        "mapping values",
        "a colon that cannot stand here",
        "If it belongs to a text, put the text in quotes. If it ends a word, put a space after it, and let the line "
        "start where its neighbours start.",
        False,
    ),
    ("expected key", "this does not fit what stands before it", _ALIGN, False),
    ("expected '-'", "this does not fit the list above", _ALIGN, False),
    (
        "sequence entries",
        "a list that begins in the middle of a line",
        'Begin "- " in a line of its own.',
        False,
    ),
    ("escape", "a backslash that means nothing here", "Put the text in single quotes.", False),
    ("hexdecimal", "a backslash that means nothing here", "Put the text in single quotes.", False),
    ("document start", "something stands after the end", "Take it out, or look for a bracket too many.", False),
    ("alphabetic or numeric", '"{char}" cannot begin a text', _QUOTE, True),
    ("start any token", '"{char}" cannot begin a text', _QUOTE, False),
    ("node content", '"{char}" cannot begin a text', "Put the text in quotes, or look for a bracket too many.", False),
)


def fault(error: Any, lines: list[str]) -> tuple[int, int, str, str]:
    """Line, column (from 1; 0 when not known), what is wrong and what to do, for a parser's MarkedYAMLError."""
    said = str(error.problem or error.context or "")
    what, hint, at_beginning = "this cannot be read: {said}", "Look at quotes, brackets and indentation here.", False
    if "start any token" in said and lines[error.problem_mark.line][error.problem_mark.column] == "\t":
        said = "tab character"
    for words, ours, remedy, beginning in _FAULTS:
        if words in said:
            what, hint, at_beginning = ours, remedy, beginning
            break
    mark = error.context_mark if at_beginning and error.context_mark else error.problem_mark or error.context_mark
    if mark is None:
        return 0, 0, what.format(said=said), hint
    line = min(mark.line, len(lines) - 1)
    column = min(mark.column if line == mark.line else len(lines[line]), len(lines[line]))
    char = lines[line][column : column + 1]
    if not char and "{char}" in what:
        what, hint = "the text ends before it is complete", "Look for a bracket or a quote that is not closed."
    began = error.context_mark.line + 1 if error.context_mark else line + 1
    return line + 1, column + 1, what.format(char=char, line=began, said=said), hint


def unprintable(character: str) -> tuple[str, str]:
    """What is wrong with a character that cannot be printed, and what to do."""
    return f"a character that cannot stand in text (code {ord(character)})", "Delete it and type the line again."
