"""The best order of questions there is, by exhaustive search, to measure the interview against."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from triage.asking.probabilities import level_chances, value_chances
from triage.asking.suggest import Option, ranked
from triage.inference.evaluate import evaluate
from triage.inference.whatif import WhatIf
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading

Measure = Literal["questions", "minutes"]
MEASURES: tuple[Measure, Measure] = ("questions", "minutes")


@dataclass
class Cost:
    """Expected questions and expected weighted minutes to settled."""

    questions: float = 0.0
    minutes: float = 0.0

    def add(self, other: Cost, chance: float = 1.0) -> None:
        self.questions += chance * other.questions
        self.minutes += chance * other.minutes

    def by(self, measure: Measure) -> float:
        return self.questions if measure == "questions" else self.minutes


class Search:
    """Exact expectations over all true boats for one mark of which nothing is known.

    Without ``measure`` the interview's own choice is followed; with it, at every step each question that is still in
    play is tried, and the one kept that turns out cheapest. A question out of play can only cost.
    """

    def __init__(self, kb: KnowledgeBase, measure: Measure | None) -> None:
        self.kb, self.measure = kb, measure
        self.known: dict[tuple[object, ...], Cost] = {}

    def expected(self, boat: Boat, finding: Finding) -> Cost:
        told = (*boat.facts.items(), *boat.encloses_buoyancy.items(), *finding.upper.items())
        key = (finding.zone, finding.sign, frozenset(told))
        if key not in self.known:
            whatif = WhatIf(self.kb, boat, finding, [finding])
            options = ranked(self.kb, evaluate(self.kb, boat, [finding])[0], whatif)
            tried = [self._asking(one, boat, finding, whatif) for one in (options if self.measure else options[:1])]
            self.known[key] = min(tried, key=lambda cost: cost.by(self.measure or "questions"), default=Cost())
        return self.known[key]

    def _asking(self, option: Option, boat: Boat, finding: Finding, whatif: WhatIf) -> Cost:
        cost = Cost(1.0, option.effort)
        if option.check is None:
            chances = value_chances(self.kb, option.ask, [str(value) for value in option.answers])
            for value, chance in chances.items():
                cost.add(self.expected(boat.knowing(option.ask, value, finding.zone), finding), chance)
            return cost
        each = level_chances(self.kb, finding, option.ask)
        for levels in whatif.outlook.equivalence_classes(option.ask):
            chance = sum(each[level] for level in levels)
            if chance:
                readings = {**finding.readings, option.ask: Reading.at(levels[0], "what if")}
                cost.add(self.expected(boat, replace(finding, readings=readings)), chance)
        return cost


def against_the_best(kb: KnowledgeBase, count: int, most: int) -> Iterator[str]:
    """The interview against the best order, over marks with at most so many questions, as Markdown."""
    costs = list(_costs(kb, count, most))
    yield f"Exactly, over {len(costs)} marks with at most {most} questions, against the best order of all:"
    yield ""
    yield "| measured in | the interview | the best order | ratio of the means | worst single mark | within 10 % |"
    yield "|---|---|---|---|---|---|"
    for measure in MEASURES:
        pairs = [(mine.by(measure), best[measure].by(measure)) for mine, best in costs]
        mine_mean, best_mean = (sum(column) / len(pairs) for column in zip(*pairs, strict=True))
        ratios = [mine / best for mine, best in pairs]
        within = sum(ratio <= 1.1 for ratio in ratios) / len(ratios)
        yield (
            f"| {measure} | {mine_mean:.2f} | {best_mean:.2f} | {mine_mean / best_mean:.3f} "
            f"| {max(ratios):.2f} | {within:.0%} of the marks |"
        )


def _costs(kb: KnowledgeBase, count: int, most: int) -> Iterator[tuple[Cost, dict[Measure, Cost]]]:
    """For some marks, always the same: the cost of the interview, and of the best order by either measure."""
    marks = [(zone, sign) for zone in kb.zones for sign in kb.offers[zone]]
    random.Random(2).shuffle(marks)
    found = 0
    for zone, sign in marks:
        boat, finding = Boat("Wagtail"), Finding("mark", zone, sign)
        whatif = WhatIf(kb, boat, finding, [finding])
        asks = len(whatif.unanswered) + len(whatif.outlook.unknown_facts)
        if found == count or not 2 <= asks <= most:
            continue
        mine = Search(kb, None).expected(boat, finding)
        if mine.questions:
            found += 1
            yield mine, {measure: Search(kb, measure).expected(boat, finding) for measure in MEASURES}
