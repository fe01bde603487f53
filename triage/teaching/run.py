"""A learner's run as a pure step: what is asked now, an answer in, and what comes of it. Faces only show it.

    from triage.teaching.run import begin, step

    state = begin(kb, draw_case(kb, 17))
    while state.asks:
        state, told = step(kb, state, number)

A learner says what the mark is called, makes as many checks as seem worth their minutes, and then judges. The checks
tell the truth of the case. Nothing is told of the answer before all is answered.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from triage.knowledge.model import KnowledgeBase
from triage.phrases import learning
from triage.survey.model import Reading, Survey
from triage.teaching.cases import Case, with_readings
from triage.teaching.cheapest import Tried, checks_at
from triage.teaching.key import Key, key_of
from triage.teaching.questions import CHECK, CONFIDENCE, FROM_MARK, NEXT, ORDER, STOP, Choice, Question, question_of

PERCENT = range(101)


@dataclass(frozen=True)
class State:
    """A run as it stands: what was found, by finding and scale; the checks in the order they were made; the answers by
    what was asked. ``asks`` is None when it is over.
    """

    key: Key
    asks: Question | None
    found: Mapping[tuple[str, str], Reading] = field(default_factory=dict)
    made: tuple[Tried, ...] = ()
    answers: Mapping[str, str] = field(default_factory=dict)

    @property
    def case(self) -> Case:
        """What it is about."""
        return self.key.case

    @property
    def minutes(self) -> float:
        """Minutes of work so far."""
        return sum(one.minutes for one in self.made)

    @property
    def survey(self) -> Survey:
        """What is known so far, as a survey."""
        return with_readings(self.case.shown, self.found)

    def answer(self, asked: str) -> str:
        """What was answered; empty when it was not asked yet."""
        return self.answers.get(asked, "")


def begin(kb: KnowledgeBase, case: Case) -> State:
    """A run at its first question."""
    return _asking(kb, State(key_of(kb, case), None), ORDER[0])


def step(kb: KnowledgeBase, state: State, answer: int) -> tuple[State, tuple[str, ...]]:
    """The run after an answer, and what it told: a choice by its number from 0, or a percentage.

    Raises IndexError for what is no answer to the question, and when nothing is asked.
    """
    question = state.asks
    if question is None or answer not in (PERCENT if question.about == CONFIDENCE else range(len(question.choices))):
        raise IndexError(f"{answer} is no answer to what is asked")
    if question.about == CONFIDENCE:
        return _answered(kb, state, question.about, str(answer))
    chosen = question.choices[answer]
    if question.about == CHECK and chosen.id != STOP:
        return _checked(kb, state, chosen)
    return _answered(kb, state, question.about, chosen.id)


def back(kb: KnowledgeBase, state: State) -> State:
    """The run at its last question again. What a check told cannot be forgotten, so it stays and costs its minutes."""
    given = [about for about in ORDER if about in state.answers]
    if not given:
        return state
    answers = {about: said for about, said in state.answers.items() if about != given[-1]}
    return _asking(kb, replace(state, answers=answers), given[-1])


def checks_left(kb: KnowledgeBase, state: State) -> tuple[Tried, ...]:
    """The checks that would still tell something: at the mark to judge first, then at the others."""
    marks = sorted(state.case.truth.findings, key=lambda finding: finding.id != state.case.focus)
    every = (one for mark in marks for one in checks_at(kb, mark))
    return tuple(
        one
        for one in every
        if any(
            scale in state.case.finding(one.finding).readings and (one.finding, scale) not in state.found
            for scale in one.scales
        )
    )


def _checked(kb: KnowledgeBase, state: State, chosen: Choice) -> tuple[State, tuple[str, ...]]:
    tried = next(one for one in checks_left(kb, state) if choice_id(one) == chosen.id)
    truth = state.case.finding(tried.finding).readings
    new = {
        (tried.finding, scale): truth[scale]
        for scale in tried.scales
        if scale in truth and (tried.finding, scale) not in state.found
    }
    after = replace(state, found={**state.found, **new}, made=(*state.made, tried))
    told = learning.told_by(kb, tried.check, {scale: reading for (_, scale), reading in new.items()})
    return _asking(kb, after, CHECK), (told, learning.minutes_so_far(after.minutes, tried.check))


def _answered(kb: KnowledgeBase, state: State, about: str, said: str) -> tuple[State, tuple[str, ...]]:
    after = replace(state, answers={**state.answers, about: said})
    following = ORDER[ORDER.index(about) + 1 :]
    if not following:
        return replace(after, asks=None), ()
    return _asking(kb, after, following[0]), ()


def choice_id(tried: Tried) -> str:
    """A check at a mark, as the id of a choice."""
    return f"{tried.finding}{FROM_MARK}{tried.check.id}"


def _asking(kb: KnowledgeBase, state: State, about: str) -> State:
    if about in (CHECK, NEXT):
        choices = [Choice(choice_id(one), _offered(kb, state, one)) for one in checks_left(kb, state)]
        ends = learning.ENOUGH if about == CHECK else learning.NONE_NEEDED
        return replace(state, asks=Question(about, learning.ASKED[about], (*choices, Choice(STOP, ends))))
    return replace(state, asks=question_of(kb, state.key, about))


def _offered(kb: KnowledgeBase, state: State, tried: Tried) -> str:
    zone = state.case.finding(tried.finding).zone
    place = "" if tried.finding == state.case.focus else kb.zones[zone].name
    return learning.check_in_words(tried.check, [kb.scales[scale] for scale in tried.scales], place)
