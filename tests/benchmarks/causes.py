"""What it costs to find causes, as ratios to judging the same boat: ``python -m tests.benchmarks.causes``.

The boats are an example, some drawn at random, and one that has every mark that any cause leaves: the most that the
exact answer can ever take.
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Callable
from functools import partial

from tests.conftest import ROOT
from tests.diagnosing import diagnosis
from triage.causes.evidence import network_of
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.cause import ANYWHERE, Mark
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Boat, Finding, Survey
from triage.survey.read import read_survey

RUNS = 5


def best(work: Callable[[], object]) -> float:
    """The shortest of a few runs, in seconds."""
    taken = []
    for _ in range(RUNS):
        began = time.perf_counter()
        work()
        taken.append(time.perf_counter() - began)
    return min(taken)


def marked(kb: KnowledgeBase, marks: list[Mark]) -> Survey:
    """A boat with these marks and nothing answered."""
    sides = {zone: "port" if kb.zones[zone].sided else None for zone, _ in marks}
    findings = tuple(Finding(f"{zone}.{sign}", zone, sign, sides[zone]) for zone, sign in marks)
    return Survey(Boat("any"), findings).in_walk_order(kb)


def main() -> None:
    """Print one line for each boat."""
    kb = load_knowledge()
    weights = kb.causation.weights
    assert weights is not None
    every = [left.mark for cause in kb.causation.causes.values() for left in cause.leaves if left.zone != ANYWHERE]
    every = list(dict.fromkeys(every))
    draw = random.Random(1)
    boats = {"examples/club-boat.yaml": read_survey(ROOT / "examples" / "club-boat.yaml", kb)}
    boats |= {f"{count} marks at random": marked(kb, draw.sample(every, count)) for count in (5, 10, 20, 40)}
    boats[f"every mark, {len(every)}"] = marked(kb, every)
    network = network_of(kb, weights)
    print_line(f"{len(kb.causation.causes)} causes, at most {network.width} of them in one table")
    print_line("boat                      causes, in times of judging her")
    for name, survey in boats.items():
        judged = forward(kb, survey.boat, survey.findings)
        finding_causes = best(partial(diagnosis, kb, survey, judged))
        ratio = finding_causes / best(partial(forward, kb, survey.boat, survey.findings))
        print_line(f"{name:<26}{ratio:.2f}")


def print_line(text: str) -> None:
    sys.stdout.write(f"{text}\n")


if __name__ == "__main__":
    main()
