"""Noisy-OR networks against published examples, against pgmpy, and against going through every combination.

* Fever table: Russell & Norvig, "Artificial Intelligence: A Modern Approach", the full table as read in lecture slides
  (sambuz.com 763250, slide 15). Inhibitors: cold 0.6, flu 0.2, malaria 0.1.
* Leak: Norsys, Netica help page for NoisyOrDist, P = 1 − (1 − leak) Π (1 − p).
* noisy_or.json: answers of pgmpy, kept because pgmpy is too large to install for a test (`make_noisy_or`).
"""

from __future__ import annotations

import itertools
import json
import math
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given

from tests.strategies import noisy_or_networks
from triage.causes.noisy_or import Effect, Network, Posterior

RECORDED: list[dict[str, Any]] = json.loads(Path(__file__).with_name("noisy_or.json").read_text("utf-8"))["networks"]

FEVER = Effect({"cold": 0.4, "flu": 0.8, "malaria": 0.9})


@pytest.mark.parametrize(
    ("present", "fever"),
    [
        ((), 0.0),
        (("malaria",), 0.9),
        (("flu",), 0.8),
        (("flu", "malaria"), 0.98),
        (("cold",), 0.4),
        (("cold", "malaria"), 0.94),
        (("cold", "flu"), 0.88),
        (("cold", "flu", "malaria"), 0.988),
    ],
)
def test_the_fever_table_is_as_published(present: tuple[str, ...], fever: float) -> None:
    assert fever == pytest.approx(1 - FEVER.absent(present))


def test_the_leak_is_as_published() -> None:
    effect = Effect({"a": 0.2, "b": 0.4}, leak=0.1)

    assert pytest.approx(0.568) == 1 - effect.absent(("a", "b"))


def test_two_causes_of_one_effect_explain_each_other_away() -> None:
    """From memory (Pearl 1988): once one cause is known, the other falls back towards its prior."""
    network = Network({"cold": 0.1, "flu": 0.05}, {"fever": Effect({"cold": 0.4, "flu": 0.8})})

    alone = Posterior(network, found=["fever"]).of("cold")
    beside_flu = Posterior(network, found=["fever"], ratios={"flu": 1e9}).of("cold")

    assert 0.1 < beside_flu < alone


@pytest.mark.parametrize("recorded", RECORDED, ids=range(len(RECORDED)))
def test_a_diagnosis_is_the_same_as_by_pgmpy(recorded: dict[str, Any]) -> None:
    effects = {name: Effect(**about) for name, about in recorded["effects"].items()}
    network = Network(recorded["priors"], effects)
    posterior = Posterior(network, recorded["found"], recorded["missing"])

    actual = {
        name: posterior.of(name) if name in network.priors else posterior.of_effect(effects[name])
        for name in recorded["answers"]
    }

    assert recorded["answers"] == pytest.approx(actual, rel=1e-9)


def test_there_are_recorded_answers_to_compare_with() -> None:
    assert len(RECORDED) >= 13


def every_combination(posterior: Posterior[str]) -> list[tuple[frozenset[str], float]]:
    """Every set of causes with its weight, in the light of the evidence: the definition, without any cleverness."""
    network = posterior.network
    weighed = []
    for states in itertools.product([False, True], repeat=len(network.priors)):
        present = frozenset(cause for cause, state in zip(network.priors, states, strict=True) if state)
        weight = math.prod(
            prior * posterior.ratios.get(cause, 1.0) if cause in present else 1 - prior
            for cause, prior in network.priors.items()
        )
        for name in posterior.missing:
            weight *= network.effects[name].absent(present)
        for name in posterior.found:
            weight *= 1 - network.effects[name].absent(present) * (1 - posterior.otherwise.get(name, 0.0))
        weighed.append((present, weight))
    return weighed


@given(posterior=noisy_or_networks())
def test_every_chance_is_exact(posterior: Posterior[str]) -> None:
    weighed = every_combination(posterior)
    whole = sum(weight for _, weight in weighed)
    expected = {
        cause: sum(weight for present, weight in weighed if cause in present) / whole
        for cause in posterior.network.priors
    }

    actual = {cause: posterior.of(cause) for cause in posterior.network.priors}

    assert expected == pytest.approx(actual, rel=1e-9)


@given(posterior=noisy_or_networks())
def test_the_chance_of_something_nobody_looked_for_is_exact(posterior: Posterior[str]) -> None:
    weighed = every_combination(posterior)
    whole = sum(weight for _, weight in weighed)
    unseen = Effect(dict.fromkeys(posterior.network.priors, 0.3), leak=0.05)
    expected = 1 - sum(weight * unseen.absent(present) for present, weight in weighed) / whole

    assert expected == pytest.approx(posterior.of_effect(unseen), rel=1e-9)


@given(posterior=noisy_or_networks())
def test_the_chance_that_a_cause_did_it_is_exact(posterior: Posterior[str]) -> None:
    """A cause that is there did not do it if each of its links to what was found failed, and something else did it."""
    network = posterior.network
    weighed = every_combination(posterior)
    first = next(iter(network.priors))
    idle = 0.0
    for present, weight in weighed:
        if first in present and weight:
            others = present - {first}
            for name in posterior.found:
                effect, otherwise = network.effects[name], posterior.otherwise.get(name, 0.0)
                weight /= 1 - effect.absent(present) * (1 - otherwise)
                weight *= (1 - effect.strengths.get(first, 0.0)) * (1 - effect.absent(others) * (1 - otherwise))
            idle += weight
    here = sum(weight for present, weight in weighed if first in present)
    expected = (here - idle) / sum(weight for _, weight in weighed)

    assert expected == pytest.approx(posterior.responsibility(first), rel=1e-9, abs=1e-12)
