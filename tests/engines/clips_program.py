"""The rules of a knowledge base as CLIPS constructs, written from the conditions as they stand in the rules.

Facts about one boat: (finding …) and (boat …) once for each bound, with `unknown` at the lower and ANYTHING at the
upper for a word that nobody knows; (answered …), (open …), (shown …), (about …) and (named …) for the levels at both
ends and for what presumptions need.
Conclusions: (raised ?finding ?bound ?scale ?level) for "at least this level", one for each step up to it; (fired …).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import combinations, product

from triage.inference.evaluation import BOUNDS
from triage.knowledge.model import SIDES, KnowledgeBase, Presumption, Rule
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is

IN_FINDING = ("zone", "sign", "side", "encloses_buoyancy")
IN_ZONE = ("criticality", "load", "below_water", "group")

PROGRAM = """
(deftemplate zone (slot id) (slot sided) (slot criticality) (slot load) (slot below_water) (multislot group))
(deftemplate finding (slot n) (slot bound) (slot zone) (slot sign)
  (slot side (default unknown)) (slot encloses_buoyancy (default unknown)))
(deftemplate raised (slot n) (slot bound) (slot scale) (slot level))
(deftemplate fired (slot n) (slot bound) (slot rule))
(deftemplate answered (slot n) (slot scale) (slot low) (slot level))
(deftemplate open (slot n) (slot scale) (slot worst))
(deftemplate shown (slot n) (slot scale) (slot level))
(deftemplate about (slot n) (slot scale))
(deftemplate named (slot n) (slot way) (slot scale))
(deftemplate presumes (slot presumption) (slot scale) (slot level))
(deftemplate holds (slot n) (slot presumption))
(deftemplate defeated (slot n) (slot presumption))
(deftemplate complete (slot n))
(deftemplate presumed (slot n) (slot scale) (slot level))

(deffunction raise (?n ?bound ?scale ?level)
  (loop-for-count (?step 1 ?level) (assert (raised (n ?n) (bound ?bound) (scale ?scale) (level ?step)))))

(defrule one-whole-set-is-answered (declare (salience 40))
  (named (n ?n) (way ?way))
  (forall (named (n ?n) (way ?way) (scale ?s)) (answered (n ?n) (scale ?s)))
  => (assert (complete (n ?n))))

(defrule an-answer-contradicts (declare (salience 30))
  (holds (n ?n) (presumption ?p)) (presumes (presumption ?p) (scale ?s) (level ?taken))
  (or (answered (n ?n) (scale ?s) (level ?said&:(> ?said ?taken)))
      (shown (n ?n) (scale ?s) (level ?said&:(> ?said ?taken))))
  (not (about (n ?n) (scale ?s)))
  => (assert (defeated (n ?n) (presumption ?p))))

(defrule a-presumption-speaks (declare (salience 20))
  (holds (n ?n) (presumption ?p)) (not (defeated (n ?n) (presumption ?p)))
  (presumes (presumption ?p) (scale ?s) (level ?taken))
  (open (n ?n) (scale ?s))
  (not (about (n ?n) (scale ?s)))
  (or (not (named (n ?n) (scale ?s))) (complete (n ?n)))
  => (assert (presumed (n ?n) (scale ?s) (level ?taken))))

(defrule an-answer-counts-at-both-ends (declare (salience 10))
  (answered (n ?n) (scale ?s) (low ?least) (level ?most))
  => (raise ?n lower ?s ?least) (raise ?n upper ?s ?most))

(defrule what-the-mark-shows-is-certain (declare (salience 10))
  (shown (n ?n) (scale ?s) (level ?least))
  => (raise ?n lower ?s ?least))

(defrule an-open-scale-is-at-its-worst (declare (salience 10))
  (open (n ?n) (scale ?s) (worst ?worst)) (not (presumed (n ?n) (scale ?s) (level ?l&:(< ?l ?worst))))
  => (raise ?n upper ?s ?worst))

(defrule or-as-presumed (declare (salience 10))
  (open (n ?n) (scale ?s) (worst ?worst)) (presumed (n ?n) (scale ?s) (level ?taken&:(< ?taken ?worst)))
  (not (presumed (n ?n) (scale ?s) (level ?l&:(< ?l ?taken))))
  => (raise ?n upper ?s ?taken))
