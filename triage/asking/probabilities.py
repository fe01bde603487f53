"""How likely each answer to a question is, in the light of the answers already given.

Two kinds of mark are told apart: those that are no more than they look, and those with something broken behind them.
Within a kind the readings are taken as independent; each answer shifts the odds between the kinds. All of it rests on
estimates, so it may choose the next question and say what is usual, but it never touches a verdict.
"""

from __future__ import annotations

import itertools
import math
import random
from collections import Counter
from collections.abc import Mapping, Sequence

from triage.inference.outlook import Outlook
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.frequencies import Shares
from triage.survey.model import Finding

USUALLY_DAMAGED = 0.2
"""The share of marks with more behind them, for a sign about which the knowledge says nothing (estimate)."""

EACH_WORSE = 0.25
"""How much rarer each worse level is on a sound mark, for a scale about which nothing is said (estimate)."""


def level_chances(kb: KnowledgeBase, finding: Finding, scale: str) -> Mapping[int, float]:
    """The chance of each level that the sign allows on the scale; they sum to 1."""
    columns = level_shares(kb, finding.sign, scale)
    damaged = damaged_chance(kb, finding)
    return {level: (1 - damaged) * sound + damaged * worse for level, (sound, worse) in columns.items()}


def damaged_chance(kb: KnowledgeBase, finding: Finding) -> float:
    """The chance that there is more behind this mark than it shows."""
    odds = [1 - kb.frequencies.damaged.get(finding.sign, USUALLY_DAMAGED)]
    odds.append(1 - odds[0])
    for scale, level in finding.upper.items():
        shares = level_shares(kb, finding.sign, scale).get(level, (1.0, 1.0))
        odds = [chance * share for chance, share in zip(odds, shares, strict=True)]
    return odds[1] / sum(odds) if sum(odds) else 0.5


def value_chances(kb: KnowledgeBase, fact: str, values: Sequence[str]) -> Mapping[str, float]:
    """The chance of each value of a boat fact."""
    return kb.frequencies.facts.get(fact) or dict.fromkeys(values, 1 / len(values))


def level_shares(kb: KnowledgeBase, sign: str, scale: str) -> dict[int, tuple[float, float]]:
    """The shares of each level on sound and on damaged marks of this sign, of the levels it allows."""
    top = kb.scales[scale].top
    shares = kb.frequencies.under.get((sign, scale)) or kb.frequencies.levels.get(scale) or _unsaid(top)
    levels = range(kb.best(sign, scale), kb.worst(sign, scale) + 1)
    sound, damaged = (_whole([column[level] for level in levels]) for column in (shares.sound, shares.damaged))
    return dict(zip(levels, zip(sound, damaged, strict=True), strict=True))


def _whole(parts: Sequence[float]) -> list[float]:
    """The parts as shares of their sum; alike when there is none."""
    whole = sum(parts)
    return [part / whole if whole else 1 / len(parts) for part in parts]


def _unsaid(top: int) -> Shares:
    sound = [EACH_WORSE**level for level in range(top + 1)]
    return Shares(tuple(sound), tuple(1.0 for _ in sound))


MAX_COMBINATIONS = 2000
"""Ways of filling in what is unanswered that are gone through one by one; some 5 µs each."""

SAMPLES = 400
"""Boats that are drawn where there are more ways: the share of a verdict is then right to some 2.5 % (one sigma)."""


def verdict_chances(kb: KnowledgeBase, outlook: Outlook, unanswered: Sequence[str]) -> Mapping[int, float]:
    """The chance of each verdict when everything unanswered is filled in as it is usually met; they sum to 1.

    Exact where there are few ways of filling it in, else from samples: the same ones for every mark that is alike,
    whatever it is called.
    """
    facts = {fact: value_chances(kb, fact, values) for fact, values in outlook.unknown_facts.items()}
    ways = math.prod(len(outlook.equivalence_classes(scale)) for scale in unanswered)
    ways *= math.prod(len(chances) for chances in facts.values())
    if ways > MAX_COMBINATIONS:
        return _from_samples(kb, outlook, unanswered)
    return _exactly(kb, outlook, unanswered, facts)


