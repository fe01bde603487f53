"""The figures of a class, a sentence each; `MarkedClass` needs the statistics, `Counts` does not."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from triage.phrases import marking as phrases
from triage.teaching.counts import Counts

if TYPE_CHECKING:
    from triage.teaching.agreement import Estimate
    from triage.teaching.marking import MarkedClass


def counted_lines(counts: Counts) -> Iterator[str]:
    """What can be told by counting alone."""
    yield phrases.of_all("Right verdicts", counts.right, counts.runs)
    if counts.grave:
        yield phrases.missed(counts.missed, counts.called_fine)
    if counts.others:
        yield phrases.of_all("False alarms, called structural", counts.false_alarms, counts.others)
    if counts.held_open:
        yield phrases.held_open(counts.held_open)
    if counts.practised:
        yield phrases.practised(counts.practised, counts.practised_right)


def verdict_lines(marked: MarkedClass) -> Iterator[str]:
    """What was missed, false alarms, how often the class was right."""
    if marked.structural_found is not None:
        yield phrases.missed(marked.missed, marked.called_fine)
    yield _share("Structural marks found, or held open", marked.structural_found, "no case in it is structural")
    yield _share("False alarms, called structural", marked.false_alarms, "every case in it is structural")
    yield _share("Right verdicts", marked.right, "nobody has judged")
    if marked.held_open:
        yield phrases.held_open(marked.held_open)
    if marked.practised:
        yield phrases.practised(marked.practised, marked.practised_right)
    yield _share("Points of the sheet, without the trainer's", marked.points, "no points were given")


def agreement_lines(marked: MarkedClass) -> Iterator[str]:
    """How far the class agrees with the key, and among itself."""
    key = "Agreement with the key (weighted kappa; 1 is full, 0 is chance)"
    yield _figure(key, marked.with_key, "all verdicts are alike")
    among = "Agreement among learners (Krippendorff's alpha)"
    yield _figure(among, marked.among, "no case was judged by two, or all alike")
    if marked.fleiss is not None:
        yield phrases.fleiss(marked.fleiss)


def calibration_lines(marked: MarkedClass) -> Iterator[str]:
    """Whether learners are as often right as they say; the first line is the whole class, the others by how sure."""
    if marked.brier is not None and marked.right is not None:
        said = sum(one.confidence * one.right.n for one in marked.bins) / marked.right.n
        yield phrases.calibration(marked.brier.value, said, marked.right.value)
    for one in marked.bins:
        yield phrases.bin_line(one.low, one.high, one.confidence, one.right.value, one.right.n)


def case_lines(marked: MarkedClass, name: Callable[[str], str] = "Case {}".format) -> Iterator[str]:
    """The cases to talk about; ``name`` is what a case is called."""
    for item in marked.items:
        if item.kind:
            yield f"{name(item.case)}, {item.kind}: {phrases.EASY[item.kind]}."


def change_lines(marked: MarkedClass) -> Iterator[str]:
    """What the lesson may have changed."""
    if marked.change:
        change = marked.change
        low, high = change.grew.low or 0.0, change.grew.high or 0.0
        yield phrases.change(change.before.value, change.after.value, low, high, change.grew.n)


def _share(what: str, one: Estimate | None, otherwise: str) -> str:
    return phrases.share(what, one.value, one.low, one.high, one.n) if one else phrases.nothing(what, otherwise)


def _figure(what: str, one: Estimate | None, otherwise: str) -> str:
    return phrases.figure(what, one.value, one.low, one.high, one.n) if one else phrases.nothing(what, otherwise)
