"""A claim about every survey, or that there is some survey: as a formula for the solver, and as a check of surveys.

The two are written apart on purpose. Whatever the solver brings forward is written down, read like anybody's survey,
judged by `evaluate` and by `forward`, and believed only if the check says so too.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.proof.scopes import ZoneSign
from triage.proof.symbolic import Formula, Solver
from triage.proof.symbolic_survey import SymbolicInput, SymbolicSurvey
from triage.survey.model import Boat
from triage.survey.read import survey_from_text

Kind = Literal["promise", "law", "nonvacuity"]


@dataclass(frozen=True)
class Question:
    """Is there a survey, or several that belong together, of which ``formula`` holds?

    ``inputs`` are those surveys. ``preferences`` had better hold too, in an example that people are to read.
    """

    formula: Formula
    inputs: tuple[SymbolicInput, ...]
    preferences: Iterable[Formula] = ()

    def answer(self, solver: Solver, *, plain: bool = True) -> list[str] | None:
        """Such surveys, as files, the plainest ones if wanted; None: there are none. Raises Undecided."""
        preferences = itertools.chain(self.preferences, *(one.preferences() for one in self.inputs))
        model = solver.find(self.formula, preferences if plain else ())
        return None if model is None else [one.written(model) for one in self.inputs]


@dataclass(frozen=True)
class EvaluatedSurvey:
    """One survey with what an engine makes of each of its findings."""

    kb: KnowledgeBase
    boat: Boat
    evaluations: tuple[Evaluation, ...]


@dataclass(frozen=True, eq=False)
class Claim:
    """Something claimed of every survey with given findings; or, ``existential``, of at least one survey of any kind.

    ``goals`` are the derived scales it speaks of, and ``text`` is what it says, in a form that changes when it does:
    together with the rules that can raise the goals they decide the answer.
    ``candidates`` are those it is asked of for a sign in a zone: none where it says nothing, several where it speaks of
    other findings too. ``ask`` asks for the surveys that break it, or show it; ``shown`` says of evaluated surveys
    whether they do. ``likely`` says where to begin to look; where ``feasible`` cannot be, no context on the boat helps.
    """

    kind: Kind
    id: str
    says: str
    goals: frozenset[str]
    text: str
    candidates: Callable[[ZoneSign], list[tuple[ZoneSign, ...]]]
    ask: Callable[[SymbolicSurvey], Question]
    shown: Callable[[Sequence[EvaluatedSurvey]], bool]
    existential: bool = False
    likely: Callable[[ZoneSign], bool] = lambda pair: True  # noqa: ARG005
    feasible: Callable[[SymbolicSurvey], Formula] = lambda survey: True  # noqa: ARG005


def confirmed(claim: Claim, kb: KnowledgeBase, texts: Sequence[str]) -> bool:
    """Whether the written surveys show what the solver says they do, to both engines."""
    surveys = [survey_from_text(text, kb) for text in texts]
    return all(
        claim.shown([EvaluatedSurvey(kb, survey.boat, engine(kb, survey.boat, survey.findings)) for survey in surveys])
        for engine in (evaluate, forward)
    )
