"""What it comes to: how often the program and the panel agree, and where they do not."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from tests.panel.cases import VERDICTS
from tests.panel.judging import FIRST, Judged

MEASURES: Mapping[str, str] = {
    "verdict": "verdict right or accepted",
    "strict": "  the very word",
    "range": "range, both ends",
    "floor": "  mildest end alone",
    "ceiling": "  gravest end alone",
    "settled": "settled or open",
    "decisive": f"deciding check among the first {FIRST}",
    "decisive_first": "  asked first",
    "decisive_anywhere": "  at whatever place",
    "afloat": "afloat (not yet is ashore)",
    "afloat_near": "  within one step",
    "now": "  as told, not yet by itself",
    "tow": "tow",
    "hands": "hands",
    "hands_near": "  within one step",
    "buyer": "what to do about buying her",
}
FLAGS = ("DANGEROUS", "SERIOUS", "FALSE ALARM", "INVENTED", "WRONG MARK", "BUYER", "BOAT", "RANGE")
LISTED = ("verdict", "range", "settled", "decisive", "afloat", "now", "tow", "hands", "buyer")
"""Measures of which each miss is listed."""
WIDTH = 120


def share(judged: Iterable[Judged], measure: str) -> tuple[int, int]:
    """How many are right, of how many to which the measure applies."""
    right = [one.right[measure] for one in judged if measure in one.right]
    return sum(right), len(right)


def flagged(judged: Iterable[Judged], flag: str) -> list[Judged]:
    """The cases with a flag of this kind."""
    return [one for one in judged if any(text.startswith(flag) for text in one.flags)]


def figures(title: str, judged: Sequence[Judged]) -> Iterator[str]:
    """All figures of a set of cases, as lines."""
    yield f"{title}: {len(judged)} cases"
    yield ""
    for measure, name in MEASURES.items():
        yield _figure(name, share(judged, measure))
    marks = [pair for one in judged for pair in one.lines]
    afloat = [pair for one in judged for pair in one.lines_afloat]
    yield _figure("marks judged one by one", (sum(wanted == said for _, wanted, said in marks), len(marks)))
    yield _figure("  afloat, boat by boat", (sum(wanted == said for _, wanted, said in afloat), len(afloat)))
    ideas = sum(len(one.case.expected.mentions) for one in judged)
    yield _figure("ideas in the report, roughly", (sum(one.mentioned for one in judged), ideas))
    yield ""
    for flag in FLAGS:
        hit = flagged(judged, flag)
        yield f"  {flag:32}{len(hit):4}   {' '.join(one.case.id for one in hit)}".rstrip()
    yield from _by("group", {one.case.group: one for one in judged}, judged)
    yield from _by("persona", {one.case.persona: one for one in judged}, judged)
    yield ""
    yield "  the panel says, and the headline"
    pairs = Counter((one.case.expected.verdict, one.answer.carrying.headline) for one in judged)
    for wanted in VERDICTS:
        yield f"  {wanted:14}" + "  ".join(f"{said} {pairs[wanted, said]}" for said in VERDICTS)
    yield ""


def _figure(name: str, figure: tuple[int, int]) -> str:
    right, of = figure
    return f"  {name:32}{right:4} of {of:<4}" + (f"{100 * right / of:5.0f} %" if of else "")


def _by(kind: str, names: Iterable[str], judged: Sequence[Judged]) -> Iterator[str]:
    measures = ("verdict", "range", "settled", "decisive", "afloat", "tow", "hands")
    yield ""
    yield (
        f"  {kind:10}{'cases':>6}"
        + "".join(f"{name:>9}" for name in measures)
        + "".join(f"{flag.lower():>13}" for flag in FLAGS[:4])
    )
    for name in names:
        part = [one for one in judged if getattr(one.case, kind) == name]
        cells = [share(part, measure) for measure in measures]
        told = "".join(f"{f'{100 * right / of:.0f} %' if of else '-':>9}" for right, of in cells)
        yield f"  {name:10}{len(part):6}" + told + "".join(f"{len(flagged(part, flag)):13}" for flag in FLAGS[:4])


def misses(judged: Iterable[Judged]) -> Iterator[str]:
    """Each case on which they differ: what was told, what the panel says and what the program says."""
    for one in judged:
        wrong = [measure for measure in LISTED if one.right.get(measure) is False]
        lines = [line for line in one.lines if line[1] != line[2]]
        if wrong or one.flags or lines:
            yield from _miss(one, wrong)
            yield from (f"    {name}: the panel says {wanted}, the program {said}" for name, wanted, said in lines)
            yield ""


def _miss(one: Judged, wrong: Sequence[str]) -> Iterator[str]:
    case, expected, said = one.case, one.case.expected, one.answer.carrying
    yield f"{case.id} ({case.group}, {case.persona}) differs in: {', '.join(wrong) or '-'}" + "".join(
        f"; {flag}" for flag in one.flags
    )
    yield textwrap.fill(case.story.strip(), WIDTH, initial_indent="    ", subsequent_indent="    ")
    for finding in case.findings:
        place = " ".join(finding[key] for key in ("side", "zone", "sign") if key in finding)
        readings = ", ".join(f"{scale} {level}" for scale, level in finding["readings"].items())
        yield f"    {'*' if finding['carries'] else ' '} {place}: {readings or 'nothing tried'}"
    yield (
        "    the panel   "
        + _words(
            expected.floor,
            expected.ceiling,
            _or(expected.verdict, expected.accept),
            _or(expected.afloat, expected.afloat_accept),
        )
        + f", hands {_or(expected.hands or 'not asked', expected.hands_accept)}"
        + (f", {expected.tow}" if expected.tow else "")
        + (f", decided by {' or '.join(expected.decisive)}" if expected.decisive else "")
    )
    boat = one.answer.boat
    yield (
        "    the program "
        + _words(said.floor, said.ceiling, said.headline, boat.now)
        + (f", hands {said.hands}, {boat.tow}")
    )
    asks = [f"{ask.scale} at {ask.zone}" for ask in one.answer.asks[:FIRST]]
    yield f"    it asks     {', '.join(asks) or 'nothing'}"


def _words(floor: str, ceiling: str, headline: str, afloat: str) -> str:
    return f"{floor if floor == ceiling else f'{floor} to {ceiling}'}, headline {headline}, afloat {afloat}"


def _or(word: str, others: Sequence[str]) -> str:
    return " or ".join((word, *others))
