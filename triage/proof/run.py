"""The whole proof: every claim about all the findings it speaks of, shared out over the processors."""

from __future__ import annotations

import itertools
import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass, field
from functools import lru_cache, partial
from typing import TypeAlias

from triage.knowledge.model import KnowledgeBase
from triage.proof.cache import AnswerCache, Digests
from triage.proof.claims import Claim, confirmed
from triage.proof.laws import law_claims
from triage.proof.mending import mending_claims
from triage.proof.nonvacuity import nonvacuity_claims
from triage.proof.promises import promise_claims
from triage.proof.scopes import ZoneSign, at_worst, with_context
from triage.proof.symbolic import Undecided
from triage.proof.symbolic_survey import SymbolicSurvey

Task: TypeAlias = tuple[str, tuple[int, ...]]
"""A zone with the numbers of universal claims, to be proved there; or "" with those of existential ones."""

SEARCHED_TOGETHER = 12
"""Existential claims that one worker takes at a time: neighbours in a file share their candidates."""

MAX_CANDIDATES = 3000
"""Candidates that are searched before an existential claim is given up."""


@dataclass(frozen=True)
class Answer:
    """What the solver said to one claim about one candidate. ``examples`` are the surveys it found, as files."""

    claim: int
    digest: str
    found: bool
    examples: tuple[str, ...] = ()
    confirmed: bool = True
    undecided: str = ""


@dataclass
class Outcome:
    """What became of one claim."""

    claim: Claim
    asked: int = 0
    cached: int = 0
    found: list[Answer] = field(default_factory=list)
    undecided: list[Answer] = field(default_factory=list)

    @property
    def holds(self) -> bool:
        """Proved of every survey; or, for a claim that there is one, one was found."""
        return bool(self.found) == self.claim.existential and not self.undecided


def claims_of(kb: KnowledgeBase) -> list[Claim]:
    """Everything that is claimed of these rules."""
    return [*promise_claims(kb), *law_claims(kb), *mending_claims(kb), *nonvacuity_claims(kb)]


def prove_rules(
    kb: KnowledgeBase,
    *,
    cache: AnswerCache | None = None,
    workers: int | None = None,
    wanted: Callable[[Claim], bool] = lambda claim: True,  # noqa: ARG005 - everything is
    progress: Callable[[int, int], None] = lambda done, of: None,  # noqa: ARG005 - nobody listens
) -> list[Outcome]:
    """What became of every claim about these rules. ``progress`` is called with how many tasks are done, and
    of how many.

    Answers in ``cache`` are not asked for again, and new ones are added to it. Claims that are not ``wanted`` are left
    out.
    """
    cache = cache or AnswerCache()
    outcomes = [Outcome(claim) for claim in claims_of(kb)]
    tasks = list(_tasks(kb, {number: one.claim for number, one in enumerate(outcomes) if wanted(one.claim)}))
    used: dict[str, bool] = {}
    for done, answers in enumerate(_answers(kb, cache, tasks, workers or _processors()), start=1):
        for answer in answers:
            outcome = outcomes[answer.claim]
            outcome.asked += 1
            outcome.cached += answer.digest in cache.answers
            if answer.undecided:
                outcome.undecided.append(answer)
            elif answer.found:
                outcome.found.append(answer)
            if not answer.undecided and (outcome.claim.existential or not answer.found):
                used[answer.digest] = answer.found  # a broken promise is looked at again, for its example
        progress(done, len(tasks))
    cache.store(used)
    return [outcome for outcome in outcomes if wanted(outcome.claim)]


def _processors() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _tasks(kb: KnowledgeBase, claims: Mapping[int, Claim]) -> Iterator[Task]:
    universal = tuple(number for number, claim in claims.items() if not claim.existential)
    existential = [number for number, claim in claims.items() if claim.existential]
    for zone in kb.zones:
        yield zone, universal
    for first in range(0, len(existential), SEARCHED_TOGETHER):
        yield "", tuple(existential[first : first + SEARCHED_TOGETHER])


