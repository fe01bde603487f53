"""Which template shows what a conversation asks, and with what."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from triage.app.pictures import boat_of, range_of_mark
from triage.app.visiting import Visit
from triage.dialogue.edits import find
from triage.dialogue.messages import Asked, Choices, Ended, Understood
from triage.drawing.checks import draw_check
from triage.knowledge.model import KnowledgeBase
from triage.phrases import conversation as phrases
from triage.phrases import pictures
from triage.phrases import screens as words
from triage.phrases.words import plus_waiting


@dataclass(frozen=True)
class Shown:
    """A template and its values."""

    template: str
    values: Mapping[str, Any] = field(default_factory=dict)


def shown(kb: KnowledgeBase, visit: Visit) -> Shown:
    """The screen for what is asked now."""
    if visit.state.asking.what == "describe":
        views = [(view, pictures.SHORT[view.view]) for view in boat_of(kb, visit.survey)]
        return Shown("start.html", {"last": None, "views": views})
    match visit.asks:
        case [Understood() as heard, Choices() as ask]:
            return Shown("understood.html", {"heard": heard, "ask": ask})
        case [Asked() as asked]:
            return _asked(kb, visit, asked)
        case [Ended() as ended]:
            return Shown("ended.html", {"ended": ended, "range": _range(kb, visit)})
        case [Choices() as ask]:
            return Shown("choices.html", {"ask": ask})
    raise AssertionError(visit.asks)


def _asked(kb: KnowledgeBase, visit: Visit, asked: Asked) -> Shown:
    question = asked.question
    how = question.how
    return Shown(
        "asked.html",
        {
            "asked": asked,
            "question": phrases.answered(question.text, asked.answered),
            "range": _range(kb, visit),
            "minutes": words.about_minutes(how.minutes, plus_waiting(how.wait), helper=how.helper),
            "left": words.still_left(question.standing.left),
            "scenes": draw_check(how.check) if how.check else (),
            "measure": phrases.measure_it(question.unit, question.examples),
        },
    )


def _range(kb: KnowledgeBase, visit: Visit) -> object:
    finding = find(visit.survey, visit.state.asking.mark)
    return "" if finding.is_look else range_of_mark(kb, visit.survey, finding)
