"""Which question next: the one ranking of checks and boat facts, for interviews, reports and pages alike.

A question is worth asking while some answer to it changes what is concluded. It is worth the more, the further it can
be expected to narrow the range of verdict, afloat and tow, and the less, the more trouble it takes to answer.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from triage.asking.effort import ANSWERING, WITH_ALL, Resources, at_hand, effort
from triage.asking.probabilities import level_chances, value_chances
from triage.asking.told import FINDING_OUT
from triage.conclusions.ranges import is_open
from triage.inference.evaluation import Evaluation
from triage.inference.outlook import Outlook, Prospect
from triage.inference.whatif import WhatIf
from triage.knowledge.model import Check, KnowledgeBase

TRIES = 400
"""How many ways to a settled answer are tried before the search is given up."""

AT_FIRST = 3
"""How many questions are told at first; the most valuable one is among them."""


@dataclass(frozen=True)
class Option:
    """A question worth asking: a scale, read by a check, or a fact about the boat (then without a check).

    ``answers`` holds one answer for each class that something tells apart, mildest first. ``effort`` is in minutes,
    weighted by what has to be taken apart and by what goes by in waiting. ``expected_reduction``: by how many levels of
    verdict, afloat and tow together the range can be expected to close.
    """

    ask: str
    check: Check | None
    answers: tuple[int | str, ...]
    effort: float
    expected_reduction: float

    @property
    def value_of_information(self) -> float:
        """Expected reduction per minute; a check that often misses what is there counts for less."""
        return self.expected_reduction * (1 - self.check.misses if self.check else 1) / self.effort


def ranked(
    kb: KnowledgeBase, judged: Evaluation, whatif: WhatIf, means: Resources = WITH_ALL, *, again: bool = False
) -> tuple[Option, ...]:
    """The questions that can still change what is concluded, the most useful first; none once it is settled.

    At a place that carries the boat's main loads, the named checks and the reading that the mark itself is come before
    all others: they are what must not be missed. Then come the questions that lie on a shortest way to a settled answer
    if all is well: facts of the boat that narrow it first, because how she is built is found out once,
    then the check that narrows most per minute. Whatever comes first, that check is among the first `AT_FIRST`.
    ``again`` ranks what was tried in vain, or answered by more than one level, among the others.
    """
    if not is_open(judged):
        return ()
    outlook = whatif.outlook
    found = [*options(kb, whatif, means), *(_tried(kb, whatif, means) if again else ())]
    asked = {option.ask: option for option in found if _in_play(outlook, option)}
    if not _can_change(outlook, list(asked.values())):
        return ()
    first, short = _first(kb, judged), _shortest(kb, outlook, asked)
    order = sorted(
        asked.values(),
        key=lambda o: (
            o.ask not in first,
            o.ask not in short,
            o.check is not None or not o.expected_reduction,
            -o.value_of_information,
            o.effort,
            o.ask,
        ),
    )
    return _most_valuable_early(order, len(first & asked.keys()))


def _most_valuable_early(order: list[Option], first: int) -> tuple[Option, ...]:
    """The same order, but the one worth most behind the ``first`` comes among `AT_FIRST`, or next to them."""
    if len(order) == first:
        return tuple(order)
    best = max(order[first:], key=lambda option: option.value_of_information)
    place = min(order.index(best), max(AT_FIRST - 1, first))
    order.remove(best)
    return (*order[:place], best, *order[place:])


def options(kb: KnowledgeBase, whatif: WhatIf, means: Resources = WITH_ALL) -> list[Option]:
    """Every question about a finding that was not answered or tried, whether it still matters or not."""
    outlook = whatif.outlook
    scales = (_of_scale(kb, outlook, scale, means) for scale in whatif.unanswered)
    facts = (_of_fact(kb, outlook, fact, values) for fact, values in outlook.unknown_facts.items())
    return [option for option in (*scales, *facts) if option is not None]


def _tried(kb: KnowledgeBase, whatif: WhatIf, means: Resources) -> list[Option]:
    """Every question about a finding that was tried in vain, or answered by more than one level."""
    outlook = whatif.outlook
    facts = (_of_fact(kb, outlook, fact, values) for fact, values in outlook.attempted_facts.items())
    scales = (_of_scale(kb, outlook, scale, means) for scale in whatif.attempted)
    return [option for option in (*scales, *facts) if option is not None]


def _in_play(outlook: Outlook, option: Option) -> bool:
    """Whether it still hangs on this, or on what a good answer to this would let us presume."""
    now = outlook.answering({})
    if option.ask in now.in_play:
        return True
    return option.ask in outlook.rests_on and any(
        prospect(outlook, {option.ask: answer}).threats != now.threats for answer in option.answers
    )


def _can_change(outlook: Outlook, asked: Sequence[Option]) -> bool:
    """Whether answering all of these can come to anything else; what was tried in vain may leave them without use.

    Levels are monotone, so the mildest and the gravest answers show it; facts are tried in every combination.
    """
    facts = [option for option in asked if option.check is None]
    scales = [option for option in asked if option.check is not None]
    now = outlook.answering({}).ranges
    for values in itertools.product(*(option.answers for option in facts)):
        known = dict(zip((option.ask for option in facts), values, strict=True))
        for end in (0, -1):
            answers = known | {option.ask: option.answers[end] for option in scales}
            if prospect(outlook, answers).ranges != now:
                return True
    return False


def prospect(outlook: Outlook, answers: Mapping[str, int | str]) -> Prospect:
    """What these answers, levels of scales and values of facts, come to."""
    levels = {}
    for name, answer in answers.items():
        if isinstance(answer, int):
            levels[name] = answer
        else:
            outlook = outlook.knowing(name, answer)
    return outlook.answering(levels)


def _first(kb: KnowledgeBase, judged: Evaluation) -> set[str]:
    zone, sign = judged.finding.zone, judged.finding.sign
    if kb.zones[zone].criticality != "primary":
        return set()
    return {scale for way in kb.named_sets(zone, sign) for scale in way} | set(kb.about(zone, sign))


def _shortest(kb: KnowledgeBase, outlook: Outlook, asked: Mapping[str, Option]) -> set[str]:
    """The questions on any of the shortest ways to a settled answer, if each is answered as well as it can be.

    Facts are taken as they most often are. All of them, when no way was found within `TRIES`.
    """
    well = {option.ask: at_best(kb, option) for option in asked.values()}
    ways: set[frozenset[str]] = {frozenset()}
    tried = 0
    while ways:
        longer: set[frozenset[str]] = set()
        arrived: set[str] = set()
        for way in ways:
            ahead = prospect(outlook, {ask: well[ask] for ask in way})
            if not ahead.width:
                arrived |= way
            longer.update(way | {ask} for ask in well.keys() & (ahead.in_play | outlook.rests_on) - way)
        tried += len(ways)
        if arrived:
            return arrived
        ways = longer if tried + len(longer) <= TRIES else set()
    return set(well)


def at_best(kb: KnowledgeBase, option: Option) -> int | str:
    """The best answer to a scale, the most frequent one to a fact."""
    if option.check is not None:
        return option.answers[0]
    values = [str(answer) for answer in option.answers]
    chances = value_chances(kb, option.ask, values)
    return max(values, key=lambda value: chances[value])


def _of_scale(kb: KnowledgeBase, outlook: Outlook, scale: str, means: Resources) -> Option | None:
    """The question that a scale is; None when nobody has a check that reads it there."""
    checks = kb.checks_for(scale, outlook.finding.zone)
    if not checks:
        return None
    check = at_hand(checks, means)
    each = level_chances(kb, outlook.finding, scale)
    classes = outlook.equivalence_classes(scale)
    chances = {levels[0]: sum(each[level] for level in levels) for levels in classes}
    trouble_taken = effort(check, means, made=any(other in outlook.finding.answered for other in check.reads))
    return Option(scale, check, tuple(chances), trouble_taken, _expected_reduction(outlook, scale, chances))


def _of_fact(kb: KnowledgeBase, outlook: Outlook, fact: str, values: Sequence[str]) -> Option:
    chances = value_chances(kb, fact, values)
    return Option(fact, None, tuple(values), FINDING_OUT + ANSWERING, _expected_reduction(outlook, fact, chances))


def _expected_reduction(outlook: Outlook, ask: str, chances: Mapping[int, float] | Mapping[str, float]) -> float:
    now = outlook.answering({}).width
    return sum(chance * (now - prospect(outlook, {ask: answer}).width) for answer, chance in chances.items())
