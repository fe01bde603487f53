"""The side of a mark where it is told after the words for it: "…, the right hand one as you stand behind her"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from triage.knowledge.model import KnowledgeBase
from triage.listening.manner import on_the_same_side, side_of
from triage.listening.scope import without_the_other_side
from triage.listening.statements import Found, Measured, Side, Statement, Time, Unheard

_ENDS = re.compile(r"[.!?;\n]")


def with_sides(kb: KnowledgeBase, text: str, statements: Sequence[Statement]) -> tuple[Statement, ...]:
    """The statements in their order, each mark with the side that the rest of its sentence tells; "the same side" is
    that of the mark before.
    """
    told = list[Statement]()
    before: Side = ""
    for place, one in enumerate(statements):
        if isinstance(one, Found) and kb.zones[one.zone].sided:
            after = text[one.end : _end(text, statements, place)]
            side = one.side or (side_of(kb, without_the_other_side(kb, after)) if after.strip() else "")
            if before and not side and on_the_same_side(kb, text[one.start : one.end] + after):
                side = before
            one = replace(one, side=side)
            before = side or before
        told.append(one)
    return tuple(told)


def _end(text: str, statements: Sequence[Statement], place: int) -> int:
    """Where something else is told, or the sentence ends. Figures and words of which nothing was made are of it."""
    mark = statements[place]
    found = _ENDS.search(text, mark.end)
    end = found.start() if found else len(text)
    for at in range(place + 1, len(statements)):
        one = statements[at]
        if one.start >= end:
            return end
        if one.start >= mark.end and not _may_be_of_it(one):
            return one.start
    return end


def _may_be_of_it(one: Statement) -> bool:
    return isinstance(one, Measured | Time) or (isinstance(one, Unheard) and not one.zone)
