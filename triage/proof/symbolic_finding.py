"""Any boat and any finding as formulas: which facts are known, which scales are answered, what is presumed of others.

A symbolic boat has any facts, known or not; a symbolic finding has a zone and a sign, and each of its scales is
answered with any level a survey may give, or not at all.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from typing import TypeAlias

from triage.inference.evaluation import Bound
from triage.inference.program import CompiledPresumption, Program
from triage.knowledge.compiled.conjuncts import Conjunct
from triage.knowledge.model import SIDES, KnowledgeBase
from triage.proof.symbolic import Formula, atom, both, either, no

Choice: TypeAlias = Mapping[str, Formula]
"""What a word may be: at most one of its values holds, and while none does nobody knows it."""


class SymbolicBoat:
    """A boat of which each fact may be unknown or any of its values. ``limits`` hold of every boat there can be."""

    def __init__(self, kb: KnowledgeBase, name: str = "") -> None:
        self.kb, self.name = kb, name
        self.limits: list[Formula] = []
        self.facts = {fact.id: self.choice(f"{name}{fact.id}", fact.values) for fact in kb.facts.values()}
        self.encloses_buoyancy: dict[str, Choice] = {}

    def choice(self, name: str, values: Iterable[str]) -> Choice:
        """Atoms for these values, at most one of which holds."""
        made = {value: atom(f"{name}={value}") for value in values}
        self.limits.extend(no(both(two)) for two in itertools.combinations(made.values(), 2))
        return made

    def buoyant(self, zone: str) -> Choice:
        """Whether the zone encloses buoyancy: as the boat's owner says, or else as the zone does."""
        if zone not in self.encloses_buoyancy:
            self.encloses_buoyancy[zone] = self.choice(f"{self.name}{zone} buoyant", ("yes", "no"))
        said = self.encloses_buoyancy[zone]
        unsaid, usual = no(either(said.values())), self.kb.zones[zone].encloses_buoyancy
        return {value: either((one, both((unsaid, usual == value)))) for value, one in said.items()}


