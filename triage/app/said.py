"""What a conversation answers to a step, as sentences that are kept with the visit and shown on its next screen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from triage.conclusions.checks import OpenCheck
from triage.dialogue import messages as told
from triage.dialogue.messages import Message
from triage.phrases import screens as words
from triage.phrases.words import plus_waiting


def sentences(messages: Iterable[Message]) -> tuple[str, ...]:
    """Everything that is said and asks nothing, each sentence once."""
    return tuple(dict.fromkeys(one for message in messages for one in _said(message) if one))


def _said(message: Message) -> Iterator[str]:
    match message:
        case told.Line(text):
            yield text
        case told.Points(title, lines):
            yield title
            yield from lines
        case told.Noted(text, change):
            yield f"{text} {change}"
        case told.HowTo(how, _):
            yield from _how(how)
        case told.Refused(what, hint, _):
            yield f"{what} {hint}".strip()


def _how(how: OpenCheck) -> Iterator[str]:
    yield f"{how.name}: {words.about_minutes(how.minutes, plus_waiting(how.wait), helper=how.helper)}."
    yield from how.steps
    if how.care:
        yield f"{words.TAKE_CARE}: {how.care}"
