"""What a yes waits for: the checks that would have to come out well before she may sail, or be towed."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence

from triage.asking.suggest import Option, at_best, options, prospect, ranked
from triage.asking.told import open_check, supposed
from triage.conclusions.answers import NOT_YET, Awaited, Turn
from triage.inference.evaluation import Evaluation
from triage.inference.terms import ASKED_ABOUT
from triage.inference.whatif import WhatIf
from triage.knowledge.model import KnowledgeBase

Answers = Mapping[str, int | str]


def standing_now(kb: KnowledgeBase, scale: str, best: int, worst: int, reachable: int) -> str:
    """The worst that was found holds, by name; but what bars her says "not yet" while checks can clear her."""
    barred = kb.level_of(scale, "barred")
    return NOT_YET if best < barred <= worst and reachable < barred else kb.level_name(scale, worst)


class Waiting:
    """What one mark waits for, on one of the scales that say what she may do."""

    def __init__(self, kb: KnowledgeBase, judged: Evaluation, whatif: WhatIf, scale: str) -> None:
        self.kb, self.whatif, self.scale = kb, whatif, scale
        self.best, self.worst = judged.interval(scale)
        self.reachable = self.worst
        self.options: tuple[Option, ...] = ()
        self._well: Answers = {}
        if self.best < self.worst:
            self._look_ahead(judged)

    @property
    def now(self) -> str:
        """What holds today."""
        return standing_now(self.kb, self.scale, self.best, self.worst, self.reachable)

    @property
    def then(self) -> str:
        """What holds once all that is awaited has come out well; empty when nothing is."""
        return self.kb.level_name(self.scale, self.reachable) if self.options else ""

    def awaits(self) -> tuple[Awaited, ...]:
        """The checks, the most useful first, each with what its answers would make of it."""
        return tuple(self._awaited(option) for option in self.options)

    def _look_ahead(self, judged: Evaluation) -> None:
        most_useful_first = (*ranked(self.kb, judged, self.whatif), *options(self.kb, self.whatif))
        found = list({option.ask: option for option in most_useful_first}.values())
        self._well = self._coming_out_well(found)
        self.reachable = self._worst_of(found)
        if self.reachable < self.worst:
            self.options = tuple(self._fewest(found))

    def _coming_out_well(self, found: Sequence[Option]) -> Answers:
        """The answers that come to most: each scale at its best, facts as they mostly are unless others come to more.

        What a fact is, nobody has in hand; but where only the rarer one would clear her, finding it out still may.
        """
        mostly = {option.ask: at_best(self.kb, option) for option in found}
        facts = [option for option in found if option.check is None]
        others = itertools.product(*(option.answers for option in facts))
        asks = [option.ask for option in facts]
        told = [mostly, *({**mostly, **dict(zip(asks, values, strict=True))} for values in others)]
        return min(told, key=lambda answers: self._range(answers)[1])

    def _fewest(self, found: Sequence[Option]) -> list[Option]:
        """As many, in their order, as bring it there; then without those that are not needed, the dearest first."""
        count = next(n for n in range(1, len(found) + 1) if self._worst_of(found[:n]) <= self.reachable)
        kept = list(found[:count])
        for option in sorted(kept, key=lambda option: -option.effort):
            others = [other for other in kept if other is not option]
            if self._worst_of(others) <= self.reachable:
                kept = others
        return kept

    def _worst_of(self, answered: Sequence[Option]) -> int:
        return self._range({option.ask: self._well[option.ask] for option in answered})[1]

    def _range(self, answers: Answers) -> tuple[int, int]:
        return prospect(self.whatif.outlook, answers).ranges[ASKED_ABOUT.index(self.scale)]

    def _awaited(self, option: Option) -> Awaited:
        others = {other.ask: self._well[other.ask] for other in self.options if other is not option}
        answers = option.answers if option.check is None else self.whatif.levels(option.ask)
        turns = tuple(self._turn(option.ask, answer, others) for answer in answers)
        return Awaited(open_check(self.kb, self.whatif.finding, option.ask, option.check), turns)

    def _turn(self, ask: str, answer: int | str, others: Answers) -> Turn:
        best, worst = self._range({**others, ask: answer})
        level = answer if isinstance(answer, int) else None
        now = standing_now(self.kb, self.scale, best, worst, best)
        return Turn(supposed(self.kb, ask, answer), level, now)
