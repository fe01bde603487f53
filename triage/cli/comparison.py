"""What an edit of the rules changed, as text: marks that changed alike under one heading."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from triage.knowledge.model.cause import Mark
from triage.lint.compare import ALL_BEST, ALL_WORST, NOTHING, MarkChange, Shift, Situation, gathered
from triage.parsing.text import WIDTH, fold

MOST_GROUPS = 12
"""Ways in which marks changed that fit on a page."""


def comparison_lines(changes: tuple[MarkChange, ...], everything: bool) -> Iterator[str]:
    """Every way in which marks changed, that of the most marks first; or only as many as fit on a page."""
    groups = gathered(changes)
    shown = groups if everything else groups[:MOST_GROUPS]
    for group in shown:
        yield from group_lines(group)
        yield ""
    if left := groups[len(shown) :]:
        yield f"Marks that changed in {len(left)} other ways: {sum(map(len, left))}. --all prints them.\n"


def group_lines(group: tuple[MarkChange, ...]) -> Iterator[str]:
    """The marks, then what each of them comes to now and came to before."""
    first = group[0]
    yield fold(marks_text([change.mark for change in group]))
    if first.met:
        yield fold(f"new; unanswered it comes to {_told(first.met)}", 4)
    if first.gone:
        yield fold(f"no longer offered; unanswered it came to {_told(first.gone)}", 4)
    if first.judged:
        yield fold(f"now judged by {', '.join(first.judged)} too", 4)
    if first.unjudged:
        yield fold(f"no longer judged by {', '.join(first.unjudged)}", 4)
    if first.boat:
        yield fold(f"on a boat with {', '.join(f'{fact}: {value}' for fact, value in first.boat)}", 4)
    for shift in first.shifts:
        told = f"{shift.outcome}: {shift.after}, was {shift.before}; {_when(shift)}"
        yield textwrap.fill(told, WIDTH, initial_indent="    ", subsequent_indent="        ")


def marks_text(marks: list[Mark]) -> str:
    """Marks zone by zone; zones with the same signs together."""
    signs: dict[str, list[str]] = {}
    for zone, sign in marks:
        signs.setdefault(zone, []).append(sign)
    zones: dict[tuple[str, ...], list[str]] = {}
    for zone, there in signs.items():
        zones.setdefault(tuple(there), []).append(zone)
    return "; ".join(f"{', '.join(where)}: {', '.join(there)}" for there, where in zones.items())


def _told(outcomes: tuple[tuple[str, str], ...]) -> str:
    return ", ".join(f"{outcome} {said}" for outcome, said in outcomes)


def _when(shift: Shift) -> str:
    where = shift.situations
    told = []
    if NOTHING in where:
        told.append("with nothing answered" + (" or any one answer" if shift.whatever else ""))
    else:
        told += _alone(where)
    if ALL_BEST in where:
        told.append("with all at best")
    if ALL_WORST in where:
        told.append("with all at worst")
    return ", ".join(told)


def _alone(where: frozenset[Situation]) -> Iterator[str]:
    levels: dict[str, list[str]] = {}
    for scale, level in sorted(where):
        if scale:
            levels.setdefault(scale, []).append(str(level))
    if levels:
        told = [f"{scale} at {' or '.join(numbers)}" for scale, numbers in levels.items()]
        yield f"with only {', or '.join(told)}"
