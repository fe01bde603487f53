"""Promises on the small boat, and what becomes of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from tests.inference.small import knowledge
from triage.errors import Place
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import KnowledgeBase, Presumption, Rule
from triage.knowledge.model.conditions import Condition
from triage.knowledge.model.promise import Promise
from triage.proof.cache import AnswerCache
from triage.proof.claims import EvaluatedSurvey, Kind
from triage.proof.promises import PromiseClaims
from triage.proof.run import Outcome, prove_rules
from triage.survey.model import Boat, Finding


def promise(id: str, when: Condition, **follows: Any) -> Promise:  # noqa: A002
    """A promise; levels are given as mappings."""
    pairs: dict[str, Any] = {k: tuple(v.items()) if isinstance(v, dict) else v for k, v in follows.items()}
    return Promise(id, 0, when, f"{id}.", "because", Place("a test"), **pairs)


def promised(*all_: Rule | Presumption | Promise) -> KnowledgeBase:
    """The small boat with these rules and promises."""
    promises = tuple(one for one in all_ if isinstance(one, Promise))
    return replace(knowledge(*(one for one in all_ if not isinstance(one, Promise))), promises=promises)


def proved(kb: KnowledgeBase, *kinds: Kind, cache: AnswerCache | None = None) -> dict[tuple[Kind, str], Outcome]:
    """What became of the claims of these kinds, by kind and id; of all of them when none is named."""
    outcomes = prove_rules(kb, cache=cache, workers=1, wanted=lambda claim: not kinds or claim.kind in kinds)
    return {(outcome.claim.kind, outcome.claim.id): outcome for outcome in outcomes}


def failing(kb: KnowledgeBase) -> set[str]:
    """The ids of promises and laws that do not hold."""
    return {id_ for (_, id_), outcome in proved(kb, "promise", "law").items() if not outcome.holds}


def breaches(kb: KnowledgeBase, boat: Boat, judged: Sequence[Evaluation]) -> list[tuple[Promise, Finding]]:
    """Every promise that these judged findings break."""
    survey = EvaluatedSurvey(kb, boat, tuple(judged))
    asked = [PromiseClaims(kb, promise) for promise in kb.promises]
    return [(one.promise, finding.finding) for one in asked for finding in judged if one.breaks(survey, finding)]
