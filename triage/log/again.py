"""Looking again: what of a boat's marks was seen before, and which were mended since.

The same mark is one of the same kind at the same place and side; where there are several, the one of the same id.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Entry
from triage.survey.model import Boat, Finding, Survey
from triage.survey.read import with_ids
from triage.survey.validity import doubts_of

GROWTH = "growth"
"""The sum that compares two lengths, and the scale that it may answer."""

STILL = 1
"""The level of growth that is proposed then: the one that is presumed. A sum never takes any concern away, so a better
one is for whoever looks to say.
"""

Kind = tuple[str, str | None, str]
"""Place, side and sign: what makes two marks the same."""


@dataclass(frozen=True)
class Seen:
    """A mark as it was found at a visit."""

    visit: str
    day: datetime.date | None
    finding: Finding


@dataclass(frozen=True)
class Thread:
    """One mark through the visits, the oldest first. ``entries`` are the lines of the diary about it, or all alike.

    ``stands`` is it at the visits that took it over from an earlier one and at which nobody looked at it.
    """

    seen: tuple[Seen, ...]
    entries: tuple[Entry, ...] = ()
    stands: tuple[Seen, ...] = ()

    @property
    def kind(self) -> Kind:
        """Place, side and sign."""
        return kind_of(self.seen[-1].finding)

    @property
    def ids(self) -> frozenset[str]:
        """What it was called at one visit or another."""
        return frozenset(one.finding.id for one in (*self.seen, *self.stands))

    @property
    def mended(self) -> Entry | None:
        """The mend that nobody has looked at since, nor found the mark again after."""
        last = self.entries[-1] if self.entries else None
        return last if last and last.what == "mended" and not self.came_back else None

    @property
    def closed(self) -> Entry | None:
        """The line that closed it, unless it was found again after."""
        last = self.entries[-1] if self.entries else None
        return last if last and last.what == "closed" and not self.came_back else None

    @property
    def came_back(self) -> bool:
        """Whether it was found again on a later day than the diary last speaks of."""
        day = self.seen[-1].day
        return bool(self.entries and day and day > self.entries[-1].on)


def next_visit(
    kb: KnowledgeBase, visits: Sequence[tuple[str, Survey]], diary: Sequence[Entry], day: datetime.date
) -> Survey:
    """A survey to begin another visit with, after these, the oldest first: the same boat, with every mark that was not
    mended, as it was when somebody last looked at it. Nothing is looked at yet.
    """
    boat = replace(visits[-1][1].boat, attempted=frozenset())
    known = threads(visits, diary)
    taken: set[str] = set()
    marks = []
    for thread in known:
        mark = None if _is_mended(thread, known) else as_it_stands(kb, thread, boat, day)
        if mark is not None:
            marks.append(replace(mark, id="") if mark.id in taken else mark)
            taken.add(mark.id)
    return with_ids(Survey(boat, tuple(marks), day)).in_walk_order(kb)


def as_it_stands(kb: KnowledgeBase, thread: Thread, boat: Boat, day: datetime.date) -> Finding | None:
    """A mark for a later visit: its readings, and the day it was really seen; None where she can have no such mark.

    That it had not grown is no news of today, so it is left out; that it had grown stands like every other reading.
    """
    last = thread.seen[-1]
    readings = {
        scale: reading
        for scale, reading in last.finding.readings.items()
        if scale != GROWTH or (reading.high or 0) > STILL
    }
    seen_on = min(last.day, day) if last.day else None
    mark = replace(last.finding, readings=readings, photos=(), seen_on=seen_on)
    bare = replace(mark, readings={})
    return next((one for one in (mark, bare) if not any(doubts_of(kb, boat, one))), None)


def _is_mended(thread: Thread, threads: Iterable[Thread]) -> bool:
    """Whether the diary says so. Where a line names none of several alike, all stand until all were mended."""
    line = thread.mended or thread.closed
    alike = sum(one.kind == thread.kind for one in threads)
    mends = sum(entry.what == "mended" for entry in thread.entries)
    return line is not None and (line.mark in thread.ids or mends >= alike)


def kind_of(finding: Finding) -> Kind:
    """Place, side and sign of a finding."""
    return finding.zone, finding.side, finding.sign


def threads(visits: Iterable[tuple[str, Survey]], diary: Sequence[Entry] = ()) -> tuple[Thread, ...]:
    """Every mark of these visits, the oldest visit first, in the order in which they were first found."""
    found: list[_Found] = []
    for visit, survey in visits:
        free = list(found)
        marks = [Seen(visit, mark.seen_on or survey.seen_on, mark) for mark in survey.marks]
        for seen in sorted(marks, key=lambda one: not any(one.finding.id == t.last.id for t in found)):
            same = [one for one in free if kind_of(one.last) == kind_of(seen.finding)]
            thread = next((one for one in same if one.last.id == seen.finding.id), same[0] if same else None)
            if thread is None:
                found.append(_Found([seen], [], seen.finding))
                continue
            free.remove(thread)
            taken_over = survey.stands_from_before(seen.finding) and seen.day == thread.seen[-1].day
            (thread.stands if taken_over else thread.seen).append(seen)
            thread.last = seen.finding
    marks_found = [Thread(tuple(one.seen), (), tuple(one.stands)) for one in found]
    return tuple(replace(one, entries=tuple(_lines_about(one, marks_found, diary))) for one in marks_found)


def _lines_about(thread: Thread, threads: Iterable[Thread], diary: Iterable[Entry]) -> Iterator[Entry]:
    """The lines that name this mark, and those that name none of several alike, or more than one."""
    alike = [one for one in threads if one.kind == thread.kind]
    for line in diary:
        if (line.zone, line.side, line.sign) == thread.kind:
            meant = [one for one in alike if line.mark in one.ids]
            if len(meant) != 1:
                yield replace(line, mark="")
            elif meant[0] is thread:
                yield line


@dataclass(eq=False)
class _Found:
    """A mark while visits are gone through; ``last`` as the last of them has it, looked at or not."""

    seen: list[Seen]
    stands: list[Seen]
    last: Finding
