"""Which template shows what a conversation asks, and with what."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from triage.app.cards import told_story
from triage.app.choosing import Board, Choice, board, plain
from triage.app.pictures import range_of_mark, views_of
from triage.app.sketches import Sketches
from triage.app.visiting import Visit
from triage.dialogue.answers import answers_to
from triage.dialogue.edits import find
from triage.dialogue.following import named, verdicts_in_order
from triage.dialogue.messages import Asked, Choices, Ended, Understood
from triage.dialogue.twins import twin_of
from triage.drawing.checks import draw_check
from triage.knowledge.model import KnowledgeBase
from triage.phrases import conversation as phrases
from triage.phrases import screens as words
from triage.phrases.words import plus_waiting
from triage.views.report import kind


@dataclass(frozen=True)
class Shown:
    """A template and its values."""

    template: str
    values: Mapping[str, Any] = field(default_factory=dict)


def shown(kb: KnowledgeBase, visit: Visit) -> Shown:
    """The screen for what is asked now."""
    sketches = Sketches(kb, visit.survey)
    template, values = _shown(kb, visit, sketches)
    return Shown(template, {**values, "sources": sketches.sources})


def _shown(kb: KnowledgeBase, visit: Visit, sketches: Sketches) -> tuple[str, dict[str, Any]]:
    what = visit.state.asking.what
    if what == "describe":
        return "start.html", {"last": None, "views": views_of(kb, visit.survey), "standing": _standing(kb, visit)}
    if what == "story":
        return "story.html", {"story": told_story(kb, visit.state, sketches)}
    match visit.asks:
        case [Understood() as heard, Choices() as ask]:
            return "understood.html", {"heard": heard, "ask": ask, "plain": plain, **_pictured(visit, sketches)}
        case [Asked() as asked]:
            return "asked.html", _asked(kb, visit, asked, sketches)
        case [Ended() as ended]:
            return "ended.html", _ended(kb, visit, ended, sketches)
        case [Choices() as ask]:
            return "choices.html", {"ask": ask, "board": _board(kb, visit, ask, sketches)}
    raise AssertionError(visit.asks)


def _board(kb: KnowledgeBase, visit: Visit, ask: Choices, sketches: Sketches) -> Board:
    """The choices; where they are the marks of the boat, each with what it comes to so far."""
    shown = board(kb, visit.state, ask, sketches)
    if visit.state.asking.what != "marks":
        return shown
    verdicts = dict(enumerate(verdicts_in_order(kb, visit.survey), start=1))
    return replace(shown, plain=[replace(one, stands=verdicts.get(one.number, "")) for one in shown.plain])


def _standing(kb: KnowledgeBase, visit: Visit) -> list[tuple[str, str, str]]:
    """The marks that stand from earlier visits: their ids, what they are, and when they were seen."""
    survey = visit.survey
    marks = [one for one in survey.marks if survey.stands_from_before(one)]
    return [(one.id, named(kb, one), words.seen_on(one.seen_on)) for one in marks]


def _pictured(visit: Visit, sketches: Sketches) -> dict[str, Any]:
    """The mark and the place that were understood."""
    asking = visit.state.asking
    return {"mark_drawn": sketches.mark(asking.sign), "place_drawn": sketches.place(asking.zone)}


def _marked(kb: KnowledgeBase, visit: Visit, sketches: Sketches) -> dict[str, Any]:
    """The mark that is talked about: where it is, and how its range has narrowed."""
    finding = find(visit.survey, visit.state.asking.mark)
    range_ = "" if finding.is_look else range_of_mark(kb, visit.survey, finding)
    return {"range": range_, "place_drawn": sketches.place(finding.zone), "place": named(kb, finding)}


def _asked(kb: KnowledgeBase, visit: Visit, asked: Asked, sketches: Sketches) -> dict[str, Any]:
    question = asked.question
    how = question.how
    return {
        "asked": asked,
        "question": question.text,
        "choices": plain(asked.choices),
        "ordered": _ordered(kb, visit),
        "twin": visit.state.asking.ask in kb.scales and twin_of(visit.survey, visit.state.asking),
        "minutes": words.about_minutes(how.minutes, plus_waiting(how.wait), helper=how.helper),
        "left": words.still_left(question.standing.left),
        "scenes": draw_check(how.check) if how.check else (),
        "measure": phrases.measure_it(question.unit, question.examples),
        **_marked(kb, visit, sketches),
    }


def _ordered(kb: KnowledgeBase, visit: Visit) -> list[Choice]:
    """The answers between two of which one may lie: levels in their order."""
    asking = visit.state.asking
    if asking.ask not in kb.scales:
        return []
    told = [one for one in answers_to(kb, visit.survey, asking.mark, asking.ask) if one.said is not None]
    return plain([one.text for one in told])


def _ended(kb: KnowledgeBase, visit: Visit, ended: Ended, sketches: Sketches) -> dict[str, Any]:
    """The end of a mark; the answer so far has a button of its own, and so has going to other boats."""
    standing = ended.done.standing
    verdict = phrases.verdict_so_far(standing.verdict.best, standing.verdict.worst)
    told = standing.says.startswith(verdict)
    have_buttons = (phrases.THE_REPORT, phrases.LEAVE)
    return {
        "ended": ended,
        "kind": kind(standing.verdict),
        "verdict": verdict if told else standing.says,
        "because": standing.says.removeprefix(verdict).strip() if told else "",
        "choices": [one for one in plain(ended.choices) if one.says not in have_buttons],
        **_marked(kb, visit, sketches),
    }
