"""The whole proof: every claim on every ground it speaks of, shared out over the processors."""

from __future__ import annotations

import itertools
import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass, field
from functools import lru_cache, partial
from typing import TypeAlias

from triage.knowledge.model import KnowledgeBase
from triage.proof.claims import Claim, confirmed
from triage.proof.laws import law_claims
from triage.proof.memory import Digests, Memory
from triage.proof.promises import promise_claims
from triage.proof.scopes import ZoneSign, at_worst, with_company
from triage.proof.symbolic import Undecided
from triage.proof.symbolic_survey import SymbolicSurvey
from triage.proof.uses import use_claims

Task: TypeAlias = tuple[str, tuple[int, ...]]
"""A zone with the numbers of claims about every survey there; or "" with claims that some survey is to be found for."""

HUNTED_TOGETHER = 12
"""Claims that need one survey each and are looked for in turn: neighbours in a file share their candidates."""


TRIED = 3000
"""Grounds on which a survey is looked for before a claim that there is one is given up."""


@dataclass(frozen=True)
class Answer:
    """What the solver said to one claim on one ground. ``examples`` are the surveys it found, as files."""

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
    remembered: int = 0
    found: list[Answer] = field(default_factory=list)
    undecided: list[Answer] = field(default_factory=list)

    @property
    def holds(self) -> bool:
        """Proved of every survey; or, for a claim that there is one, one was found."""
        return bool(self.found) == self.claim.somewhere and not self.undecided


def claims_of(kb: KnowledgeBase) -> list[Claim]:
    """Everything that is claimed of these rules."""
    return [*promise_claims(kb), *law_claims(kb), *use_claims(kb)]


def prove_rules(
    kb: KnowledgeBase,
    *,
    memory: Memory | None = None,
    workers: int | None = None,
    wanted: Callable[[Claim], bool] = lambda claim: True,  # noqa: ARG005 - everything is
    told: Callable[[int, int], None] = lambda done, of: None,  # noqa: ARG005 - nobody listens
) -> list[Outcome]:
    """What became of every claim about these rules. ``told`` hears how much of the work is done.

    Answers in ``memory`` are not asked for again, and new ones are added to it. Claims that are not ``wanted`` are left
    out.
    """
    memory = memory or Memory()
    outcomes = [Outcome(claim) for claim in claims_of(kb)]
    tasks = list(_tasks(kb, {number: one.claim for number, one in enumerate(outcomes) if wanted(one.claim)}))
    used: dict[str, bool] = {}
    for done, answers in enumerate(_answers(kb, memory, tasks, workers or _processors()), start=1):
        for answer in answers:
            outcome = outcomes[answer.claim]
            outcome.asked += 1
            outcome.remembered += answer.digest in memory.answers
            if answer.undecided:
                outcome.undecided.append(answer)
            elif answer.found:
                outcome.found.append(answer)
            if not answer.undecided and (outcome.claim.somewhere or not answer.found):
                used[answer.digest] = answer.found  # a broken promise is looked at again, for its example
        told(done, len(tasks))
    memory.keep(used)
    return [outcome for outcome in outcomes if wanted(outcome.claim)]


def _processors() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _tasks(kb: KnowledgeBase, claims: Mapping[int, Claim]) -> Iterator[Task]:
    everywhere = tuple(number for number, claim in claims.items() if not claim.somewhere)
    somewhere = [number for number, claim in claims.items() if claim.somewhere]
    for zone in kb.zones:
        yield zone, everywhere
    for start in range(0, len(somewhere), HUNTED_TOGETHER):
        yield "", tuple(somewhere[start : start + HUNTED_TOGETHER])


def _answers(kb: KnowledgeBase, memory: Memory, tasks: Sequence[Task], workers: int) -> Iterator[list[Answer]]:
    """The answers to each task, in whatever order they come."""
    if workers == 1:
        asker = Asker(kb, memory.answers)
        yield from map(asker.do, tasks)
        return
    with ProcessPoolExecutor(workers, initializer=_begin, initargs=(kb, memory.answers)) as pool:
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


def _begin(kb: KnowledgeBase, remembered: dict[str, bool]) -> None:
    global _asker  # one for each worker process
    _asker = Asker(kb, remembered)


def _do(task: Task) -> list[Answer]:
    return _asker.do(task)


class Asker:
    """Asks the solver, or remembers."""

    def __init__(self, kb: KnowledgeBase, remembered: dict[str, bool]) -> None:
        self.kb, self.remembered = kb, dict(remembered)
        self.claims = claims_of(kb)
        self.digests = Digests(kb)
        self.ground = lru_cache(maxsize=32)(lambda pairs: SymbolicSurvey(kb, pairs))

    def do(self, task: Task) -> list[Answer]:
        zone, numbers = task
        if zone:
            pairs = [(zone, sign) for sign in self.kb.offers[zone]]
            return [answer for pair in pairs for number in numbers for answer in self.everywhere(number, pair)]
        return [answer for number in numbers for answer in self.somewhere(number)]

    def everywhere(self, number: int, pair: ZoneSign) -> Iterator[Answer]:
        """The answers about a claim for every survey, on each of its candidates here."""
        for pairs in self.claims[number].candidates(pair):
            yield self.answer(number, pairs)

    def somewhere(self, number: int) -> Iterator[Answer]:
        """The answers about a claim that there is a survey, until there is one."""
        for pairs in itertools.islice(self.promising(self.claims[number]), TRIED):
            answer = self.answer(number, pairs)
            yield answer
            if answer.found:
                return

    def promising(self, claim: Claim) -> Iterator[tuple[ZoneSign, ...]]:
        """Where a survey may be found: with the context that the claim itself speaks of, then with any that helps."""
        for context in (claim.candidates, partial(with_company, self.kb)):
            for pair in _likely_first(claim, at_worst(self.kb)):
                candidates = context(pair) if claim.candidates(pair) else []
                if len(candidates) == 1 or (candidates and self.hopeful(claim, pair)):
                    yield from candidates

    def hopeful(self, claim: Claim, pair: ZoneSign) -> bool:
        """Whether it could be shown there with some context or other; asked before trying any in particular."""
        ground = self.ground((pair,))
        return ground.solver.can(claim.hope(ground))

    def answer(self, number: int, pairs: tuple[ZoneSign, ...]) -> Answer:
        claim = self.claims[number]
        digest = self.digests.of(claim, pairs)
        if digest in self.remembered:
            return Answer(number, digest, self.remembered[digest])
        ground = self.ground(pairs)
        try:
            question = claim.ask(ground)
            examples = question.answer(ground.solver, plain=not claim.somewhere)
        except Undecided as why:
            return Answer(number, digest, found=False, undecided=str(why))
        if examples is None:
            self.remembered[digest] = False  # often the same question comes up at another pair
            return Answer(number, digest, found=False)
        return Answer(number, digest, True, tuple(examples), confirmed(claim, self.kb, examples))
