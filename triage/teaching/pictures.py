"""What a learner sees of a case: its mark with a scale bar, on its own as a file."""

from __future__ import annotations

from triage.drawing.marks import draw_mark
from triage.drawing.self_contained import with_style
from triage.drawing.svg import drawn
from triage.knowledge.model import KnowledgeBase
from triage.phrases.learning import mark_in_words
from triage.teaching.cases import Case


def picture_of(kb: KnowledgeBase, case: Case) -> str:
    """The mark to judge with its scale bar as SVG with its own style; empty where nobody has drawn it.

    What it says to those who do not see it is the place and the description, and not the name that is asked for.
    """
    mark = case.mark
    if mark.sign not in drawn("marks"):
        return ""
    return with_style(str(draw_mark(mark.sign, mark_in_words(kb, mark, case.looks_like(mark))).svg))
