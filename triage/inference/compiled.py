"""The rules by bit masks: the quick engine, and the only one that can judge again when one answer changes.

A finding's stratum is the conjunction of a few numbers, and its set bits are the conjuncts that hold. What other
findings are needed for is looked at only where such a bit asks for it. When one finding is judged otherwise, those that
ask for it are looked at again, stratum by stratum, and only where the answer to what they ask is another one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cached_property

from triage.inference.bounds import initial_state_given
from triage.inference.evaluate import related
from triage.inference.evaluation import BOUNDS, Bound, Evaluation, Firing, Fixpoint
from triage.inference.masks import Asked, Layer, Tables, chosen, tables_of
from triage.knowledge.compiled.conjuncts import Quantifier
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.survey.model import Boat, Finding, Reading
from triage.survey.validity import admit


def compiled(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> tuple[Evaluation, ...]:
    """Judge the findings of one boat together, at both ends of their ranges. Agrees with `evaluate` on every input.

    Raises BadSurvey for words and levels that the knowledge does not have.
    """
    return Judgement(kb, boat, findings).evaluations


class Subject:
    """One finding as it is before any rule is applied."""

    def __init__(self, kb: KnowledgeBase, boat: Boat, finding: Finding) -> None:
        zone = kb.zones[finding.zone]
        self.finding = finding
        self.sided = zone.sided
        self.words = boat.words(zone, finding.side)
        self.tables: Tables = tables_of(kb, finding.zone, finding.sign)
        self.begun = initial_state_given(kb, finding, self.tables.holding(self.words, finding.upper))

    def stands(self, quantifier: Quantifier) -> tuple[object, ...]:
        """What decides who stands to it as the quantifier asks: the same for all that stand alike."""
        if quantifier.where == "anywhere":
            return ()
        side = (self.sided, self.finding.side)
        return side if quantifier.where == "same side" else (*side, self.finding.zone)


class Run:
    """One finding at one end of its range, on its way through the strata."""

    def __init__(self, subject: Subject, bound: Bound) -> None:
        self.subject = subject
        self.levels = dict(subject.begun.levels(bound))
        self.firings: list[Firing] = []
        self.allowed = subject.tables.allowed(subject.words, bound)
        self.before: list[Mapping[str, int]] = []

    def from_stratum(self, stratum: int) -> Run:
        """The same finding as it came to a stratum. What fired until then is not told again."""
        run = object.__new__(Run)
        run.subject, run.allowed = self.subject, self.allowed
        run.levels, run.firings, run.before = dict(self.before[stratum]), [], []
        return run

    @property
    def fixpoint(self) -> Fixpoint:
        return Fixpoint(self.levels, tuple(self.firings))


class Hits:
    """Which findings satisfy which quantifiers of a stratum, at one end of their ranges."""

    def __init__(self, subjects: Sequence[Subject], satisfied: Sequence[int], bound: Bound) -> None:
        self.subjects, self.satisfied, self.bound = subjects, satisfied, bound
        self._standing: dict[tuple[int, tuple[object, ...]], dict[int, None]] = {}

    def standing(self, asked: Asked, me: int) -> Mapping[int, None]:
        """The findings that satisfy the quantifier and stand as it asks to one that stands where this one does."""
        subject = self.subjects[me]
        key = asked.number, subject.stands(asked.quantifier)
        found = self._standing.get(key)
        if found is None:
            found = self._standing[key] = {
                n: None
                for n, satisfied in enumerate(self.satisfied)
                if satisfied >> asked.number & 1 and related(asked.quantifier, subject, self.subjects[n], self.bound)
            }
        return found

    def moved(self, asked: Asked, me: int, now: Mapping[int, int]) -> list[int]:
        """The other findings of which it is another answer ``now`` whether they are what is asked for here."""
        subject = self.subjects[me]
        return [
            n
            for n, satisfied in now.items()
            if n != me
            and (satisfied ^ self.satisfied[n]) >> asked.number & 1
            and related(asked.quantifier, subject, self.subjects[n], self.bound)
        ]

    def witnesses(self, asked: Asked, me: int, now: Mapping[int, int]) -> list[int]:
        """The other findings that satisfy the quantifier and stand to this one as it asks, in their order."""
        found: Iterable[int] = self.standing(asked, me)
        if now and (moved := self.moved(asked, me, now)):
            found = sorted(set(found).symmetric_difference(moved))
        return [n for n in found if n != me]

    def enough(self, asked: Asked, me: int, now: Mapping[int, int]) -> bool:
        """Whether there are as many as the quantifier asks for."""
        found = self.standing(asked, me)
        count = len(found) - (me in found)
        if now:
            count += sum(-1 if n in found else 1 for n in self.moved(asked, me, now))
        return count >= asked.quantifier.count


class End:
    """All findings of a boat, judged at one end of their ranges."""

    def __init__(self, subjects: Sequence[Subject], bound: Bound) -> None:
        self.subjects, self.bound = subjects, bound
        self.runs = [Run(subject, bound) for subject in subjects]
        self.hits: list[Hits] = []
        for stratum in range(len(subjects[0].tables.layers) if subjects else 0):
            hits = Hits(subjects, [satisfied(run, stratum) for run in self.runs], bound)
            self.hits.append(hits)
            for me, run in enumerate(self.runs):
                run.before.append(run.levels.copy())
                raise_levels(run, stratum, me, hits, {})

    def changed(self, me: int, subject: Subject) -> Fixpoint:
        """One finding judged again as this subject, with whatever that changes about the others."""
        runs = {me: Run(subject, self.bound)}
        for stratum, hits in enumerate(self.hits):
            now = {n: found for n, run in runs.items() if (found := satisfied(run, stratum)) != hits.satisfied[n]}
            for n in self._answered_otherwise(stratum, now):
                if n not in runs:
                    runs[n] = self.runs[n].from_stratum(stratum)
            for n, run in runs.items():
                raise_levels(run, stratum, n, hits, now)
        return runs[me].fixpoint

    def _answered_otherwise(self, stratum: int, now: Mapping[int, int]) -> Iterable[int]:
        """The findings that ask something whose answer is another one now."""
        hits, moved = self.hits[stratum], 0
        for n, found in now.items():
            moved |= found ^ hits.satisfied[n]
        if not moved or len(self.runs) == 1:
            return
        for asked, alike in self._asking[stratum]:
            if moved >> asked.number & 1 and hits.enough(asked, alike[0], {}) != hits.enough(asked, alike[0], now):
                yield from alike

    @cached_property
    def _asking(self) -> list[list[tuple[Asked, list[int]]]]:
        """By stratum, each quantifier with the findings that ask it and for which its answer must be the same."""
        found = []
        for stratum, hits in enumerate(self.hits):
            alike: dict[tuple[int, object], tuple[Asked, list[int]]] = {}
            for n, subject in enumerate(self.subjects):
                for asked in subject.tables.layers[stratum].asks:
                    key = subject.stands(asked.quantifier), n in hits.standing(asked, n)
                    alike.setdefault((asked.number, key), (asked, []))[1].append(n)
            found.append(list(alike.values()))
        return found


def satisfied(run: Run, stratum: int) -> int:
    """The quantifiers of the stratum that a finding satisfies, as bits."""
    layer: Layer = run.subject.tables.layers[stratum]
    return layer.satisfied(run.allowed[stratum][1], run.levels) if layer.satisfies else 0


def raise_levels(run: Run, stratum: int, me: int, hits: Hits, now: Mapping[int, int]) -> None:
    """Fire what holds in a stratum, in the order of the rules; of several conjuncts of a rule the first one speaks."""
    allowed = run.allowed[stratum][0]
    if not allowed:
        return
    layer: Layer = run.subject.tables.layers[stratum]
    levels, fired = run.levels, None
    for one in chosen(layer.conjuncts, layer.tests.reached(allowed, levels)):
        rule = one.rule
        if rule is fired or (one.asked and not all(hits.enough(asked, me, now) for asked in one.asked)):
            continue
        fired = rule
        raised: tuple[tuple[str, int, int], ...] = ()
        for scale, level in rule.raises:
            was = levels.get(scale, 0)
            if level > was:
                levels[scale] = level
                raised += ((scale, was, level),)
        if not one.asked:
            firing = one.fired.get(raised)
            if firing is None:
                firing = one.fired[raised] = Firing(rule, one.conjunct, raised)
        else:
            seen = (hits.subjects[n].finding.id for asked in one.asked for n in hits.witnesses(asked, me, now))
            firing = Firing(rule, one.conjunct, raised, tuple(dict.fromkeys(seen)))
        run.firings.append(firing)


class Judgement:
    """The findings of one boat, judged together and ready to be judged again with other answers."""

    def __init__(self, kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> None:
        """Raises BadSurvey for words and levels that the knowledge does not have."""
        admit(kb, boat, findings)
        self.kb, self.boat, self.findings = kb, boat, findings
        self.subjects = [Subject(kb, boat, finding) for finding in findings]
        self.ends: Mapping[Bound, End] = {bound: End(self.subjects, bound) for bound in BOUNDS}
        self._told: dict[tuple[str, str, str], Judgement] = {}

    @property
    def evaluations(self) -> tuple[Evaluation, ...]:
        """The findings as they are judged, in their order."""
        return tuple(
            _evaluation(subject, *(self.ends[bound].runs[n].fixpoint for bound in BOUNDS))
            for n, subject in enumerate(self.subjects)
        )

    def knowing(self, fact: str, value: str, zone: str) -> Judgement:
        """The same findings with one more fact known; ``zone`` is where `BUOYANCY` was asked about."""
        key = fact, value, zone if fact == BUOYANCY else ""
        if key not in self._told:
            self._told[key] = Judgement(self.kb, self.boat.knowing(fact, value, zone), self.findings)
        return self._told[key]

    def answering(self, me: int, answers: Mapping[str, int]) -> Evaluation:
        """One finding with these scales answered so, all else as it is. Raises BadSurvey for levels that cannot be."""
        finding = self.findings[me]
        readings = {scale: Reading.at(level, "what if") for scale, level in answers.items()}
        changed = replace(finding, readings={**finding.readings, **readings})
        admit(self.kb, self.boat, [changed])
        subject = Subject(self.kb, self.boat, changed)
        return _evaluation(subject, *(self.ends[bound].changed(me, subject) for bound in BOUNDS))

    def answered_yes(self, me: int, bound: Bound) -> frozenset[Quantifier]:
        """What the finding's rules ask about others and is so."""
        hits = self.ends[bound].hits
        return frozenset(
            asked.quantifier
            for stratum, layer in enumerate(self.subjects[me].tables.layers)
            for asked in layer.asks
            if hits[stratum].enough(asked, me, {})
        )


def _evaluation(subject: Subject, lower: Fixpoint, upper: Fixpoint) -> Evaluation:
    return Evaluation(subject.finding, lower, upper, subject.begun.presumed, subject.begun.defeated)
