"""How the messages of a conversation look in the terminal."""

from __future__ import annotations

from collections.abc import Iterable

from triage.cli.printing import tell
from triage.cli.terminal import say, show_choices
from triage.conclusions.checks import OpenCheck
from triage.dialogue import messages as told
from triage.phrases import conversation as phrases
from triage.phrases.words import TAKES_OFF
from triage.views.report import render


def show(messages: Iterable[told.Message], *, brief: bool) -> None:
    """Print them in their order; ``brief`` leaves out how each check is done."""
    for message in messages:
        _show(message, brief=brief)


def _show(message: told.Message, *, brief: bool) -> None:
    match message:
        case told.Line(text):
            say(text)
        case told.Points(title, lines):
            _points(title, lines)
        case told.Understood():
            _understood(message)
        case told.Choices(text, choices):
            say()
            say(text)
            show_choices(choices)
        case told.Asked():
            _question(message, brief=brief)
        case told.HowTo(how, made):
            _how(how, made=made)
        case told.Noted(text, change):
            say(text)
            say(change)
        case told.Ended():
            _ended(message)
        case told.Refused(what, hint, choices):
            say(f"{what} {hint}".strip())
            if choices:
                say(phrases.ONE_OF_THESE)
                show_choices(choices)
        case told.SoFar(boat, marks):
            _points(f"{boat}, so far:", marks)
        case told.Report(assessment):
            tell()
            tell(render(assessment, "text", colour=False))


def _points(title: str, lines: Iterable[str]) -> None:
    if title:
        say(title)
    for line in lines:
        say(line, 4, "  -")


def _understood(heard: told.Understood) -> None:
    say()
    say("This is how I understand it:")
    say(f"{heard.place}. {heard.place_picture}", 9, "  Place")
    say(f"{heard.mark}. {heard.mark_picture}", 9, "  Mark")
    for size in (*heard.sizes, *heard.left):
        say(size, 9, "  Size")


def _question(asked: told.Asked, *, brief: bool) -> None:
    """The question with its choices, and how to answer it unless that is known."""
    question = asked.question
    left = question.standing.left
    more = f"; {left - 1} more may follow" if left > 1 else ""
    say()
    say(f"{asked.place}{more}")
    say(phrases.answered(question.text, asked.answered))
    if asked.explain and not brief:
        _how(question.how, made=question.made)
    show_choices(asked.choices)
    if other := phrases.measure_it(question.unit, question.examples):
        say(other, 6)


def _how(how: OpenCheck, *, made: bool) -> None:
    """The check step by step, with what it needs and what to take care of."""
    name = how.name if how.check else phrases.FIND_OUT
    if made:
        say(f"{name}: you have done this already.", 4, "  -")
    helper = ", with a helper" if how.helper else ""
    tools = f" Take {', '.join(how.tools)}." if how.tools else ""
    wait = f", and {how.wait}" if how.wait else ""
    say(f"{name}: {how.minutes:g} minutes{wait}{helper}{TAKES_OFF[how.dismantling]}.{tools}", 2, "  ")
    for step in how.steps:
        say(step, 4, "  -")
    if how.care:
        say(f"Take care: {how.care}", 2, "  ")


def _ended(end: told.Ended) -> None:
    """What came of a mark, what would still change it, and what to do next."""
    done = end.done
    say()
    say(done.standing.says)
    if not done.settled:
        say(done.says)
    if done.would_change:
        _points("What would still change it:" if done.settled else "What could settle it:", done.would_change)
    if end.sends:
        _points(phrases.SENDS_TO, end.sends)
    say()
    say(end.text)
    show_choices(end.choices)
