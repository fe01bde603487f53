"""From a typed line to what the person does: a number, a word of command, or words."""

from __future__ import annotations

import re
from collections.abc import Collection
from typing import Literal

from triage.dialogue import events

HELP = (
    ("a number", "the choice with that number"),
    ("a letter", "the mark with that letter, while a story is shown"),
    ("1 to 2", "the answer lies between these two"),
    ("3 cm, 1/2 inch …", "a measurement, where one is asked for"),
    ("under 3 mm …", "or what bounds it: at most, at least, about, 2 or 3 mm"),
    ("skip", "I could not tell; it is not asked again"),
    ("why", "why this is asked and what hangs on it"),
    ("how", "how to find out"),
    ("back", "take the last step back, even of an earlier day"),
    ("other", "answer something else about this mark, or change an answer"),
    ("marks", "all marks, to go on with one of them"),
    ("delete", "take this mark out"),
    ("new", "describe another mark"),
    ("finish", "the report of everything so far"),
    ("quit", "leave, and carry on later"),
)
_COMMANDS: dict[str, events.Event] = {
    "skip": events.Skip(),
    "why": events.Why(),
    "how": events.How(),
    "back": events.Undo(),
    "other": events.Answers(),
    "marks": events.Marks(),
    "delete": events.Remove(),
    "new": events.New(),
    "finish": events.Finish(),
    "report": events.Finish(),
}
_SHORT = {"?": "help", **{word[0]: word for word in ("skip", "why", "how", "back", "other", "new", "finish", "quit")}}
_NUMBER = re.compile(r"(\d{1,4})(?:\s*(?:to|-|–)\s*(\d{1,4}))?", re.ASCII)


def event_of(line: str, letters: Collection[str] = ()) -> events.Event | Literal["quit", "help"]:
    """What a line means. Numbers are always those of the choices as they are shown, ``letters`` those of marks."""
    if line.casefold() in letters:
        return events.Said(line)
    word = _SHORT.get(line.casefold(), line.casefold())
    if word == "quit":
        return "quit"
    if word == "help":
        return "help"
    if word in _COMMANDS:
        return _COMMANDS[word]
    if number := _NUMBER.fullmatch(line):
        return events.Chose(int(number[1]), int(number[2] or 0))
    return events.Said(line)
