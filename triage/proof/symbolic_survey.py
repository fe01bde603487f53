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
from triage.proof.symbolic import Formula, Model, Solver, either, no
from triage.proof.symbolic_finding import Choice, SymbolicBoat, SymbolicFinding
from triage.proof.symbolic_state import Context, Havoc, SymbolicState, symbolic_states


@dataclass(frozen=True)
class SymbolicInput:
    """A symbolic boat with the symbolic findings on it: all that a survey can say and leave open."""

    boat: SymbolicBoat
    findings: tuple[SymbolicFinding, ...]

    def limits(self) -> list[Formula]:
        """What holds of every survey that can be written."""
        return [*self.boat.limits, *(limit for finding in self.findings for limit in finding.limits)]

    def preferences(self) -> list[Formula]:
        """What makes a survey easy to read, the most important first: little answered, little known, all of it good."""
        preferences: list[Formula] = []
        for finding in self.findings:
            preferences.extend(no(answered) for answered in finding.answered.values())
        preferences.extend(no(one) for choice in self.boat.facts.values() for one in choice.values())
        for finding in self.findings:
            preferences.extend(no(one) for one in finding.side.values())
            preferences.append(finding.exact)
            preferences.extend(no(reading) for reading in reversed(finding.high.values()))
        return preferences

    def written(self, model: Model) -> str:
        """The one survey that ``model`` stands for, as a file that ``triage assess`` reads."""
        boat: dict[str, object] = {"name": "Example"}
        boat |= _known("facts", self.boat.facts, model)
        boat |= _known("encloses_buoyancy", self.boat.encloses_buoyancy, model)
        findings = [_finding(finding, model) for finding in self.findings]
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
        self.inputs = SymbolicInput(self.boat, self.findings)

    @property
    def finding(self) -> SymbolicFinding:
        """The finding that claims speak of."""
        return self.findings[0]

    @cached_property
    def states(self) -> dict[Bound, list[SymbolicState]]:
        """The state of each finding at either bound, with nothing else on the boat."""
        return {bound: symbolic_states(self.kb, self.findings, bound) for bound in BOUNDS}

    @cached_property
    def context(self) -> Havoc:
        """Context of which nothing is known."""
        return Havoc("context")

    @cached_property
    def further_context(self) -> Havoc:
        """More context of which nothing is known."""
        return Havoc("further context")

    def wider_context(self, quantifier: Quantifier, mine: SymbolicState) -> Formula:
        """Context that answers all that `context` does, and perhaps more."""
        return either((self.context(quantifier, mine), self.further_context(quantifier, mine)))

    def empty_contexts(self) -> Iterator[Formula]:
        """That neither context answers anything, as far as it has been asked."""
        yield from map(no, (*self.context.answers.values(), *self.further_context.answers.values()))

    def state(self, finding: SymbolicFinding, bound: Bound, context: Context) -> SymbolicState:
        """The state of a finding at one bound in such context."""
        return symbolic_states(self.kb, [finding], bound, context)[0]

    @cached_property
    def in_context(self) -> dict[Bound, SymbolicState]:
        """The state of the first finding at either bound in `context`."""
        return {bound: self.state(self.finding, bound, self.context) for bound in BOUNDS}

    @cached_property
    def upper_in_wider_context(self) -> SymbolicState:
        """The upper state of the first finding in `wider_context`."""
        return self.state(self.finding, "upper", self.wider_context)

    @cached_property
    def solver(self) -> Solver:
        """Asked about any formula over this survey."""
        _ = self.states  # building them may add limits to the boat
        return Solver(self.inputs.limits())


def _known(key: str, words: Mapping[str, Choice], model: Model) -> dict[str, object]:
    known = {word: value for word, choice in words.items() for value, one in choice.items() if model(one)}
    return {key: known} if known else {}


def _finding(finding: SymbolicFinding, model: Model) -> dict[str, object]:
    written: dict[str, object] = {"zone": finding.zone, "sign": finding.sign}
    for side, one in finding.side.items():
        if model(one):
            written["side"] = side
    readings = {}
    for scale, answered in finding.answered.items():
        if model(answered):
            bounds = [
                sum(model(one) for (of, _), one in at.items() if of == scale) for at in (finding.reading, finding.high)
            ]
            readings[scale] = " to ".join(dict.fromkeys(finding.kb.level_name(scale, level) for level in bounds))
    return written | ({"readings": readings} if readings else {})