def _answers(kb: KnowledgeBase, cache: AnswerCache, tasks: Sequence[Task], workers: int) -> Iterator[list[Answer]]:
    """The answers to each task, in whatever order they come."""
    if workers == 1:
        asker = Asker(kb, cache.answers)
        yield from map(asker.do, tasks)
        return
    with ProcessPoolExecutor(workers, initializer=_begin, initargs=(kb, cache.answers)) as pool:
        for finished in as_completed([pool.submit(_do, task) for task in tasks]):
            yield finished.result()


def _likely_first(claim: Claim, pairs: Iterable[ZoneSign]) -> Iterator[ZoneSign]:
    """The pairs at which the claim is likely to be shown, then the others; most claims are shown at once."""
    others = []
    for pair in pairs:
        if claim.likely(pair):
            yield pair
        else:
            others.append(pair)
    yield from others


_asker: Asker


def _begin(kb: KnowledgeBase, cached: dict[str, bool]) -> None:
    global _asker  # one for each worker process
    _asker = Asker(kb, cached)


def _do(task: Task) -> list[Answer]:
    return _asker.do(task)


class Asker:
    """Asks the solver, or takes the answer from those that are cached."""

    def __init__(self, kb: KnowledgeBase, cached: dict[str, bool]) -> None:
        self.kb, self.cached = kb, dict(cached)
        self.claims = claims_of(kb)
        self.digests = Digests(kb)
        self.survey = lru_cache(maxsize=32)(lambda pairs: SymbolicSurvey(kb, pairs))

    def do(self, task: Task) -> list[Answer]:
        """The answers to the claims of a task."""
        zone, numbers = task
        if zone:
            pairs = [(zone, sign) for sign in self.kb.offers[zone]]
            return [answer for pair in pairs for number in numbers for answer in self.universal(number, pair)]
        return [answer for number in numbers for answer in self.existential(number)]

    def universal(self, number: int, pair: ZoneSign) -> Iterator[Answer]:
        """The answers to a universal claim, for each of its candidates here."""
        for pairs in self.claims[number].candidates(pair):
            yield self.answer(number, pairs)

    def existential(self, number: int) -> Iterator[Answer]:
        """The answers to an existential claim, candidate by candidate, until a survey is found."""
        for pairs in itertools.islice(self.candidates(self.claims[number]), MAX_CANDIDATES):
            answer = self.answer(number, pairs)
            yield answer
            if answer.found:
                return

    def candidates(self, claim: Claim) -> Iterator[tuple[ZoneSign, ...]]:
        """Where a survey may be found: with the context that the claim itself speaks of, then with any that helps."""
        for candidates_at in (claim.candidates, partial(with_context, self.kb)):
            for pair in _likely_first(claim, at_worst(self.kb)):
                found = candidates_at(pair) if claim.candidates(pair) else []
                if len(found) == 1 or (found and self.feasible(claim, pair)):
                    yield from found

    def feasible(self, claim: Claim, pair: ZoneSign) -> bool:
        """Whether it could be shown there with some context or other; asked before trying any in particular."""
        survey = self.survey((pair,))
        return survey.solver.can(claim.feasible(survey))

    def answer(self, number: int, pairs: tuple[ZoneSign, ...]) -> Answer:
        """The answer to one claim about one candidate, with examples that both engines were asked to confirm."""
        claim = self.claims[number]
        digest = self.digests.of(claim, pairs)
        if digest in self.cached:
            return Answer(number, digest, self.cached[digest])
        survey = self.survey(pairs)
        try:
            question = claim.ask(survey)
            examples = question.answer(survey.solver, plain=not claim.existential)
        except Undecided as why:
            return Answer(number, digest, found=False, undecided=str(why))
        if examples is None:
            self.cached[digest] = False  # often the same question comes up at another pair
            return Answer(number, digest, found=False)
        return Answer(number, digest, True, tuple(examples), confirmed(claim, self.kb, examples))
