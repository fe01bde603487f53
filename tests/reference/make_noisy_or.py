"""Write noisy_or.json anew with pgmpy: ``python -m tests.reference.make_noisy_or``.

pgmpy brings half a gigabyte of other libraries, so it is no part of the test requirements: what it answers is kept in
noisy_or.json beside the version that answered, and the tests compare with that.
"""

from __future__ import annotations

import itertools
import json
import random
from importlib.metadata import version
from pathlib import Path
from typing import Any


def networks() -> list[dict[str, Any]]:
    """The fever example, and networks drawn at random with evidence on them."""
    fever = {
        "priors": {"cold": 0.10, "flu": 0.05, "malaria": 0.01},
        "effects": {"fever": {"leak": 0.0, "strengths": {"cold": 0.4, "flu": 0.8, "malaria": 0.9}}},
        "found": ["fever"],
        "missing": [],
    }
    return [fever, *(_drawn(random.Random(seed)) for seed in range(12))]


def _drawn(draw: random.Random) -> dict[str, Any]:
    causes = [f"c{number}" for number in range(draw.randint(3, 7))]
    effects = {}
    for number in range(draw.randint(3, 8)):
        parents = draw.sample(causes, draw.randint(1, min(4, len(causes))))
        strengths = {cause: round(draw.uniform(0.05, 0.95), 3) for cause in parents}
        effects[f"e{number}"] = {"leak": round(draw.choice([0.0, 0.02, 0.2]), 3), "strengths": strengths}
    names = list(effects)
    draw.shuffle(names)
    found, missing = names[: len(names) // 2], names[len(names) // 2 : -1]  # the last one nobody looked for
    priors = {cause: round(draw.uniform(0.01, 0.5), 3) for cause in causes}
    return {"priors": priors, "effects": effects, "found": found, "missing": missing}


def answered(network: dict[str, Any]) -> dict[str, float]:
    """The chance of every cause, and of every effect nobody looked for, by pgmpy's variable elimination."""
    from pgmpy.factors.discrete import TabularCPD  # type: ignore[import-not-found]  # see the docstring
    from pgmpy.inference import VariableElimination  # type: ignore[import-not-found]
    from pgmpy.models import DiscreteBayesianNetwork  # type: ignore[import-not-found]

    edges = [(cause, effect) for effect, about in network["effects"].items() for cause in about["strengths"]]
    model = DiscreteBayesianNetwork(edges)
    model.add_nodes_from(network["priors"])
    for cause, prior in network["priors"].items():
        model.add_cpds(TabularCPD(cause, 2, [[1 - prior], [prior]]))
    for effect, about in network["effects"].items():
        parents = list(about["strengths"])
        absent = []
        for states in itertools.product([0, 1], repeat=len(parents)):
            chance = 1 - about["leak"]
            for parent, state in zip(parents, states, strict=True):
                chance *= 1 - about["strengths"][parent] if state else 1
            absent.append(chance)
        table = [absent, [1 - chance for chance in absent]]
        model.add_cpds(TabularCPD(effect, 2, table, parents, [2] * len(parents)))
    model.check_model()
    evidence = {**dict.fromkeys(network["found"], 1), **dict.fromkeys(network["missing"], 0)}
    asked = [*network["priors"], *(effect for effect in network["effects"] if effect not in evidence)]
    solver = VariableElimination(model)
    return {name: float(solver.query([name], evidence, show_progress=False).values[1]) for name in asked}


if __name__ == "__main__":
    told = [{**network, "answers": answered(network)} for network in networks()]
    made = {"made_by": f"pgmpy {version('pgmpy')}, VariableElimination", "networks": told}
    target = Path(__file__).with_name("noisy_or.json")
    target.write_text(json.dumps(made, indent=1) + "\n", encoding="utf-8")
