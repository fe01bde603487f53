"""A learner's run behind the screens: which case comes next, and a kept run played again to where it was left."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace
from functools import lru_cache

from triage.app import own_cases
from triage.app.screen import Program
from triage.errors import BadInput, CannotWork, NoSuch, Place, Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.teaching import LessonCase
from triage.log.runs import OwnCase, Run
from triage.log.visits import free_id
from triage.phrases import teaching as words
from triage.teaching.cases import DIFFICULTIES
from triage.teaching.classes import MOST_RESULTS, class_code, free_name, known_as, nickname, result_of
from triage.teaching.drawn import Named, case_named
from triage.teaching.questions import CHECK, CONFIDENCE, ORDER, STOP, Question
from triage.teaching.run import PERCENT, State, begin, choice_id, step
from triage.teaching.sheet import mark_run

ANY, OWN, LESSON = "any", "own", "lesson:"
WHENS = ("", "before", "after")
NAMING = ORDER[: ORDER.index(CHECK)]
JUDGING = ORDER[ORDER.index(CHECK) + 1 :]


class NameTaken(Exception):
    """Somebody of this nickname is in the class already: ``name`` is theirs, ``free`` would be one of one's own."""

    def __init__(self, name: str, free: str) -> None:
        super().__init__(name)
        self.name, self.free = name, free


def offered(kb: KnowledgeBase) -> Mapping[str, Sequence[tuple[str, str]]]:
    """What cases may be chosen by, under headings: what is sent, and what is read."""
    lessons, confusions = kb.teaching.lessons.values(), kb.teaching.confusions.values()
    return {
        words.BY_DIFFICULTY: [(ANY, words.ANY_CASE), *((one, words.DIFFICULTY[one]) for one in DIFFICULTIES)],
        words.BY_LESSON: [(f"{LESSON}{one.id}", words.lesson(one.number, one.title)) for one in lessons],
        words.BY_TRAINER: [(OWN, words.OWN_CASES)],
        words.BY_CONFUSION: [(one.id, words.confusion([alike.name for alike in one.pair])) for one in confusions],
    }


def title_of(kb: KnowledgeBase, run: Run) -> str:
    """What a run's case is called: its number, and what it was chosen by, because numbers begin anew with each kind;
    of any kind, its number alone.
    """
    kinds = {key: name for choices in offered(kb).values() for key, name in choices if key != ANY}
    return words.case(run.number, kinds.get(run.about, ""))


def named(kb: KnowledgeBase, about: str, number: int) -> Named:
    """The case of this number among those. Raises BadInput for what cases cannot be chosen by."""
    if about in DIFFICULTIES:
        return Named(number, difficulty=about)
    if about in kb.teaching.confusions:
        return Named(number, confusion=about)
    lesson = kb.teaching.lessons.get(about.removeprefix(LESSON)) if about.startswith(LESSON) else None
    if lesson and lesson.cases:
        every: list[LessonCase] = [case for case in lesson.cases for _ in range(case.count)]
        one = every[(number - 1) % len(every)]
        return Named(number, place=one.zone, mark=one.sign, confusion=one.confusion)
    if about != ANY:
        raise _bad("what the cases are about", f'"{about}" is no choice', "Choose one from the list.")
    return Named(number)


def begun(asked: Program, form: Mapping[str, str]) -> Run:
    """The run that somebody begins, kept; one that they left open is gone on with.

    Raises NameTaken, BadInput and CannotWork.
    """
    name, code = nickname(form.get("name", "").strip()), form.get("code", "").strip().upper()
    about, when, told = form.get("about", ANY), form.get("when", ""), form.get("number", "").strip()
    if code:
        class_code(code)
    if when not in WHENS:
        raise _bad("before or after", f'"{when}" is neither', "Choose one from the list.")
    if told and not re.fullmatch(r"[1-9][0-9]{0,5}", told):
        raise _bad("the number of the case", f'"{told}" is none', "Give one from 1 to 999999, or leave it empty.")
    every = asked.boats.runs(code)
    name = _name_here(name, every, form)
    mine = [run for run in every if run.name == name and run.about == about]
    number = int(told) if told else max((run.number for run in mine), default=0) + 1
    for run in reversed(mine):
        if not run.result and (run.number == number or not told) and run.when == when:
            return run
    if len(every) >= MOST_RESULTS:
        raise CannotWork(words.CLASS_IS_FULL)
    own = own_cases.of_class(asked, code, number) if about == OWN else None
    case = f"{own_cases.PREFIX}{own.id}" if own else str(named(asked.kb, about, number))
    digest = first(asked, case).case.digest
    run = Run(free_id({one.id for one in every}), name, code, about, number, case, digest, when)
    asked.boats.keep_run(run)
    return run


