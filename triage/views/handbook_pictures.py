"""The pictures of the handbook: each place on the boat, each mark beside what it is taken for, each check."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from functools import cached_property

from markupsafe import Markup

from triage.drawing.bands import Level, Narrowing, draw_narrowing
from triage.drawing.boat.chart import VIEWS, Chart, DrawnPlace
from triage.drawing.boat.draw import DrawnView, draw_boat, draw_place
from triage.drawing.checks import Scene, draw_check
from triage.drawing.marks import confused_with, draw_mark, drawn_again
from triage.drawing.svg import drawn
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.phrases import pictures
from triage.views.rule_text import anchor


class HandbookPictures:
    """Drawn from one knowledge base. What has no drawing is left out."""

    def __init__(self, kb: KnowledgeBase) -> None:
        self.kb = kb
        self._marks = drawn("marks")

    @cached_property
    def views(self) -> Sequence[tuple[DrawnView, str]]:
        """The boat with every place; each leads to what is told of it."""
        places = {
            (zone.id, ""): DrawnPlace("plain", zone.name, f"#{anchor('zone', zone.id)}")
            for zone in self.kb.zones.values()
        }
        views = list(draw_boat(Chart(places), {view: pictures.VIEWS[view] for view in VIEWS}))
        return [(view, pictures.SHORT[view.view]) for view in views]

    def place(self, zone: str) -> Markup:
        """Where the place is, out of the views that stand on the same page."""
        says = pictures.where(self.kb.zones[zone].name)
        return draw_place((view for view, _ in self.views), zone, says)

    def mark(self, sign: str) -> Markup:
        """The drawing of a sign."""
        return draw_mark(sign, self.kb.signs[sign].name).svg if sign in self._marks else Markup()

    def confusions(self, sign: str, named: Collection[str]) -> list[tuple[Markup, str, str]]:
        """What a sign is taken for: the drawing, its name and where it stands on the page."""
        if sign not in self._marks:
            return []
        beside = [other for other in confused_with(sign, named) if other in self._marks and self.mark_name(other)]
        return [(drawn_again(other, self.mark_name(other)), self.mark_name(other), self.at(other)) for other in beside]

    def mark_name(self, mark: str) -> str:
        """What the mark is called, be it a sign or no fault; empty for a sign that this knowledge has not."""
        return self.kb.signs[mark].name if mark in self.kb.signs else draw_mark(mark).name

    def at(self, mark: str) -> str:
        """Where the mark stands on the page of signs."""
        return f"#{anchor('sign', mark)}"

    @cached_property
    def no_faults(self) -> list[tuple[str, Markup, str]]:
        """What is drawn because it is taken for a fault: the id of each, its drawing and its name."""
        others = sorted(mark for mark in self._marks - set(self.kb.signs) if draw_mark(mark).name)
        return [(anchor("sign", mark), draw_mark(mark).svg, draw_mark(mark).name) for mark in others]

    def check(self, check: str) -> Sequence[Scene]:
        """The two pictures of a check."""
        return draw_check(check)

    @cached_property
    def narrowing(self) -> Markup:
        """How a verdict narrows, as an example."""
        names = [level.name for level in self.kb.scales[VERDICT].levels]
        kinds = ("looks", "watch", "weakened")
        levels = [Level(name, kind) for name, kind in zip(names, kinds, strict=True)]  # type: ignore[arg-type]
        history = [Narrowing(*range_, says) for range_, says in pictures.EXAMPLE]
        return draw_narrowing(levels, history, pictures.EXAMPLE_IN_WORDS)
