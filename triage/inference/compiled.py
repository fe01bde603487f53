"""The rules by bit masks: the quick engine, and the only one that can judge again when one answer changes.

A finding's stratum is the conjunction of a few numbers, and its set bits are the conjuncts that hold. What other
findings are needed for is looked at only where such a bit asks for it. When one finding is judged otherwise, those that
ask for it are looked at again, stratum by stratum, and only where the answer to what they ask is another one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import chain

from triage.inference.bounds import initial_state_given
from triage.inference.evaluation import BOUNDS, Bound, Evaluation, Firing, Fixpoint
from triage.inference.masks import Layer, Tables, chosen, tables_of
from triage.inference.standing import Asked, Hits, stands
from triage.knowledge.compiled.conjuncts import Quantifier
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.survey.model import Boat, Finding, Reading
from triage.survey.validity import admit


def compiled(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> tuple[Evaluation, ...]:
    """Judge the findings of one boat together, at both ends of their ranges. Agrees with `evaluate` on every input.

    Raises BadSurvey for words and levels that the knowledge does not have.
    """
    return Judgement.of(kb, boat, findings).evaluations


class Subject:
    """One finding as it is before any rule is applied."""

    def __init__(self, kb: KnowledgeBase, boat: Boat, finding: Finding) -> None:
        zone = kb.zones[finding.zone]
        self.finding = finding
        self.sided = zone.sided
        self.words = boat.words(zone, finding.side)
        self.tables: Tables = tables_of(kb, finding.zone, finding.sign)
        self.allowed = self.tables.allowed(self.words)
        self.begun = initial_state_given(kb, finding, self.tables.holding(self.words, finding.upper))


class Run:
    """One finding at one end of its range, on its way through the strata."""

    def __init__(self, subject: Subject, bound: Bound) -> None:
        self.subject, self.bound = subject, bound
        self.levels = dict(subject.begun.levels(bound))
        self.firings: list[Firing] = []
        self.allowed = subject.allowed[bound]
        self.before: list[tuple[Mapping[str, int], int]] = []

    def begin(self) -> None:
        """Note how far it came before the next stratum."""
        self.before.append((self.levels.copy(), len(self.firings)))

    def until(self, stratum: int) -> Run:
        """The same finding as it came to a stratum."""
        levels, fired = self.before[stratum]
        run = Run(self.subject, self.bound)
        run.levels, run.firings, run.before = dict(levels), self.firings[:fired], self.before[:stratum]
        return run

    @property
    def fixpoint(self) -> Fixpoint:
        """The levels it came to, and what fired."""
        return Fixpoint(self.levels, tuple(self.firings))


class End:
    """All findings of a boat, judged at one end of their ranges."""

    def __init__(self, bound: Bound, runs: list[Run], hits: list[Hits]) -> None:
        """``hits`` has an entry for each stratum."""
        self.bound, self.runs, self.hits = bound, runs, hits

    @classmethod
    def of(cls, subjects: Sequence[Subject], bound: Bound) -> End:
        """The findings, judged together."""
        runs = [Run(subject, bound) for subject in subjects]
        strata = []
        for stratum in range(len(subjects[0].tables.layers) if subjects else 0):
            hits = Hits(subjects, [satisfied(run, stratum) for run in runs], bound)
            strata.append(hits)
            for me, run in enumerate(runs):
                raise_levels(run, stratum, me, hits, {})
        return cls(bound, runs, strata)

    def changed(self, subjects: Mapping[int, Subject]) -> tuple[dict[int, Run], list[Mapping[int, int]]]:
        """Some findings judged again as these subjects, and all others that are judged otherwise because of them.

        With them, by stratum, those that satisfy other quantifiers than they did, and which these are.
        """
        runs = {n: Run(subject, self.bound) for n, subject in subjects.items()}
        moved: list[Mapping[int, int]] = []
        for stratum, hits in enumerate(self.hits):
            now = {n: found for n, run in runs.items() if (found := satisfied(run, stratum)) != hits.satisfied[n]}
            moved.append(now)
            for n in self._answered_otherwise(stratum, now):
                if n not in runs:
                    runs[n] = self.runs[n].until(stratum)
            for n, run in runs.items():
                raise_levels(run, stratum, n, hits, now)
        return runs, moved

    def with_changes(self, subjects: Mapping[int, Subject]) -> End:
        """All findings, with some of them judged again as these subjects."""
        changed, moved = self.changed(subjects)
        hits = []
        for before, now in zip(self.hits, moved, strict=True):
            satisfied = [now.get(n, was) for n, was in enumerate(before.satisfied)]
            hits.append(Hits(before.placed, satisfied, self.bound) if now else before)
        return End(self.bound, [changed.get(n, run) for n, run in enumerate(self.runs)], hits)

    def _answered_otherwise(self, stratum: int, now: Mapping[int, int]) -> Iterable[int]:
        """The findings that ask something whose answer is another one now."""
        hits, moved = self.hits[stratum], 0
        for n, found in now.items():
            moved |= found ^ hits.satisfied[n]
        if not moved or len(self.runs) == 1:
            return
        for asked, alike in self._asking[stratum]:
            if moved >> asked.number & 1:
                one = next((n for n in alike if n not in now), None)  # it speaks for all that did not move themselves
                if one is not None and hits.enough(asked, one, {}) != hits.enough(asked, one, now):
                    yield from alike

    @cached_property
    def _asking(self) -> list[list[tuple[Asked, list[int]]]]:
        """By stratum, each quantifier with the findings that ask it and for which its answer must be the same."""
        found = []
        for stratum, hits in enumerate(self.hits):
            alike: dict[tuple[int, object], tuple[Asked, list[int]]] = {}
            for n, run in enumerate(self.runs):
                subject = run.subject
                for asked in subject.tables.layers[stratum].asks:
                    key = stands(subject, asked.quantifier), n in hits.standing(asked, n)
                    alike.setdefault((asked.number, key), (asked, []))[1].append(n)
            found.append(list(alike.values()))
        return found


def satisfied(run: Run, stratum: int) -> int:
    """The quantifiers of the stratum that a finding satisfies, as bits."""
    layer: Layer = run.subject.tables.layers[stratum]
    return layer.satisfied(run.allowed[stratum][1], run.levels) if layer.satisfies else 0


def raise_levels(run: Run, stratum: int, me: int, hits: Hits, now: Mapping[int, int]) -> None:
    """Fire what holds in a stratum, in the order of the rules; of several conjuncts of a rule the first one speaks."""
    run.begin()
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
            firing = one.fired.get(raised) if raised else one.idle
            if firing is None:
                firing = one.fired[raised] = Firing(rule, one.conjunct, raised)
        else:
            seen = chain.from_iterable(hits.witnesses(asked, me, now) for asked in one.asked)
            firing = Firing(rule, one.conjunct, raised, tuple(dict.fromkeys(seen)))
        run.firings.append(firing)


class Judgement:
    """The findings of one boat, judged together and ready to be judged again with other answers."""

    def __init__(self, kb: KnowledgeBase, boat: Boat, subjects: Sequence[Subject], ends: Mapping[Bound, End]) -> None:
        """Made by `of`."""
        self.kb, self.boat, self.subjects, self.ends = kb, boat, subjects, ends
        self._places = {id(subject.finding): n for n, subject in enumerate(subjects)}
        self._told: dict[tuple[str, str, str], Judgement] = {}

    @classmethod
    def of(cls, kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> Judgement:
        """Raises BadSurvey for words and levels that the knowledge does not have."""
        admit(kb, boat, findings)
        subjects = [Subject(kb, boat, finding) for finding in findings]
        return cls(kb, boat, subjects, {bound: End.of(subjects, bound) for bound in BOUNDS})

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
            self._told[key] = self._knowing(*key)
        return self._told[key]

    def _knowing(self, fact: str, value: str, zone: str) -> Judgement:
        boat = self.boat.knowing(fact, value, zone)
        admit(self.kb, boat, ())
        changed = {
            n: Subject(self.kb, boat, one.finding)
            for n, one in enumerate(self.subjects)
            if fact in one.tables.heard and zone in ("", one.finding.zone)
        }
        subjects = [changed.get(n, one) for n, one in enumerate(self.subjects)]
        return Judgement(self.kb, boat, subjects, {b: end.with_changes(changed) for b, end in self.ends.items()})

    def answering(self, finding: Finding, answers: Mapping[str, int]) -> Evaluation:
        """One of the findings with these scales answered so. Raises BadSurvey for levels that cannot be."""
        me = self._places[id(finding)]
        readings = {scale: Reading.at(level, "what if") for scale, level in answers.items()}
        changed = replace(finding, readings={**finding.readings, **readings})
        admit(self.kb, self.boat, [changed])
        subject = Subject(self.kb, self.boat, changed)
        return _evaluation(subject, *(self.ends[bound].changed({me: subject})[0][me].fixpoint for bound in BOUNDS))

    def answered_yes(self, finding: Finding, bound: Bound) -> frozenset[Quantifier]:
        """What the rules for one of the findings ask about others and is so."""
        me = self._places[id(finding)]
        hits = self.ends[bound].hits
        return frozenset(
            asked.quantifier
            for stratum, layer in enumerate(self.subjects[me].tables.layers)
            for asked in layer.asks
            if hits[stratum].enough(asked, me, {})
        )


def _evaluation(subject: Subject, lower: Fixpoint, upper: Fixpoint) -> Evaluation:
    return Evaluation(subject.finding, lower, upper, subject.begun.presumed, subject.begun.defeated)
