"""What it is worth to know more before deciding: expected value of perfect and of sample information (Raiffa)."""

from __future__ import annotations

from collections.abc import Sequence

Payoffs = Sequence[Sequence[float]]
"""What each act brings in each state: a row for every act."""


def expected_value(chances: Sequence[float], payoffs: Payoffs) -> float:
    """What the best act brings on average, when nothing more is known."""
    return max(sum(p * gain for p, gain in zip(chances, act, strict=True)) for act in payoffs)


def value_of_perfect_information(chances: Sequence[float], payoffs: Payoffs) -> float:
    """How much more the best act brings when the state is known before choosing."""
    knowing = sum(p * max(act[state] for act in payoffs) for state, p in enumerate(chances))
    return knowing - expected_value(chances, payoffs)


def value_of_sample_information(chances: Sequence[float], payoffs: Payoffs, likelihoods: Payoffs) -> float:
    """How much more it brings to choose after a test, before its price; ``likelihoods`` are a row for every result of
    the test, with its chance in each state.
    """
    tested = 0.0
    for result in likelihoods:
        joint = [p * given for p, given in zip(chances, result, strict=True)]
        tested += expected_value(joint, payoffs)
    return tested - expected_value(chances, payoffs)
