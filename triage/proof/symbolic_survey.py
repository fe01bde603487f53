"""What a claim is asked of: every survey with given signs in given zones; and how one of them is written down."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import yaml

from triage.inference.evaluation import BOUNDS, Bound
from triage.inference.program import Program, program_of
from triage.knowledge.compiled.conjuncts import Quantifier
from triage.knowledge.model import KnowledgeBase
from triage.proof.scopes import ZoneSign
from triage.proof.solver import Choice, Context, Havoc, SymbolicBoat, SymbolicFinding, SymbolicState, open_ends
from triage.proof.symbolic import Formula, Solver, Truth, either, no


@dataclass(frozen=True)
class OpenSurvey:
    """An open boat with the open findings on it."""

    boat: SymbolicBoat
    findings: tuple[SymbolicFinding, ...]

    def limits(self) -> list[Formula]:
        """What holds of every survey that can be written."""
        return [*self.boat.limits, *(limit for finding in self.findings for limit in finding.limits)]

    def plain(self) -> list[Formula]:
        """What makes a survey easy to read, the most important first: little answered, little known, all of it good."""
        wishes: list[Formula] = []
        for finding in self.findings:
            wishes.extend(no(answered) for answered in finding.answered.values())
        wishes.extend(no(one) for choice in self.boat.facts.values() for one in choice.values())
        for finding in self.findings:
            wishes.extend(no(one) for one in finding.side.values())
            wishes.append(finding.exact)
            wishes.extend(no(reading) for reading in reversed(finding.high.values()))
        return wishes

    def written(self, truth: Truth) -> str:
        """The one survey that ``truth`` tells, as a file that ``triage assess`` reads."""
        boat: dict[str, object] = {"name": "Example"}
        boat |= _known("facts", self.boat.facts, truth)
        boat |= _known("encloses_buoyancy", self.boat.encloses_buoyancy, truth)
        findings = [_finding(finding, truth) for finding in self.findings]
        survey = {"survey": 1, "boat": boat, "findings": findings}
        return yaml.safe_dump(survey, sort_keys=False, allow_unicode=True, width=120)


class SymbolicSurvey:
    """Every boat on which exactly these signs were found in these zones; claims speak of the first one."""

    def __init__(self, kb: KnowledgeBase, pairs: Sequence[ZoneSign]) -> None:
        self.kb, self.pairs = kb, tuple(pairs)
        self.program: Program = program_of(kb)
        self.boat = SymbolicBoat(kb)
        self.findings = tuple(
            SymbolicFinding(kb, self.boat, zone, sign, f"{number} ") for number, (zone, sign) in enumerate(self.pairs)
        )
        self.survey = OpenSurvey(self.boat, self.findings)

    @property
    def finding(self) -> SymbolicFinding:
        """The finding that claims speak of."""
        return self.findings[0]

    @cached_property
    def ends(self) -> dict[Bound, list[SymbolicState]]:
        """Both ends of the range of each finding, with nothing else on the boat."""
        return {bound: open_ends(self.kb, self.findings, bound) for bound in BOUNDS}

    @cached_property
    def some(self) -> Havoc:
        """Context of which nothing is known."""
        return Havoc("some")

    @cached_property
    def others(self) -> Havoc:
        """More context of which nothing is known."""
        return Havoc("others")

    def more(self, quantifier: Quantifier, mine: SymbolicState) -> Formula:
        """Context that answers all that `some` does, and perhaps more."""
        return either((self.some(quantifier, mine), self.others(quantifier, mine)))

    def no_company(self) -> Iterator[Formula]:
        """That there is none, as far as anybody has asked."""
        yield from map(no, (*self.some.answers.values(), *self.others.answers.values()))

    def end(self, finding: SymbolicFinding, bound: Bound, context: Context) -> SymbolicState:
        """One end of the range of a finding in such context."""
        return open_ends(self.kb, [finding], bound, context)[0]

    @cached_property
    def in_company(self) -> dict[Bound, SymbolicState]:
        """Both ends of the range of the first finding in `some` context."""
        return {bound: self.end(self.finding, bound, self.some) for bound in BOUNDS}

    @cached_property
    def worst_in_more(self) -> SymbolicState:
        """The worst end of the first finding in `more` context."""
        return self.end(self.finding, "upper", self.more)

    @cached_property
    def solver(self) -> Solver:
        """Asked about any formula over this ground."""
        _ = self.ends  # building them may add limits to the boat
        return Solver(self.survey.limits())


def _known(key: str, words: Mapping[str, Choice], truth: Truth) -> dict[str, object]:
    known = {word: value for word, choice in words.items() for value, one in choice.items() if truth(one)}
    return {key: known} if known else {}


def _finding(finding: SymbolicFinding, truth: Truth) -> dict[str, object]:
    told: dict[str, object] = {"zone": finding.zone, "sign": finding.sign}
    for side, one in finding.side.items():
        if truth(one):
            told["side"] = side
    readings = {}
    for scale, answered in finding.answered.items():
        if truth(answered):
            ends = [
                sum(truth(one) for (of, _), one in e.items() if of == scale) for e in (finding.reading, finding.high)
            ]
            readings[scale] = " to ".join(dict.fromkeys(finding.kb.level_name(scale, level) for level in ends))
    return told | ({"readings": readings} if readings else {})
