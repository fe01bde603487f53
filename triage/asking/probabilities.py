"""How likely each answer to a question is, in the light of the answers already given.

Two kinds of mark are told apart: those that are no more than they look, and those with something broken behind them.
Within a kind the readings are taken as independent; each answer shifts the odds between the kinds. All of it rests on
estimates, so it may choose the next question and say what is usual, but it never touches a verdict.
"""

from __future__ import annotations

import itertools
import math
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


def verdict_chances(kb: KnowledgeBase, outlook: Outlook, unanswered: Sequence[str]) -> Mapping[int, float]:
    """The chance of each verdict when everything unanswered is filled in as it is usually met; they sum to 1."""
    facts = {fact: value_chances(kb, fact, values) for fact, values in outlook.unknown_facts.items()}
    damaged = damaged_chance(kb, outlook.finding)
    shares = {scale: shares_of_classes(kb, outlook, scale) for scale in unanswered}
    found: dict[int, float] = {}
    for values in itertools.product(*([(fact, *one) for one in some.items()] for fact, some in facts.items())):
        told, known = outlook, math.prod(chance for _, _, chance in values)
        for fact, value, _ in values:
            told = told.knowing(fact, value)
        for best, kinds in told.best_chances((1 - damaged, damaged), shares).items():
            found[best] = found.get(best, 0.0) + known * sum(kinds)
    return found


def shares_of_classes(kb: KnowledgeBase, outlook: Outlook, scale: str) -> dict[int, tuple[float, float]]:
    """By its mildest level, the share of each class of levels on sound and on damaged marks, of the levels left."""
    columns = level_shares(kb, outlook.finding.sign, scale)
    classes = outlook.equivalence_classes(scale)
    sound, damaged = (
        _whole([sum(columns[level][kind] for level in levels) for levels in classes]) for kind in (False, True)
    )
    mildest = [levels[0] for levels in classes]
    return dict(zip(mildest, zip(sound, damaged, strict=True), strict=True))
