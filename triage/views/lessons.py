"""Lessons and cards as pages: to print on A4, or large, one thing on a screen, for a projector."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from markupsafe import Markup

from triage.drawing.boat.draw import draw_place_alone
from triage.drawing.checks import Scene, draw_check
from triage.drawing.marks import draw_mark
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.teaching import Confusion, Lesson
from triage.parsing.text import plain
from triage.phrases import lessons as says
from triage.phrases import pictures, words
from triage.resources import template_environment
from triage.teaching.cards import Card, card_of_lookalike, cases_of, quiz
from triage.views.report import kind, shape

if TYPE_CHECKING:
    import jinja2

MOST_APART = 3
"""Times as wide as the other one of a pair may show, so that both can be drawn to one scale."""

Reader = Literal["learner", "trainer", "answers"]


@dataclass(frozen=True)
class DrawnCard:
    """A card with its pictures: of the mark, of where it is, and of the check."""

    card: Card
    mark: Markup
    where: Markup
    scenes: Sequence[Scene]


@dataclass(frozen=True)
class DrawnPair:
    """A confusion with its pictures: what each of the two looks like, what each comes to, and the first check.

    Which of the two is A tells nothing. ``one_scale``: both are drawn as large for their size.
    """

    confusion: Confusion
    cards: Sequence[Card]
    marks: Sequence[Markup]
    scenes: Sequence[Scene]
    one_scale: bool


def render_lesson(kb: KnowledgeBase, lesson: Lesson, reader: Reader = "learner", *, projector: bool = False) -> str:
    """A lesson as a page: the handout, the answers, or the trainer's notes with the sheet of points."""
    draw = _Drawing(kb)
    told: dict[str, Any] = {"lesson": lesson, "reader": reader, "cases": list(draw.cards(cases_of(kb, lesson)))}
    told["clock"] = [(when, step, draw.check(step.check)) for when, step in says.clock(lesson)]
    if projector:
        return _page("screens_lesson", kb, told)
    return _page(f"lesson_{reader}", kb, told)


def render_sheet(kb: KnowledgeBase) -> str:
    """The sheet by which a trainer scores one finding."""
    return _page("sheet", kb, {})


def render_confusions(kb: KnowledgeBase, *, projector: bool = False) -> str:
    """What is taken for what, two cards on a sheet."""
    pairs = list(_Drawing(kb).pairs())
    return _page("screens_confusions" if projector else "confusions", kb, {"pairs": pairs})


def render_quiz(kb: KnowledgeBase, seed: int, *, projector: bool = False) -> str:
    """Cards for five spare minutes, four on a sheet, to be cut and folded; the same seed gives the same ones."""
    cards = list(_Drawing(kb).cards(quiz(kb, seed)))
    return _page("screens_quiz" if projector else "quiz", kb, {"cards": cards, "seed": seed})


class _Drawing:
    """Draws what stands on one page; every drawing gets a name of its own, because the same may stand there twice."""

    def __init__(self, kb: KnowledgeBase) -> None:
        self.kb, self.drawn = kb, 0

    def cards(self, cards: Sequence[Card]) -> Iterator[DrawnCard]:
        for card in cards:
            where = pictures.where(self.kb.zones[card.zone].name)
            place = draw_place_alone(self.kb.zones, card.zone, where, self.name())
            yield DrawnCard(card, self.mark(card), place, self.check(card.check))

    def pairs(self) -> Iterator[DrawnPair]:
        for confusion in self.kb.teaching.confusions.values():
            pair = random.Random(f"cards/{confusion.id}").sample(confusion.pair, 2)
            cards = [card_of_lookalike(self.kb, confusion, one) for one in pair]
            widths = [draw_mark(card.drawing).width for card in cards]
            one_scale = max(widths) <= MOST_APART * min(widths)
            marks = [self.mark(card, max(widths) if one_scale else 0) for card in cards]
            yield DrawnPair(confusion, cards, marks, self.check(confusion.checks[0]), one_scale)

    def mark(self, card: Card, across: float = 0) -> Markup:
        return draw_mark(card.drawing, says.DRAWN, name=self.name(), across=across).svg

    def check(self, check: str) -> Sequence[Scene]:
        return draw_check(check, self.name()) if check else ()

    def name(self) -> str:
        self.drawn += 1
        return f"d{self.drawn}"


def _page(name: str, kb: KnowledgeBase, told: dict[str, Any]) -> str:
    return _pages().get_template(f"teaching/{name}.html").render(told | {"kb": kb, "teaching": kb.teaching})


@cache
def _pages() -> jinja2.Environment:
    environment = template_environment(autoescape=True)
    environment.filters |= {"plain": plain, "kind": kind, "shape": shape}
    environment.globals |= {"says": says, "words": words}
    return environment