def _name_here(name: str, every: Sequence[Run], form: Mapping[str, str]) -> str:
    """The nickname by which this learner goes in the class. Raises NameTaken where only they can tell whose it is.

    A run that they come from (``mine``) shows that the nickname is theirs.
    """
    names = [run.name for run in every]
    known = known_as(name, names)
    same = form.get("same", "")
    mine = any(run.id == form.get("mine") and run.name == known for run in every)
    if not known or mine or same == "yes":
        return known or name
    free = free_name(name, names)
    if same != "no":
        raise NameTaken(known, free)
    return free


def _bad(where: str, what: str, hint: str) -> BadInput:
    return BadInput([Problem(Place(where), what, hint)])


@lru_cache(maxsize=64)
def _first(kb: KnowledgeBase, case: str) -> State:
    """The case of this name, at its first question; a class plays the same ones."""
    return begin(kb, case_named(kb, case))


def first(asked: Program, case: str) -> State:
    """The case of this name at its first question, a drawn one or a trainer's own. Raises NoSuch."""
    own = own_case(asked, case)
    return _first(asked.kb, case) if own is None else own_cases.begun(asked.kb, own)


def own_case(asked: Program, case: str) -> OwnCase | None:
    """What is kept of the case of this name; None for one that is drawn. Raises NoSuch."""
    if not case.startswith(own_cases.PREFIX):
        return None
    return asked.boats.own_case(case.removeprefix(own_cases.PREFIX))


def played(asked: Program, run: Run) -> State:
    """Where a run was left. Raises NoSuch when the rules have changed, so that it is another case now."""
    kb, state = asked.kb, first(asked, run.case)
    if state.case.digest != run.digest:
        raise NoSuch(words.OTHER_RULES)
    try:
        for about in ORDER:
            said = [*run.made, run.answers.get(CHECK, "")] if about == CHECK else [run.answers.get(about, "")]
            for one in filter(None, said):
                state, _ = step(kb, state, number_of(state.asks, one))
    except IndexError:
        raise NoSuch(words.OTHER_RULES) from None
    return state


def number_of(question: Question | None, said: str) -> int:
    """An answer as a step takes it. Raises IndexError for what is none."""
    if question is not None and question.about == CONFIDENCE:
        if said.isascii() and said.isdecimal() and int(said) in PERCENT:
            return int(said)
    elif question is not None:
        for number, choice in enumerate(question.choices):
            if choice.id == said:
                return number
    raise IndexError(said)


def answered(kb: KnowledgeBase, state: State, form: Mapping[str, str]) -> tuple[State, list[str]]:
    """The run after a form, and which of its questions were not answered; then it is where it was."""
    abouts = NAMING if state.asks and state.asks.about in NAMING else JUDGING
    missing, after = list[str](), state
    for question in questions(kb, state, abouts):
        try:
            after, _ = step(kb, after, number_of(question, form.get(question.about, "")))
        except IndexError:
            missing.append(question.about)
            after, _ = step(kb, after, 0)
    return (state, missing) if missing else (after, [])


def questions(kb: KnowledgeBase, state: State, abouts: Sequence[str]) -> list[Question]:
    """These questions, from the one that is asked on; none of them hangs on the answers to the others."""
    found = list[Question]()
    while state.asks is not None and state.asks.about in abouts:
        found.append(state.asks)
        state, _ = step(kb, state, 0)
    return found


def keep_state(asked: Program, run: Run, state: State) -> None:
    """Keep how far the run has come; once it is over, with what is counted of it."""
    result = {}
    if state.asks is None:
        marked = mark_run(asked.kb, state)
        result = asdict(result_of(asked.kb, marked, run.name, run.when))  # type: ignore[arg-type]  # is one of WHENS
    made = tuple(choice_id(one) for one in state.made)
    asked.boats.keep_run(replace(run, made=made, answers=state.answers, result=result))


def token_of(run: Run) -> str:
    """How far a run has come: a form that was sent from another point of it changes nothing."""
    return f"{len(run.made)}.{len(run.answers)}"


def enough(kb: KnowledgeBase, state: State, check: str) -> State:
    """The run after a check; an empty one ends them. Raises IndexError for what is no check that is left."""
    return step(kb, state, number_of(state.asks, check or STOP))[0]
