"""Every engine that gives the rules their meaning, in two tables. A further engine joins by one line in one of them.

TRACING takes functions that return what `evaluate` returns: these are held to it entirely, presumptions and traces
included (which conjunct fired, in which order, raising what from where, with which witnesses). PLAIN takes functions
that tell of each finding, at both ends of its range, the levels and which rules fired.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from tests.engines import clips, solver
from tests.oracle import Naive
from triage.inference.compiled import compiled
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import BOUNDS, Evaluation
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding

Told = list[dict[str, Naive]]


class Tracing(Protocol):
    """An engine that tells how it came to its levels."""

    def __call__(self, kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> tuple[Evaluation, ...]: ...


class Plain(Protocol):
    """An engine that tells levels, by bound, and the ids of the rules that fired."""

    def __call__(self, kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> Told: ...


TRACING: dict[str, Tracing] = {
    "evaluate": evaluate,
    "forward": forward,
    "compiled": compiled,
}
PLAIN: dict[str, Plain] = {
    "clips": clips.judge,
    "solver": solver.judge,
}


def told(evaluations: Sequence[Evaluation]) -> Told:
    """What an engine with a trace found, telling no more than the others can."""
    return [
        {
            bound: Naive(dict(judged.end(bound).levels), {firing.rule.id for firing in judged.end(bound).firings})
            for bound in BOUNDS
        }
        for judged in evaluations
    ]


def without_trace(engine: Tracing) -> Plain:
    """An engine that keeps a trace, telling no more than the others can."""
    return lambda kb, boat, findings: told(engine(kb, boat, findings))


ENGINES: dict[str, Plain] = {**{name: without_trace(engine) for name, engine in TRACING.items()}, **PLAIN}
"""All of them, for tests that ask for no trace."""
