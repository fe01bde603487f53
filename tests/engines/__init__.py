"""Every engine that gives the rules their meaning, in one table. A further engine joins by one line.

An engine in the table tells of each finding, at both ends of its range, the levels and the rules that fired.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tests.engines import clips, solver
from tests.oracle import Naive
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import BOUNDS, Evaluation
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding

Told = list[dict[str, Naive]]
Engine = Callable[[KnowledgeBase, Boat, Sequence[Finding]], Told]


def without_trace(engine: Callable[[KnowledgeBase, Boat, Sequence[Finding]], tuple[Evaluation, ...]]) -> Engine:
    """An engine that keeps a trace, telling no more than the others can."""

    def tell(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> Told:
        return [
            {
                bound: Naive(dict(judged.end(bound).levels), {firing.rule.id for firing in judged.end(bound).firings})
                for bound in BOUNDS
            }
            for judged in engine(kb, boat, findings)
        ]

    return tell


ENGINES: dict[str, Engine] = {
    "evaluate": without_trace(evaluate),
    "forward": without_trace(forward),
    "clips": clips.judge,
    "solver": solver.judge,
}