def _exactly(
    kb: KnowledgeBase, outlook: Outlook, unanswered: Sequence[str], facts: Mapping[str, Mapping[str, float]]
) -> Mapping[int, float]:
    damaged = damaged_chance(kb, outlook.finding)
    classes = [
        [(scale, level, *shares) for level, shares in _shares_of_classes(kb, outlook, scale).items()]
        for scale in unanswered
    ]
    found: dict[int, float] = {}
    for values in itertools.product(*([(fact, *one) for one in some.items()] for fact, some in facts.items())):
        told, known = outlook, math.prod(chance for _, _, chance in values)
        for fact, value, _ in values:
            told = told.knowing(fact, value)
        for levels in itertools.product(*classes):
            chance = (1 - damaged) * math.prod(sound for _, _, sound, _ in levels)
            chance += damaged * math.prod(worse for _, _, _, worse in levels)
            best = told.best({scale: level for scale, level, _, _ in levels})
            found[best] = found.get(best, 0.0) + known * chance
    return found


def _shares_of_classes(kb: KnowledgeBase, outlook: Outlook, scale: str) -> dict[int, tuple[float, float]]:
    """By its mildest level, the share of each class of levels on sound and on damaged marks, of the levels left."""
    columns = level_shares(kb, outlook.finding.sign, scale)
    classes = outlook.equivalence_classes(scale)
    sound, damaged = (
        _whole([sum(columns[level][kind] for level in levels) for levels in classes]) for kind in (False, True)
    )
    mildest = [levels[0] for levels in classes]
    return dict(zip(mildest, zip(sound, damaged, strict=True), strict=True))


def _from_samples(kb: KnowledgeBase, outlook: Outlook, unanswered: Sequence[str]) -> Mapping[int, float]:
    chance = random.Random(_content(outlook))
    found: Counter[int] = Counter()
    damaged = damaged_chance(kb, outlook.finding)
    columns = {scale: _shares_of_classes(kb, outlook, scale) for scale in unanswered}
    for _ in range(SAMPLES):
        levels = _drawn(columns, damaged, chance)
        told = outlook
        for fact, value in sampled_facts(kb, outlook, chance).items():
            told = told.knowing(fact, value)
        found[told.best(levels)] += 1
    return {level: count / SAMPLES for level, count in found.items()}


def _content(outlook: Outlook) -> str:
    """What is known of a mark and its boat, and nothing of what they are called."""
    finding, boat = outlook.finding, outlook.boat
    readings = sorted((scale, reading.low, reading.high) for scale, reading in finding.readings.items() if reading.told)
    known = sorted(boat.facts.items()), sorted(boat.encloses_buoyancy.items()), sorted(boat.attempted)
    return repr((finding.zone, finding.sign, finding.side, readings, known))


def sampled_levels(
    kb: KnowledgeBase, outlook: Outlook, unanswered: Sequence[str], chance: random.Random
) -> dict[str, int]:
    """A level for everything unanswered about a finding, drawn as it is usually met; of levels alike, the mildest."""
    columns = {scale: _shares_of_classes(kb, outlook, scale) for scale in unanswered}
    return _drawn(columns, damaged_chance(kb, outlook.finding), chance)


def _drawn(
    columns: Mapping[str, Mapping[int, tuple[float, float]]], damaged_share: float, chance: random.Random
) -> dict[str, int]:
    damaged = chance.random() < damaged_share
    return {
        scale: chance.choices(list(shares), [share[damaged] for share in shares.values()])[0]
        for scale, shares in columns.items()
    }


def sampled_facts(kb: KnowledgeBase, outlook: Outlook, chance: random.Random) -> dict[str, str]:
    """A value for every fact that matters and is unknown, drawn as it is usually met."""
    drawn = {}
    for fact, values in outlook.unknown_facts.items():
        chances = value_chances(kb, fact, values)
        drawn[fact] = chance.choices(list(chances), list(chances.values()))[0]
    return drawn