class SymbolicFinding:
    """A sign in a zone, with every scale answered anyhow or not at all, and on any side.

    ``reading[scale, n]`` says that the answer, if there is one, is level ``n`` or worse for certain;
    ``high[scale, n]``, that it may be.
    """

    def __init__(self, kb: KnowledgeBase, boat: SymbolicBoat, zone: str, sign: str, name: str = "") -> None:
        self.kb, self.boat, self.zone, self.sign, self.name = kb, boat, zone, sign, name
        self.answered = {scale: atom(f"{name}{scale}?") for scale in kb.applicable(zone, sign)}
        self.reading: dict[tuple[str, int], Formula] = {}
        self.high: dict[tuple[str, int], Formula] = {}
        self.limits: list[Formula] = []
        for fact, value in kb.zones[zone].only_if.items():
            self.limits.extend(no(other) for said, other in boat.facts[fact].items() if said != value)
        for scale in self.answered:
            for level in range(1, kb.worst(sign, scale) + 1):
                self.reading[scale, level] = self.shown(scale, level) or atom(f"{name}{scale}>={level}")
                self.high[scale, level] = self.shown(scale, level) or atom(f"{name}{scale}>={level}?")
                self.limits.append(either((no(self.reading[scale, level]), self.high[scale, level])))
                if level > kb.best(sign, scale) + 1:
                    for levels in (self.reading, self.high):
                        self.limits.append(either((no(levels[scale, level]), levels[scale, level - 1])))
        self.sided = kb.zones[zone].sided
        self.side: Choice = {}
        if self.sided:
            self.side = {side: atom(f"{name}{side}") for side in SIDES}
            self.limits.append(no(both(self.side.values())))

    def shown(self, scale: str, level: int) -> bool:
        """The sign's own picture shows this level or worse."""
        return scale in self.answered and level <= self.kb.best(self.sign, scale)

    def answered_at_least(self, scale: str, level: int, bound: Bound) -> Formula:
        """There is an answer to the scale, and at this bound it is this level or worse."""
        levels = self.reading if bound == "lower" else self.high
        return both((self.answered.get(scale, False), level == 0 or levels.get((scale, level), False)))

    def known_at_least(self, scale: str, level: int, bound: Bound) -> Formula:
        """It has been answered so, or the sign's own picture shows it."""
        return either((self.shown(scale, level), self.answered_at_least(scale, level, bound)))

    def answered_at_most(self, scale: str, level: int) -> Formula:
        """The scale has been answered, with this level or better for certain."""
        return both((self.answered.get(scale, False), no(self.high.get((scale, level + 1), False))))

    @property
    def exact(self) -> Formula:
        """Every answer means one level."""
        return both(either((no(high), self.reading[key])) for key, high in self.high.items())

    def word(self, word: str) -> Choice:
        """A fact that may differ from boat to boat, or the side."""
        if word == "side":
            return self.side
        return self.boat.buoyant(self.zone) if word == "encloses_buoyancy" else self.boat.facts.get(word, {})

    def word_is(self, word: str, values: Iterable[str], bound: Bound) -> Formula:
        """A word nobody knows matches nothing at the lower bound and anything at the upper bound."""
        choice = self.word(word)
        known_to_be = either(choice.get(value, False) for value in values)
        return known_to_be if bound == "lower" else either((known_to_be, no(either(choice.values()))))

    def initial(self, program: Program, bound: Bound) -> dict[tuple[str, int], Formula]:
        """The observed levels of the initial state at this bound: `bounds.initial_state` for every survey."""
        if bound == "lower":
            return {key: self.known_at_least(*key, bound) for key in self.reading}
        presumed = self.presumed(program)
        return {
            (scale, level): either(
                (
                    self.answered_at_least(scale, level, bound),
                    both((no(self.answered[scale]), *(no(p) for at, p in presumed.get(scale, ()) if at < level))),
                )
            )
            for scale, level in self.reading
        }

    def presumed(self, program: Program) -> dict[str, list[tuple[int, Formula]]]:
        """For each scale the levels some presumption holds it at while it is unanswered, and when it does."""
        about = self.kb.about(self.zone, self.sign)
        named = {scale for way in self.kb.named_sets(self.zone, self.sign) for scale in way}
        complete = self.named_checks_complete()
        found: dict[str, list[tuple[int, Formula]]] = {}
        for compiled in program.presumptions_for(self.zone, self.sign):
            in_force = self.in_force(compiled)
            for scale, level in compiled.presumption.presumes:
                speaks = both((scale not in about, in_force, scale not in named or complete))
                if speaks is not False:
                    found.setdefault(scale, []).append((level, speaks))
        return found

    def in_force(self, compiled: CompiledPresumption) -> Formula:
        """The presumption's condition holds on what was answered, and no answer contradicts it."""
        return both((either(map(self.rests_on, compiled.conjuncts)), no(self.contradicts(compiled))))

    def contradicts(self, compiled: CompiledPresumption) -> Formula:
        """Something that it speaks about was answered worse than it presumes, or the mark itself shows worse."""
        about = self.kb.about(self.zone, self.sign)
        presumes = compiled.presumption.presumes
        return either(self.known_at_least(scale, level + 1, "upper") for scale, level in presumes if scale not in about)

    def named_checks_complete(self) -> Formula:
        """One whole set of the named checks has been answered. Where there are none, nothing is barred."""
        ways = self.kb.named_sets(self.zone, self.sign)
        return not ways or either(both(self.answered[scale] for scale in way) for way in ways)

    def rests_on(self, conjunct: Conjunct) -> Formula:
        """The answers and facts that a conjunct of a presumption needs."""
        return both(
            (
                conjunct.fits(self.zone, self.sign),
                *(self.word_is(word, values, "lower") for word, values in conjunct.words),
                *(self.answered_at_most(scale, level) for scale, level in conjunct.bounds),
            )
        )
