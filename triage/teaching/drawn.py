"""Cases drawn from the rules: the same name draws the same case, on any machine."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace

from triage.concluding.assess import assess_survey
from triage.conclusions.ranges import is_open
from triage.errors import BadInput, CannotWork, Place, Problem
from triage.inference.compiled import compiled
from triage.knowledge.model import NOTHING_SEEN, VERDICT, KnowledgeBase
from triage.knowledge.model.teaching import Lesson
from triage.knowledge.per_knowledge import per_knowledge
from triage.parsing.text import did_you_mean
from triage.survey.validity import doubts
from triage.teaching.boats import Drawing, TrueBoat, Wanted
from triage.teaching.cases import DIFFICULTIES, Case, first_visit
from triage.teaching.cheapest import cheapest_way
from triage.teaching.confusions import Pair, marks_of, name_of, pair_named, places_of
from triage.teaching.edges import difficulty_of

MOST_DRAWN, EACH = 600, 20
"""Boats that are drawn for one case, until one is as it was wanted; and how many about one kind of mark, before another
is chosen where any will do.
"""


@dataclass(frozen=True)
class Named:
    """What a case's name says: its seed, and how hard and about what it is to be; empty is any.

    Of ``confusion`` (one that is taught) it is one of the two that look alike, whatever else is asked for.
    """

    seed: int
    difficulty: str = ""
    pair: Pair | None = None
    place: str = ""
    mark: str = ""
    confusion: str = ""

    def __str__(self) -> str:
        parts = (
            str(self.seed),
            self.difficulty,
            name_of(self.pair) if self.pair else "",
            self.place,
            self.mark,
            self.confusion,
        )
        return ":".join(part for part in parts if part)

    @property
    def of_any_kind(self) -> bool:
        """Whether it may be about any mark at any place."""
        return not (self.pair or self.place or self.mark or self.confusion)

    def wanted(self, kb: KnowledgeBase, chance: random.Random) -> Wanted:
        """The marks it is to be about: of a pair, at a place that may show either; of a confusion, one of the two."""
        if self.confusion:
            found = marks_of(kb, kb.teaching.confusions[self.confusion])
            zone, sign, levels = chance.choice(found) if found else ("", "", {})
            return Wanted(frozenset([sign]), frozenset([zone]), levels)
        if self.of_any_kind:
            _, sign = chance.choice(_to_be_tried(kb))
            return Wanted(frozenset([sign]), frozenset(kb.offers))
        zones = frozenset(places_of(kb, self.pair)) if self.pair else frozenset(kb.offers)
        signs = frozenset(self.pair or kb.signs)
        return Wanted(
            signs & {self.mark} if self.mark else signs,
            zones & {self.place} if self.place else zones,
        )


def draw_case(kb: KnowledgeBase, seed: int, difficulty: str = "", pair: Pair | None = None) -> Case:
    """The case of this seed: a true boat on which everything holds together and the answer is settled.

    ``difficulty`` (see `DIFFICULTIES`) and ``pair`` (of marks that one place may show) say what it should be; left
    out, anything. Raises CannotWork when no such boat was drawn.
    """
    return draw(kb, Named(seed, difficulty, pair))


def draw(kb: KnowledgeBase, named: Named) -> Case:
    """The case of this name. Raises CannotWork when no such boat was drawn.

    Where any mark will do, the verdicts are alike often and each mark as often as there are places that may show it.
    """
    chance = random.Random(f"case {named}")
    verdicts = range(len(kb.scales[VERDICT].levels))
    verdict = chance.choice(verdicts) if named.of_any_kind else None
    wanted = named.wanted(kb, chance)
    for number in range(1, MOST_DRAWN + 1):
        drawn = Drawing(kb, chance, wanted).boat()
        among = verdicts if verdict is None or number > MOST_DRAWN // 2 else (verdict,)
        if drawn is not None and (case := _case(kb, named, drawn, among)) is not None:
            return case
        if named.of_any_kind and number % EACH == 0:
            wanted = named.wanted(kb, chance)
    raise CannotWork(f"No case {named} could be drawn: such a mark is not met there. Ask for less, or another number.")


@per_knowledge
def _to_be_tried(kb: KnowledgeBase) -> tuple[tuple[str, str], ...]:
    """The marks of which some check of a visit tells something."""
    met = [(zone, sign) for zone, signs in kb.offers.items() for sign in signs if sign != NOTHING_SEEN]
    return tuple((zone, sign) for zone, sign in met if first_visit(kb, zone, sign))


def _case(kb: KnowledgeBase, named: Named, drawn: TrueBoat, verdicts: Sequence[int]) -> Case | None:
    survey = drawn.survey
    if any(True for _ in doubts(kb, survey)):
        return None
    at_sight = kb.teaching.confusions[named.confusion].at_sight if named.confusion else ""
    case = Case(str(named), survey, survey.findings[0].id, drawn.cause, at_sight=at_sight)
    judged = compiled(kb, survey.boat, survey.marks)[0]
    if is_open(judged) or judged.interval(VERDICT)[1] not in verdicts:
        return None
    way = cheapest_way(kb, case)
    if way is None or not _tells_of_its_cause(kb, case):
        return None
    difficulty = difficulty_of(kb, case, len(way))
    if named.difficulty and difficulty != named.difficulty:
        return None
    return replace(case, difficulty=difficulty)


def _tells_of_its_cause(kb: KnowledgeBase, case: Case) -> bool:
    """Whether what made it is an answer that its marks and story bear out."""
    return not case.cause or any(
        one.id == case.cause and one.worth_telling and case.focus in one.findings
        for one in assess_survey(case.truth, kb).causes
    )


def cases_of(kb: KnowledgeBase, lesson: Lesson, first: int = 1) -> tuple[Case, ...]:
    """The cases of a lesson, drawn from the number ``first`` on. Raises CannotWork."""
    found: list[Case] = []
    for case in lesson.cases:
        for _ in range(case.count):
            named = Named(first + len(found), place=case.zone, mark=case.sign, confusion=case.confusion)
            found.append(draw(kb, named))
    return tuple(found)


def case_named(kb: KnowledgeBase, name: str) -> Case:
    """The case of this name, such as 17, 17:hard, 17:hard:crazing/hairline or 17:coat_or_glass. Raises BadInput."""
    seed, *others = name.split(":")
    if not (seed.isascii() and seed.isdecimal()) or len(seed) > len("1000000"):
        raise BadInput([Problem(Place("the case"), f'"{name}" is no name of a case', "Give its number, such as 17.")])
    named = Named(int(seed))
    for other in others:
        if other in DIFFICULTIES:
            named = replace(named, difficulty=other)
        elif other in kb.zones:
            named = replace(named, place=other)
        elif other in kb.signs and other != NOTHING_SEEN:
            named = replace(named, mark=other)
        elif other in kb.teaching.confusions:
            named = replace(named, confusion=other)
        elif "/" in other:
            named = replace(named, pair=pair_named(kb, other))
        else:
            known = did_you_mean(other, (*DIFFICULTIES, *kb.zones, *kb.signs, *kb.teaching.confusions))
            hint = f"{known} It can be {', '.join(DIFFICULTIES)}, a mark, two marks with a stroke between, or a place."
            raise BadInput([Problem(Place("the case"), f'"{other}" says nothing about a case', hint.strip())])
    return draw(kb, named)
