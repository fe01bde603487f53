"""What other answers to a finding could come to, tried by the hundred: the ground on which questions are chosen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, reduce
from operator import or_

from triage.inference.bounds import picture_of
from triage.inference.compiled import Judgement, Subject
from triage.inference.evaluation import BOUNDS
from triage.inference.program import CompiledPresumption, program_of
from triage.inference.terms import ASKED_ABOUT, Term, terms_of
from triage.knowledge.model import BUOYANCY
from triage.survey.model import Finding, Reading

Pair = tuple[float, float]
"""How likely something is on marks of one kind and of another."""


@dataclass(frozen=True)
class Prospect:
    """What some answers come to: the best and the worst level of each of `ASKED_ABOUT`, and what it still hangs on.

    ``threats`` are what could still make it worse: the levels not yet observed (as `Outlook` counts them) and the
    unknown facts that would do so together. ``in_play`` names the scales and the facts in them.
    """

    ranges: tuple[tuple[int, int], ...]
    threats: frozenset[tuple[int, frozenset[str]]]
    in_play: frozenset[str]

    @property
    def width(self) -> int:
        """How many levels are still open; 0 when all is settled."""
        return sum(worst - best for best, worst in self.ranges)


class Outlook:
    """Other answers to one finding, the other findings of the boat left as they are now.

    Where an answer here would also change another finding on which this one rests, the true range can be narrower.
    """

    def __init__(self, judgement: Judgement, finding: Finding) -> None:
        """``finding`` is one of those that were judged together."""
        self.kb, self.boat, self.finding = judgement.kb, judgement.boat, finding
        self._judgement = judgement
        self._tried: dict[frozenset[tuple[str, int]], Prospect] = {}
        self._told: dict[tuple[str, str], Outlook] = {}

    @cached_property
    def rests_on(self) -> frozenset[str]:
        """The scales and the facts whose answers some presumption here waits for."""
        conjuncts = [conjunct for presuming in self._presuming for conjunct in presuming.conjuncts]
        return frozenset(name for conjunct in conjuncts for name, _ in (*conjunct.bounds, *conjunct.words))

    @cached_property
    def unknown_facts(self) -> Mapping[str, tuple[str, ...]]:
        """Facts that may matter here and that were neither told nor sought in vain, with their values."""
        return {fact: values for fact, values in self._untold.items() if not self._sought_in_vain(fact)}

    @cached_property
    def attempted_facts(self) -> Mapping[str, tuple[str, ...]]:
        """Facts that may matter here and that were sought in vain, with their values."""
        return {fact: values for fact, values in self._untold.items() if self._sought_in_vain(fact)}

    def _sought_in_vain(self, fact: str) -> bool:
        return (fact, self.finding.zone if fact == BUOYANCY else "") in self.boat.attempted

    @cached_property
    def _untold(self) -> Mapping[str, tuple[str, ...]]:
        values = {fact.id: tuple(fact.values) for fact in self.kb.facts.values()} | {BUOYANCY: ("yes", "no")}
        heard = self.rests_on.union(*(term.unknown for some in self._terms.values() for term in some))
        return {fact: values[fact] for fact in values if fact in heard and fact not in self._words}

    def equivalence_classes(self, scale: str) -> list[list[int]]:
        """The levels that the sign and the answer so far allow, mildest first, in classes that nothing tells apart."""
        sign, lower, upper = self.finding.sign, self.finding.lower, self.finding.upper
        best, worst = self.kb.best(sign, scale), self.kb.worst(sign, scale)
        classes: list[list[int]] = []
        for level in range(max(best, lower.get(scale, best)), upper.get(scale, worst) + 1):
            if not classes or (scale, level) in self._limits:
                classes.append([])
            classes[-1].append(level)
        return classes

    @cached_property
    def _limits(self) -> frozenset[tuple[str, int]]:
        """The levels at which something changes for a term or a presumption."""
        terms = terms_of(self.kb, self.finding.zone, self.finding.sign)
        limits = {step for some in terms.values() for term in some for step in term.levels.items()}
        for presuming in self._presuming:
            good = [*presuming.presumption.presumes, *(b for conjunct in presuming.conjuncts for b in conjunct.bounds)]
            limits.update((scale, level + 1) for scale, level in good)
        return frozenset(limits)

    @property
    def _presuming(self) -> tuple[CompiledPresumption, ...]:
        return program_of(self.kb).presumptions_for(self.finding.zone, self.finding.sign)

    @cached_property
    def _words(self) -> Mapping[str, str]:
        return self.boat.words(self.kb.zones[self.finding.zone], self.finding.side)

    def knowing(self, fact: str, value: str) -> Outlook:
        """The outlook with one more fact known."""
        if (fact, value) not in self._told:
            self._told[fact, value] = Outlook(self._judgement.knowing(fact, value, self.finding.zone), self.finding)
        return self._told[fact, value]

    def answering(self, answers: Mapping[str, int]) -> Prospect:
        """What it comes to when these scales are answered so, all else as it is."""
        key = frozenset(answers.items())
        if key not in self._tried:
            readings = {scale: Reading.at(level, "what if") for scale, level in answers.items()}
            finding = replace(self.finding, readings={**self.finding.readings, **readings})
            begun = Subject(self.kb, self.boat, finding).begun
            self._tried[key] = self._prospect(begun.lower, begun.upper)
        return self._tried[key]

    def best_chances(self, first: Pair, answers: Mapping[str, Mapping[int, Pair]]) -> dict[int, Pair]:
        """How often the best of the first of `ASKED_ABOUT` is each level, where scales are answered by chance.

        ``first`` is how common either kind of mark is, ``answers`` the chances of each level of a scale on them. Exact:
        ways of answering that no term tells apart are gone through as one. What still may be worse is left out.
        """
        left = reduce(or_, (self._ladder[scale] for scale in answers), 0)
        reached = {self._telling(self._shown, left): first}
        for scale, chances in answers.items():
            left &= ~self._ladder[scale]
            reached = _summed(
                (self._telling(known | self._bits({scale: level}), left), (one * of_one, other * of_other))
                for known, (one, other) in reached.items()
                for level, (of_one, of_other) in chances.items()
            )
        return _summed((self._best(known), kinds) for known, kinds in reached.items())

    def _best(self, known: int) -> int:
        return next((level for level, needs in self._certain if not needs & ~known), 0)

    def _telling(self, known: int, left: int) -> int:
        """Of what is reached, the bits that still make a difference when only ``left`` may be reached too."""
        telling = 0
        for _, needs in self._certain:
            if not needs & ~known:
                return telling | needs
            if not needs & ~known & ~left:
                telling |= needs & known
        return telling

    @cached_property
    def _shown(self) -> int:
        """What is reached however the rest is answered: what the picture shows, and the answers at their low ends."""
        picture = picture_of(self.kb, self.finding.zone, self.finding.sign)
        return self._bits(picture.shown) | self._bits(self.finding.lower)

    @cached_property
    def _certain(self) -> list[tuple[int, int]]:
        """What is enough for a level of the first of `ASKED_ABOUT`, the worst level first."""
        own = [(level, terms) for (scale, level), terms in self._terms.items() if scale == ASKED_ABOUT[0]]
        return [(level, term.needs) for level, terms in sorted(own, reverse=True) for term in terms if term.certain]

    def _prospect(self, lower: Mapping[str, int], upper: Mapping[str, int]) -> Prospect:
        known, possible = self._bits(lower), self._bits(upper)
        ends = dict.fromkeys(ASKED_ABOUT, (0, 0))
        threats: set[tuple[int, frozenset[str]]] = set()
        for (scale, level), terms in self._terms.items():
            alive = [term for term in terms if not term.needs & ~possible]
            certain = any(term.certain and not term.needs & ~known for term in alive)
            best, worst = ends[scale]
            ends[scale] = (level if certain else best, level if alive else worst)
            if not certain:
                threats.update(_fewest_threats(alive, known))
        missing = reduce(or_, (needs for needs, _ in threats), 0)
        scales = {scale for scale, bits in self._ladder.items() if missing & bits}
        in_play = frozenset(scales.union(*(facts for _, facts in threats)))
        return Prospect(tuple(ends.values()), frozenset(threats), in_play)

    @cached_property
    def _ladder(self) -> Mapping[str, int]:
        """For each scale that applies, its levels from 1 up as bits of a number, the mildest lowest."""
        ladder, used = {}, 0
        for scale in self.kb.applicable(self.finding.zone, self.finding.sign):
            top = self.kb.scales[scale].top
            ladder[scale] = ((1 << top) - 1) << used
            used += top
        return ladder

    def _bits(self, levels: Mapping[str, int]) -> int:
        """These levels, with all below them, as bits; so that reaching a level is having its bit."""
        bits = 0
        for scale, level in levels.items():
            ladder = self._ladder[scale]
            lowest = ladder & -ladder
            bits |= ladder & ((lowest << level) - lowest)
        return bits

    @cached_property
    def _terms(self) -> Mapping[tuple[str, int], list[_Here]]:
        """The terms that can hold on this boat beside these other findings."""
        terms = terms_of(self.kb, self.finding.zone, self.finding.sign)
        asked = any(term.quantifiers for some in terms.values() for term in some)
        hold = {bound: self._judgement.answered_yes(self.finding, bound) if asked else frozenset() for bound in BOUNDS}
        return {
            outcome: [
                _Here(
                    self._bits(term.levels),
                    unknown := frozenset(word for word, _ in term.words if word not in self._words),
                    not unknown and term.quantifiers <= hold["lower"],
                )
                for term in some
                if _can_hold(term, self._words) and term.quantifiers <= hold["upper"]
            ]
            for outcome, some in terms.items()
        }


@dataclass(frozen=True)
class _Here:
    """A term on this boat: the levels it needs as bits, the facts nobody knows, whether nothing else is in doubt."""

    needs: int
    unknown: frozenset[str]
    certain: bool


def _summed(parts: Iterable[tuple[int, Pair]]) -> dict[int, Pair]:
    sums: dict[int, Pair] = {}
    for key, (one, other) in parts:
        so_far = sums.get(key, (0.0, 0.0))
        sums[key] = so_far[0] + one, so_far[1] + other
    return sums


def _fewest_threats(terms: Iterable[_Here], known: int) -> Iterator[tuple[int, frozenset[str]]]:
    """What each term still lacks, without those that ask for more than what is enough by itself.

    Who knows that glass is broken is not sent to press it, because some other line might break it too.
    """
    lacking = {(term.needs & ~known, term.unknown, term.certain) for term in terms}
    enough = {needs for needs, _, certain in lacking if certain}
    for needs, unknown, certain in lacking:
        if not any(other & needs == other and (other != needs or not certain) for other in enough):
            yield needs, unknown


def _can_hold(term: Term, words: Mapping[str, str]) -> bool:
    return all(words[word] in values for word, values in term.words if word in words)
