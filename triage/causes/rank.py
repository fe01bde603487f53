"""Which causes are likely: in order, as words, with what speaks for and against each."""

from __future__ import annotations

from dataclasses import dataclass

from triage.causes.evidence import Evidence
from triage.causes.noisy_or import Posterior
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.cause import Cause, Leaves, Mark, Weights


@dataclass(frozen=True, eq=False)
class Ranked:
    """A cause that something speaks for, and how likely it is that it left some of what was found.

    Where nothing of it was found, and only somebody's word speaks for it: how likely it is that it happened.
    ``alike``: causes of the same marks that are as likely. ``found`` and ``missing``: what it may have left.
    """

    cause: Cause
    chance: float
    word: str
    alike: tuple[Cause, ...]
    found: tuple[Leaves, ...]
    missing: tuple[Leaves, ...]


def ranking(kb: KnowledgeBase, weights: Weights, known: Evidence, posterior: Posterior[Mark]) -> tuple[Ranked, ...]:
    """The causes that something speaks for, likeliest first; equal causes are called by the same word."""
    supported = [cause for cause in kb.causation.causes.values() if _supported(cause, known)]
    chances = {cause: _chance(cause, known, posterior) for cause in supported}
    order = sorted(chances, key=lambda cause: -round(chances[cause], 9))  # a tie stays a tie, whatever the arithmetic
    ranked = []
    for cause in order:
        found = known.left(cause)
        alike = tuple(
            other
            for other in order
            if other is not cause
            and not {left.mark for left in found}.isdisjoint(left.mark for left in other.leaves)
            and _as_likely(weights, chances[cause], chances[other])
        )
        word = weights.word(max(chances[one] for one in (cause, *alike)))
        missing = tuple(left for left in cause.leaves if left.mark in known.missing)
        ranked.append(Ranked(cause, chances[cause], word, alike, found, missing))
    return tuple(ranked)


def _supported(cause: Cause, known: Evidence) -> bool:
    said = known.stated.get(cause.id) == "yes" or cause.id in known.told
    return cause.id not in known.ruled_out and (said or _left_something(cause, known))


def _left_something(cause: Cause, known: Evidence) -> bool:
    return bool(known.left(cause))


def _chance(cause: Cause, known: Evidence, posterior: Posterior[Mark]) -> float:
    return posterior.responsibility(cause.id) if _left_something(cause, known) else posterior.of(cause.id)


def _as_likely(weights: Weights, one: float, other: float) -> bool:
    low, high = sorted((one, other))
    return high * (1 - low) <= weights.alike * low * (1 - high)