"""


def constructs(kb: KnowledgeBase) -> Iterator[str]:
    """The whole program, construct by construct."""
    yield from re.split(r"\n+(?=\(def)", PROGRAM.strip())
    slots = " ".join(f"(slot {fact} (default unknown))" for fact in kb.facts)
    yield f"(deftemplate boat (slot bound) {slots})"
    yield f"(deffacts zones {' '.join(_zones(kb))})"
    yield f"(deffacts sides {' '.join(_sides())})"
    for number, presumption in enumerate(kb.presumptions):
        yield from _presumption(number, presumption)
    for number, rule in enumerate(kb.rules):
        yield _rule(number, rule)


def _zones(kb: KnowledgeBase) -> Iterator[str]:
    for zone in kb.zones.values():
        sided = "yes" if zone.sided else "no"
        yield (
            f"(zone (id {zone.id}) (sided {sided}) (criticality {zone.criticality}) (load {zone.load})"
            f" (below_water {zone.below_water}) (group {' '.join(zone.groups)}))"
        )


def _sides() -> Iterator[str]:
    """Which sides face each other, and which are the same; at the upper bound an unknown side may be either."""
    for mine, its in product(SIDES, SIDES):
        for bound in BOUNDS:
            yield f"({'beside' if mine == its else 'facing'} {bound} {mine} {its})"
    for mine, its in product((*SIDES, "ANYTHING"), repeat=2):
        if "ANYTHING" in (mine, its):
            yield f"(beside upper {mine} {its}) (facing upper {mine} {its})"


def _rule(number: int, rule: Rule) -> str:
    raises = " ".join(f"(raise ?n ?b {scale} {level})" for scale, level in rule.raises)
    fired = f"(assert (fired (n ?n) (bound ?b) (rule {number})))"
    return f"(defrule rule-{number} {_Pattern('?n').of(rule.when)} => {fired} {raises})"


def _presumption(number: int, presumption: Presumption) -> Iterator[str]:
    taken = (f"(presumes (presumption {number}) (scale {s}) (level {level}))" for s, level in presumption.presumes)
    yield f"(deffacts presumes-{number} {' '.join(taken)})"
    when = f"(finding (n ?n) (bound ?b&lower)) {_Pattern('?n').of(presumption.when)}"
    holds = f"(assert (holds (n ?n) (presumption {number})))"
    yield f"(defrule presumption-{number} (declare (salience 50)) {when} => {holds})"


class _Pattern:
    """Writes the patterns for one finding, whose number CLIPS knows by the variable ``me``."""

    def __init__(self, me: str) -> None:
        self.me = me
        self.variables = 0

    def of(self, condition: Condition) -> str:
        """The finding itself with the words asked of it, then everything else."""
        parts = condition.parts if isinstance(condition, All) else (condition,)
        words = {part.word: part for part in parts if isinstance(part, Is) and part.word in IN_FINDING}
        slots = (f"({word} {self.me}-{word}{_asked(words.get(word))})" for word in IN_FINDING)
        rest = (self.ask(part) for part in parts if part not in words.values())
        return f"(finding (n {self.me}) (bound ?b) {' '.join(slots)}) {' '.join(rest)}"

    def ask(self, condition: Condition) -> str:
        """The condition as CLIPS would write it."""
        match condition:
            case Is(word, values):
                return self.word(word, values)
            case AtLeast(scale, level):
                return f"(raised (n {self.me}) (bound ?b) (scale {scale}) (level {level}))"
            case AtMost(scale, level):
                said = self.fresh()
                return f"(answered (n {self.me}) (scale {scale}) (level {said}&:(<= {said} {level})))"
            case All(parts):
                return " ".join(self.ask(part) for part in parts)
            case Any(parts):
                return f"(or {' '.join(f'(and {self.ask(part)})' for part in parts)})"
            case Elsewhere():
                return self.elsewhere(condition)

    def word(self, word: str, values: Sequence[str]) -> str:
        if word == "group":
            return f"(zone (id {self.me}-zone) (group $? {'|'.join(values)} $?))"
        if word in IN_ZONE:
            return f"(zone (id {self.me}-zone) ({word} {'|'.join(values)}))"
        one_of = "|".join((*values, "ANYTHING"))
        where = f"finding (n {self.me})" if word in IN_FINDING else "boat"
        return f"({where} (bound ?b) ({word} {one_of}))"

    def elsewhere(self, asked: Elsewhere) -> str:
        """As many other findings, all different; each is joined in by a pattern of its own."""
        others = [self.fresh() for _ in range(asked.count)]
        told = []
        for other in others:
            told.append(_Pattern(other).of(asked.condition))
            told.append(self.stands(asked, other))
        different = [f"(neq {one} {two})" for one, two in combinations([self.me, *others], 2)]
        return f"{' '.join(told)} (test (and {' '.join(different)} TRUE))"

    def stands(self, asked: Elsewhere, other: str) -> str:
        zone, side, its_zone, its_side = f"{self.me}-zone", f"{self.me}-side", f"{other}-zone", f"{other}-side"
        if asked.where == "twin":
            return f"(zone (id {zone}&{its_zone}) (sided yes)) (facing ?b {side} {its_side})"
        if asked.where == "same side":
            return f"(or (zone (id {zone}|{its_zone}) (sided no)) (beside ?b {side} {its_side}))"
        return ""

    def fresh(self) -> str:
        self.variables += 1
        return f"{self.me}-{self.variables}"


def _asked(word: Is | None) -> str:
    return "" if word is None else "&" + "|".join((*word.values, "ANYTHING"))
