"""Little drawings on one screen: places cut out of the boat, marks, and what a mark is most easily taken for.

A place is cut out of a view of the boat that stands on the same page, and a mark that was drawn once is only named
again; so a screen keeps one `Sketches`, and shows its ``sources``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cached_property

from markupsafe import Markup

from triage.app.pictures import boat_of
from triage.drawing.boat.draw import DrawnView, draw_place
from triage.drawing.marks import confused_with, draw_mark, drawn_again
from triage.drawing.svg import drawn
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.phrases import pictures
from triage.survey.model import Survey


class Sketches:
    """What is drawn on one screen."""

    def __init__(self, kb: KnowledgeBase, survey: Survey) -> None:
        self.kb, self.survey = kb, survey
        self._drawn: list[DrawnView] = []
        self._used: dict[str, DrawnView] = {}
        self._marks: set[tuple[str, bool]] = set()

    @cached_property
    def _to_draw(self) -> Iterator[DrawnView]:
        return boat_of(self.kb, self.survey)

    def _views(self) -> Iterator[DrawnView]:
        """Every view, those first that were drawn already."""
        yield from self._drawn
        for view in self._to_draw:
            self._drawn.append(view)
            yield view

    @property
    def sources(self) -> Sequence[Markup]:
        """The views out of which places were cut."""
        return [view.svg for view in self._used.values()]

    def place(self, zone: str) -> Markup:
        """Where the place is."""
        for view in self._views():
            if svg := draw_place([view], zone, pictures.where(self.kb.zones[zone].name)):
                self._used[view.view] = view
                return svg
        return Markup()

    def mark(self, sign: str, *, thumb: bool = False) -> Markup:
        """What the mark looks like; empty for one that is not drawn."""
        if sign not in drawn("marks"):
            return Markup()
        says = self.name(sign)
        if (sign, thumb) in self._marks:
            return drawn_again(sign, says, thumb=thumb)
        self._marks.add((sign, thumb))
        return draw_mark(sign, says, thumb=thumb).svg

    def nearest(self, sign: str) -> str:
        """What the mark is most easily taken for; empty when nothing of it is drawn."""
        if sign not in drawn("marks"):
            return ""
        others = confused_with(sign, _signs_in(self.kb, self.kb.signs[sign].not_this))
        return next((one for one in others if one in drawn("marks") and one != NOTHING_SEEN), "")

    def name(self, mark: str) -> str:
        """What a mark is called, be it a sign or no fault."""
        return self.kb.signs[mark].name if mark in self.kb.signs else draw_mark(mark, thumb=True).name


def _signs_in(kb: KnowledgeBase, text: str) -> tuple[str, ...]:
    """The signs that a sentence names by their id."""
    return tuple(word for word in re.findall(r"[a-z_]+", text) if word in kb.signs)
