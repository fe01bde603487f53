"""What an edit changed: every mark under two knowledge bases, answered in a few telling ways."""

from __future__ import annotations

import itertools
from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from triage.inference.evaluate import evaluate
from triage.inference.program import program_of
from triage.knowledge.model import OUTCOMES, KnowledgeBase
from triage.knowledge.model.cause import Mark
from triage.lint.nonvacuity import unreadable
from triage.lint.settling import words_tested
from triage.survey.model import Boat, Finding, Reading

Answers = Mapping[str, int]
Situation = tuple[str, int]
"""How a mark is answered: one scale at a level, all others open; or one of the three below."""

NOTHING: Situation = ("", 0)
ALL_BEST: Situation = ("", 1)
ALL_WORST: Situation = ("", 2)
UNKNOWN = Boat("any")
"""A boat of which nothing is known; where she shows no change, others are tried."""


@dataclass(frozen=True)
class Shift:
    """One outcome that became another: its range before and after, and in which situations.

    ``whatever`` says that it holds with nothing answered, and after any one answer too.
    """

    outcome: str
    before: str
    after: str
    situations: frozenset[Situation]
    whatever: bool


@dataclass(frozen=True)
class MarkChange:
    """What an edit made of one mark.

    ``shifts`` in the order of the outcomes; ``judged`` and ``unjudged`` are scales that it is now, or no longer, judged
    by. ``met`` and ``gone`` hold what it comes to unanswered, by outcome, where it is offered on one side only.
    ``boat`` holds the facts of the first boat that shows the change: none, if nothing needs to be known.
    """

    mark: Mark
    shifts: tuple[Shift, ...] = ()
    judged: tuple[str, ...] = ()
    unjudged: tuple[str, ...] = ()
    met: tuple[tuple[str, str], ...] = ()
    gone: tuple[tuple[str, str], ...] = ()
    boat: tuple[tuple[str, str], ...] = ()

    @property
    def is_one(self) -> bool:
        """Whether anything changed at all."""
        return bool(self.shifts or self.judged or self.unjudged or self.met or self.gone)

    @property
    def alike(self) -> Hashable:
        """Equal for marks that changed in the same way.

        Where a change holds with nothing answered, it makes no difference which single answers it survives, unless
        it survives all of them.
        """
        shifts = tuple((s.outcome, s.before, s.after, s.whatever, _telling(s.situations)) for s in self.shifts)
        return shifts, self.judged, self.unjudged, self.met, self.gone, self.boat


def compare(before: KnowledgeBase, after: KnowledgeBase) -> Iterator[MarkChange]:
    """Every mark that comes to something else, in the order of the walk, then those that are no longer offered."""
    for mark in marks(after):
        if mark[0] not in before.offers or mark[1] not in before.offers[mark[0]]:
            yield MarkChange(mark, met=_unanswered(after, mark))
        elif _decided_by(before, mark) != _decided_by(after, mark):
            found = (_change(before, after, mark, boat) for boat in _boats(before, after, mark))
            yield from itertools.islice((change for change in found if change.is_one), 1)
    still = set(marks(after))
    for mark in marks(before):
        if mark not in still:
            yield MarkChange(mark, gone=_unanswered(before, mark))


def gathered(changes: Iterable[MarkChange]) -> list[tuple[MarkChange, ...]]:
    """The changes, those that are alike together; the largest groups first."""
    groups: dict[Hashable, list[MarkChange]] = {}
    for change in changes:
        groups.setdefault(change.alike, []).append(change)
    return sorted(map(tuple, groups.values()), key=len, reverse=True)


def marks(kb: KnowledgeBase) -> tuple[Mark, ...]:
    """Every sign in every zone where it is offered."""
    return tuple((zone, sign) for zone, signs in kb.offers.items() for sign in signs)


def situations(kb: KnowledgeBase, mark: Mark) -> dict[Situation, Answers]:
    """The ways in which a mark is answered here, each with its answers."""
    zone, sign = mark
    scales = kb.applicable(zone, sign)
    best = {scale: kb.best(sign, scale) for scale in scales}
    worst = {scale: kb.worst(sign, scale) for scale in scales}
    alone = {(scale, at): {scale: at} for scale in scales for at in range(best[scale], worst[scale] + 1)}
    return {NOTHING: {}, **alone, ALL_BEST: best, ALL_WORST: worst}


