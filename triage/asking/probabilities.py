"""How likely each answer to a question is, in the light of the answers already given.

Two kinds of mark are told apart: those that are no more than they look, and those with something broken behind them.
Within a kind the readings are taken as independent; each answer shifts the odds between the kinds. All of it rests on
estimates, so it may choose the next question and say what is usual, but it never touches a verdict.
"""

from __future__ import annotations

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
    columns = _columns(kb, finding.sign, scale)
    damaged = damaged_chance(kb, finding)
    return {level: (1 - damaged) * sound + damaged * worse for level, (sound, worse) in columns.items()}


def damaged_chance(kb: KnowledgeBase, finding: Finding) -> float:
    """The chance that there is more behind this mark than it shows."""
    odds = [1 - kb.frequencies.damaged.get(finding.sign, USUALLY_DAMAGED)]
    odds.append(1 - odds[0])
    for scale, level in finding.upper.items():
        shares = _columns(kb, finding.sign, scale).get(level, (1.0, 1.0))
        odds = [chance * share for chance, share in zip(odds, shares, strict=True)]
    return odds[1] / sum(odds) if sum(odds) else 0.5


def value_chances(kb: KnowledgeBase, fact: str, values: Sequence[str]) -> Mapping[str, float]:
    """The chance of each value of a boat fact."""
    return kb.frequencies.facts.get(fact) or dict.fromkeys(values, 1 / len(values))


def _columns(kb: KnowledgeBase, sign: str, scale: str) -> dict[int, tuple[float, float]]:
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


SAMPLES = 400
"""How many boats are imagined to say what a mark usually turns out to be."""


def verdict_chances(kb: KnowledgeBase, outlook: Outlook, unanswered: Sequence[str]) -> Mapping[int, float]:
    """How often each verdict comes out when everything unanswered is filled in as it is usually met.

    The same boats are imagined for the same finding every time.
    """
    chance = random.Random(outlook.finding.id)
    found: Counter[int] = Counter()
    for _ in range(SAMPLES):
        levels = sampled_levels(kb, outlook, unanswered, chance)
        imagined = outlook
        for fact, value in sampled_facts(kb, outlook, chance).items():
            imagined = imagined.knowing(fact, value)
        (best, _), *_ = imagined.answering(levels).ranges
        found[best] += 1
    return {level: count / SAMPLES for level, count in found.items()}


def sampled_levels(
    kb: KnowledgeBase, outlook: Outlook, unanswered: Sequence[str], chance: random.Random
) -> dict[str, int]:
    """A level for everything unanswered about a finding, drawn as it is usually met; of levels alike, the mildest."""
    damaged = chance.random() < damaged_chance(kb, outlook.finding)
    drawn = {}
    for scale in unanswered:
        columns, runs = _columns(kb, outlook.finding.sign, scale), outlook.alike(scale)
        shares = [sum(columns[level][damaged] for level in run) for run in runs]
        drawn[scale] = chance.choices(runs, shares if any(shares) else None)[0][0]
    return drawn


def sampled_facts(kb: KnowledgeBase, outlook: Outlook, chance: random.Random) -> dict[str, str]:
    """A value for every fact that matters and is unknown, drawn as it is usually met."""
    drawn = {}
    for fact, values in outlook.unknown_facts.items():
        chances = value_chances(kb, fact, values)
        drawn[fact] = chance.choices(list(chances), list(chances.values()))[0]
    return drawn
