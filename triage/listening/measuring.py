"""What a figure is a measure of, by the words beside it, and of which reading, by the mark that it belongs to."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.clauses import Index, holds, index, matches
from triage.listening.figures import Figure
from triage.listening.statements import Found, Measured
from triage.listening.tokens import Token
from triage.parsing.amounts import bound_of
from triage.parsing.quantities import NotAQuantity, in_unit

_BY_UNIT = {"L": "volume", "L/h": "rate", "%": "share", "kg": "weight"}
_NEXT, _JUST, _BESIDE = 1, 2, 4
"""Words after a figure, before it, and after it again, among which one that tells what it measures is believed."""

_FAR_LONGER = 20
"""How many times as long a line is over which a bend is told, at least."""

_OVER = re.compile(r"\s+(?:of\s+[a-z]+\s+)?(?:over|along|on|in)\s+(?:a\s+|about\s+|the\s+)*", re.IGNORECASE)


def measured(
    kb: KnowledgeBase, text: str, figures: Sequence[Figure], clause: Sequence[Token], found: Found | None
) -> list[Measured]:
    """The figures of a clause as measurements, those that make one together as one."""
    told: list[Measured] = []
    skip = False
    for place, figure in enumerate(figures):
        if skip:
            skip = False
            continue
        after = figures[place + 1] if place + 1 < len(figures) else None
        measure = measure_of(kb, figure, clause, figures)
        over = 0.0
        if (
            after
            and _OVER.fullmatch(text[figure.end : after.start])
            and (measure == "bend" or _much_more(after, figure))
        ):
            measure, over, skip = "bend", after.high, True
        scale = scale_for(kb, (measure, figure.unit), found.zone, found.sign, paired=bool(over)) if found else ""
        end = after.end if after and over else figure.end
        where = (found.start, found.end) if found else None
        sure = 0.9 if scale else 0.5
        size = (figure.low, figure.high, figure.unit, measure, scale)
        told.append(
            Measured(figure.start, end, sure, *size, where, figure.estimated, over, bound_of(text, figure.start, end))
        )
    return told


def _much_more(one: Figure, other: Figure) -> bool:
    """Whether "20 mm over 3 m" is told: that over which something is out of true is far longer than it is out."""
    return one.unit == other.unit == "mm" and one.low >= _FAR_LONGER * other.high


def measure_of(kb: KnowledgeBase, figure: Figure, clause: Sequence[Token], beside: Sequence[Figure]) -> str:
    """The name of what a figure measures; empty where no word tells."""
    if figure.unit in _BY_UNIT:
        return _BY_UNIT[figure.unit]
    if figure.unit == "deg":
        return "angle"
    measure = figure.hint if figure.hint not in ("", "patch") else _by_words(kb, figure, clause, beside)
    words = [token.word for token in clause]
    finer = (name for name, one in kb.lexicon.speech.sizing.measures.items() if measure in one.of)
    told = next((name for name in finer if holds(_telling(kb)[name], words)), measure)
    return told if figure.unit != "mm" else _likely(kb, told, figure.low)


def _likely(kb: KnowledgeBase, measure: str, size: float) -> str:
    """The measure, unless so many mm can be none; where no word tells, what so many mm are."""
    every = kb.lexicon.speech.sizing.measures
    if measure in every and size <= every[measure].most:
        return measure
    return next((name for name, one in every.items() if size >= one.unsaid_from), "")


def scales_of(kb: KnowledgeBase, measure: str) -> frozenset[str]:
    """The scales that a figure of such a measure can be a reading of, be it only where more is said of it."""
    every = kb.lexicon.speech.sizing.measures
    fitting = [one for name, one in every.items() if name == measure or measure in one.of]
    return frozenset(scale for one in fitting for scale in (*one.scales, *one.beside))


def _by_words(kb: KnowledgeBase, figure: Figure, clause: Sequence[Token], beside: Sequence[Figure]) -> str:
    """What the words nearest to the figure say that it measures."""
    next_one = min((other.start for other in beside if other.start >= figure.end), default=math.inf)
    after = _words(kb, [token for token in clause if figure.end <= token.start and token.end <= next_one])
    ahead = [token for token in clause if token.end <= figure.start]
    before = [(at - len(ahead), name) for at, name in _words(kb, ahead)]
    if after and after[0][0] < _NEXT:  # "3 mm wide"
        return after[0][1]
    if before and before[-1][0] >= -_JUST:  # "a gap of 3 mm"
        return before[-1][1]
    if after and after[0][0] < _BESIDE:
        return after[0][1]
    return before[-1][1] if before else after[0][1] if after else figure.hint


def _words(kb: KnowledgeBase, tokens: Sequence[Token]) -> list[tuple[int, str]]:
    words = [token.word for token in tokens]
    found = [(at, name) for name, rows in _telling(kb).items() for at, _ in matches(rows, words)]
    return sorted(found, key=lambda one: one[0])


@per_knowledge
def _telling(kb: KnowledgeBase) -> dict[str, Index]:
    return {name: index(kb, one.words) for name, one in kb.lexicon.speech.sizing.measures.items()}


def scale_for(kb: KnowledgeBase, measured: tuple[str, str], zone: str, sign: str, *, paired: bool) -> str:
    """The one scale of which so much in such a unit can be a reading under this mark; empty where there is none.

    ``paired``: it was told over what length.
    """
    measure, unit = measured
    dimension = kb.lexicon.speech.sizing.measures.get(measure)
    if dimension is None:
        return ""
    about, judged = kb.about(zone, sign), kb.applicable(zone, sign)
    fitting = [one for one in dimension.scales if one in about] + [one for one in dimension.beside if one in judged]
    return next((one for one in fitting if _is_in(kb, one, unit, paired=paired)), "")


def _is_in(kb: KnowledgeBase, scale: str, unit: str, *, paired: bool) -> bool:
    known = kb.scales[scale].measure
    if known is None:
        return False
    if known.unit in ("%", "deg") and unit == "mm":
        return paired and bool(kb.scales[scale].ways.pairs)
    try:
        in_unit(f"1 {unit}", known.unit)
    except NotAQuantity:
        return False
    return True