def outcomes(kb: KnowledgeBase, mark: Mark, answers: Answers, boat: Boat = UNKNOWN) -> dict[str, str]:
    """The range of each outcome, in the names of its levels."""
    readings = {scale: Reading.at(level) for scale, level in answers.items()}
    (judged,) = evaluate(kb, boat, [Finding("mark", *mark, None, readings)])
    found = {}
    for outcome in OUTCOMES:
        best, worst = (kb.level_name(outcome, level) for level in judged.interval(outcome))
        found[outcome] = best if best == worst else f"{best} to {worst}"
    return found


def _unanswered(kb: KnowledgeBase, mark: Mark) -> tuple[tuple[str, str], ...]:
    return tuple(outcomes(kb, mark, {}).items())


def _change(before: KnowledgeBase, after: KnowledgeBase, mark: Mark, boat: Boat) -> MarkChange:
    ways_before, ways_after = situations(before, mark), situations(after, mark)
    boat_before = _as_known(before, boat)
    shifts: dict[tuple[str, str, str], set[Situation]] = {}
    for situation in ways_after:
        if situation in ways_before:
            was = outcomes(before, mark, ways_before[situation], boat_before)
            now = outcomes(after, mark, ways_after[situation], boat)
            for outcome in OUTCOMES:
                if was[outcome] != now[outcome]:
                    shifts.setdefault((outcome, was[outcome], now[outcome]), set()).add(situation)
    ordered = sorted(shifts.items(), key=lambda item: (OUTCOMES.index(item[0][0]), NOTHING not in item[1], item[0]))
    judged_before, judged_after = before.applicable(*mark), after.applicable(*mark)
    return MarkChange(
        mark,
        tuple(Shift(*key, frozenset(where), {*ways_after} - {ALL_BEST, ALL_WORST} <= where) for key, where in ordered),
        judged=tuple(scale for scale in judged_after if scale not in judged_before),
        unjudged=tuple(scale for scale in judged_before if scale not in judged_after),
        boat=tuple(boat.facts.items()),
    )


def _boats(before: KnowledgeBase, after: KnowledgeBase, mark: Mark) -> Iterator[Boat]:
    """One of which nothing is known, one for each answer to a fact that decides something here, and a common one."""
    yield UNKNOWN
    tested = words_tested(before, *mark) | words_tested(after, *mark)
    for fact in after.facts.values():
        for value in fact.values if fact.id in tested else ():
            yield Boat("any", {fact.id: value})
    if after.everyday.boat:
        yield Boat("any", dict(after.everyday.boat))


def _as_known(kb: KnowledgeBase, boat: Boat) -> Boat:
    """The boat as rules can be told of her that lack some of the facts, or some of their answers."""
    return Boat(boat.name, {fact: value for fact, value in boat.facts.items() if (fact, value) in kb.fact_values})


def _telling(where: frozenset[Situation]) -> frozenset[Situation]:
    return frozenset(s for s in where if s in (NOTHING, ALL_BEST, ALL_WORST)) if NOTHING in where else where


def _decided_by(kb: KnowledgeBase, mark: Mark) -> Hashable:
    """All that decides what the mark alone comes to; where it is equal, nothing can have changed."""
    zone, sign = mark
    program, place = program_of(kb), kb.zones[zone]
    scales = kb.applicable(zone, sign)
    here = [one for stratum in program.rules_for(zone, sign) for one in stratum]
    possible = [(tuple(c for c in one.conjuncts if not unreadable(kb, mark, c)), one.rule.raises) for one in here]
    return (
        frozenset((conjuncts, raises) for conjuncts, raises in possible if conjuncts),
        tuple((one.conjuncts, one.presumption.presumes) for one in program.presumptions_for(zone, sign)),
        tuple((scale, kb.best(sign, scale), kb.worst(sign, scale)) for scale in scales),
        tuple(level.name for outcome in OUTCOMES for level in kb.scales[outcome].levels),
        (kb.about(zone, sign), frozenset(kb.named_sets(zone, sign)), place.encloses_buoyancy),
    )
