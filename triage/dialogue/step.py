"""A conversation about a boat as a pure step: from a state and an event to the next state and what is said.

    state, messages = begin(kb, Survey(Boat("Wagtail"), ()))
    state, messages = step(kb, state, Said("crack where the mast wires bolt on, port side"))
    state, messages = step(kb, state, Chose(1))

Nothing is read, written, printed or remembered here. `kept` turns a state into a survey that a file can hold, and
`begin` carries on from one, exactly where it was left.
"""

from __future__ import annotations

import re
from dataclasses import replace

from triage.asking.suggest import WITH_ALL, Resources
from triage.dialogue import events
from triage.dialogue.answering import Answering
from triage.dialogue.cards import is_one_unclear_mark, is_story, told, without_a_mark
from triage.dialogue.commands import meant
from triage.dialogue.describing import Describing
from triage.dialogue.edits import TellEvent, apply_all, find
from triage.dialogue.events import Chose, Event, Said
from triage.dialogue.following import next_about, so_far, where_to_begin
from triage.dialogue.hearing_answers import HearingAnswers, spoken_of
from triage.dialogue.interview import question_about
from triage.dialogue.keeping import can_be_asked, resumed
from triage.dialogue.messages import Line, Message, Points, Refused, SoFar
from triage.dialogue.moves import Move, Option, Outcome, option_said
from triage.dialogue.noting import noted
from triage.dialogue.seeing import seen_again, seen_by_answers
from triage.dialogue.state import DESCRIBE, DESCRIBING, STORY, Asking, State
from triage.dialogue.suspecting import demanded
from triage.dialogue.telling import Telling
from triage.dialogue.twins import on_both
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.listening.asides import words_asked
from triage.listening.events import heard_events
from triage.listening.replies import question_in, reply
from triage.listening.saying import takes_back
from triage.listening.understand import understand
from triage.phrases import conversation as phrases
from triage.phrases import hearing
from triage.survey.doubt import text_doubts
from triage.survey.finding_doubts import MAX_NOTE
from triage.survey.model import COULD_NOT_TELL, Survey

Talk = Describing | Answering | Telling
TELLING = ("describe", "ended", "marks")
"""What is being asked when words may tell of something new."""

CORRECTED = (*TELLING, "answers")
"""What is being asked when words may correct a mark that is in the survey; at a question about it they may anyway."""

_BARE_NUMBER = re.compile(r"\d+")


def begin(kb: KnowledgeBase, survey: Survey, means: Resources = WITH_ALL) -> tuple[State, tuple[Message, ...]]:
    """A conversation about a survey: a new one, or carried on where it was left, with how every mark stands."""
    state = carried_on(kb, survey, means)
    so = (SoFar(state.survey.boat.name, so_far(kb, state.survey)),) if state.survey.findings else ()
    return state, (*so, *present(kb, state))


def carried_on(kb: KnowledgeBase, survey: Survey, means: Resources = WITH_ALL) -> State:
    """Where a conversation about a survey was left; for a new one, where it begins."""
    state, known = resumed(kb, survey, means)
    return state if known else replace(state, asking=where_to_begin(kb, state.survey, means))


def present(kb: KnowledgeBase, state: State) -> tuple[Message, ...]:
    """What is being asked, with its choices."""
    return _talk(kb, state).present()


def step(kb: KnowledgeBase, state: State, event: Event) -> tuple[State, tuple[Message, ...]]:
    """What comes of an event. An event that cannot be, or says nothing, changes nothing and is answered so."""
    try:
        event = meant(kb, state.asking.what, _talk(kb, state).options(), event)
        if isinstance(event, events.Undo):
            return _undone(kb, state)
        outcome = _outcome(kb, state, event)
        if isinstance(outcome, Move) and outcome.survey is not None:
            survey, backs = seen_by_answers(kb, outcome.survey, outcome.backs)
            outcome = replace(outcome, survey=survey, backs=backs)
    except BadSurvey as error:
        problem = error.problems[0]
        return state, (_refused(kb, state, f"{problem.what}.", problem.hint),)
    if not isinstance(outcome, Move):
        return _asked(kb, state, event), outcome
    after = _asked(kb, _explained(kb, state).moved(outcome.asking, outcome.survey, outcome.backs), event)
    return after, (*outcome.says, *present(kb, after))


def _asked(kb: KnowledgeBase, state: State, event: Event) -> State:
    """The state with what was last asked of the boat in its survey, which the report answers first."""
    text = event.text.strip() if isinstance(event, Said) else ""
    asked = words_asked(kb, text) or (text if question_in(kb, text) else "")
    return replace(state, survey=replace(state.survey, asked=asked)) if asked else state


def joined(kb: KnowledgeBase, state: State, survey: Survey) -> State:
    """The state with a survey to which somebody else has added; what is asked stays, as far as it still can."""
    survey = replace(survey.in_walk_order(kb), conversation={})
    asking = state.asking if can_be_asked(kb, survey, state.asking) else DESCRIBE
    if asking.what == "ended":
        asking = next_about(kb, survey, asking.mark, state.means)
    return replace(state, survey=survey, asking=asking)


def _talk(kb: KnowledgeBase, state: State) -> Talk:
    if state.asking.what in STORY:
        return Telling(kb, state)
    return Describing(kb, state) if state.asking.what in DESCRIBING else Answering(kb, state)


def _outcome(kb: KnowledgeBase, state: State, event: Event) -> Outcome:
    talk, answering = _talk(kb, state), Answering(kb, state)
    match event:
        case Said(text):
            return _heard(kb, state, talk, text)
        case Chose():
            return _chosen(kb, state, talk, event)
        case events.Skip():
            return _skipped(talk)
        case events.Why():
            return answering.why()
        case events.How():
            return answering.how()
        case events.Remove(mark):
            if not mark and not isinstance(talk, Answering):
                return talk.dropped()
            return answering.remove(mark or state.asking.mark)
        case events.Change(mark, ask):
            return answering.change(mark, ask)
        case events.Clear(mark, ask):
            return answering.clear(mark, ask)
        case events.Focus(mark):
            return answering.focus(mark)
        case events.Same(mark):
            survey, backs = seen_again(kb, state.survey, mark)
            return Move(state.asking, (Line(phrases.SAME_AS_BEFORE),), survey, backs)
        case events.Marks():
            return Move(Asking("marks")) if state.survey.findings else (Line(phrases.TELL_FIRST),)
        case events.Answers():
            return answering.anything_about(state.asking.mark)
        case events.Decide(card, decision):
            return talk.decided(card, decision) if isinstance(talk, Telling) else (Refused(phrases.NO_CHOICES),)
        case events.Finish():
            return answering.report()
    return Move(DESCRIBE)


def _heard(kb: KnowledgeBase, state: State, talk: Talk, text: str) -> Outcome:
    """Words: first whether they can stand in a survey, then whether they ask something, then what they answer."""
    text = text.strip()
    longest = MAX_NOTE - len(state.asking.text) - 2  # they may be added to what was said before
    for doubt in text_doubts((), text, longest, lines=True):
        return (_refused(kb, state, f"{doubt.what}.", doubt.hint),)
    if not text:
        return ()
    if _BARE_NUMBER.fullmatch(text):
        return (_refused(kb, state, phrases.of_what(text)),)
    if state.asking.what in CORRECTED and option_said(talk.options(), text) is None:
        mark = spoken_of(kb, state, text) if takes_back(kb, text) else ""
        corrected = HearingAnswers(kb, state, mark).heard(text) if mark else None
        if corrected is not None:
            return corrected
    if state.asking.what in TELLING and option_said(talk.options(), text) is None:
        if is_story(kb, text):
            return Move(Asking("story", text=text))
        if lines := without_a_mark(kb, text):
            passes = told(kb, text).passes
            return Move(Asking("story", text=text)) if passes else (Points(phrases.NO_MARK_IN_THAT, lines),)
        if not question_in(kb, text) and is_one_unclear_mark(kb, text):
            return Move(Asking("which", ask="0", text=text, sure=True))
    if (asked := question_in(kb, text)) and not _answers_too(kb, state, text):
        return _wondered(kb, state, text, asked)
    outcome = talk.heard(text)
    if outcome is not None:
        return outcome
    if state.asking.what in TELLING:
        return _told(kb, state, text)
    return (_refused(kb, state, phrases.not_understood(text)),)


def _wondered(kb: KnowledgeBase, state: State, text: str, asked: str) -> Outcome:
    """The answer to a question; what is told beside it and is no mark is noted."""
    notes = told(kb, text).notes if state.asking.what in TELLING else ()
    survey, backs = noted(kb, state.survey, notes)
    says = Answering(kb, replace(state, survey=survey)).wondered(asked)
    return Move(state.asking, (Line(hearing.noted_beside(notes)), *says), survey, backs) if backs else says


def _answers_too(kb: KnowledgeBase, state: State, text: str) -> bool:
    """Whether a question about the boat stands beside an answer to what is asked."""
    if state.asking.what != "answer":
        return False
    return reply(kb, text, find(state.survey, state.asking.mark), state.asking.ask).says_something


def _told(kb: KnowledgeBase, state: State, text: str) -> Outcome:
    """A mark in somebody's words, or what happened to her, which is said back; or both."""
    heard = heard_events(text, kb)
    if not heard.events:
        return Describing(kb, state).begin(text)
    survey, backs = apply_all(kb, state.survey, [TellEvent(told) for told in heard.events])
    says = tuple(Line(phrases.noted_event(kb, told)) for told in heard.events)
    if first := demanded(kb, survey, frozenset(told.event for told in heard.events)):
        says = (*says, Line(phrases.before_she_sails(first)))
    marked = understand(heard.rest, kb)
    if marked.zone is None and marked.sign is None:
        return Move(state.asking, says, survey, backs)
    move = Describing(kb, replace(state, survey=survey)).begin(text)
    assert isinstance(move, Move)  # a new description only asks
    return replace(move, says=(*says, *move.says), survey=survey, backs=backs)


def _chosen(kb: KnowledgeBase, state: State, talk: Talk, chosen: Chose) -> Outcome:
    options, number, to = talk.options(), chosen.number, chosen.to
    if not options:
        return (Refused(phrases.NO_CHOICES),)
    wrong = next((one for one in (number, to or number) if not 1 <= one <= len(options)), None)
    if wrong is not None:
        return (_refused(kb, state, phrases.no_such_choice(wrong, len(options))),)
    if not to or to == number:
        outcome = options[number - 1].then()
    elif isinstance(talk, Answering) and state.asking.what == "answer":
        outcome = talk.between(min(number, to), max(number, to), pressed=chosen.pressed)
    else:
        return (_refused(kb, state, phrases.ONE_OF_THESE),)
    return on_both(kb, state, outcome) if chosen.both and isinstance(outcome, Move) else outcome


def _skipped(talk: Talk) -> Outcome:
    if isinstance(talk, Answering) and talk.asking.what == "answer":
        return talk.record(COULD_NOT_TELL)
    if isinstance(talk, Describing) and talk.draft.what == "side":
        return talk.on("unknown")
    return (Refused(phrases.NOTHING_TO_SKIP),)


def _refused(kb: KnowledgeBase, state: State, what: str, hint: str = "") -> Refused:
    """Said with the choices as they are shown, so that nobody counts them in another way."""
    options: list[Option] = _talk(kb, state).options()
    return Refused(f"{what[:1].upper()}{what[1:]}", hint, tuple(option.text for option in options))


def _undone(kb: KnowledgeBase, state: State) -> tuple[State, tuple[Message, ...]]:
    """The state before the last step."""
    if not state.undo:
        return state, (Line(phrases.NOTHING_TO_TAKE_BACK),)
    *older, last = state.undo
    rest = replace(_explained(kb, state), undo=tuple(older))
    try:
        survey, _ = apply_all(kb, state.survey, last.edits)
    except BadSurvey:  # somebody else has changed the survey since
        return rest, (Line(phrases.CANNOT_TAKE_BACK), *present(kb, rest))
    asking = last.asking if can_be_asked(kb, survey, last.asking) else DESCRIBE
    after = replace(rest, survey=survey, asking=asking)
    return after, (Line(phrases.TAKEN_BACK), *present(kb, after))


def _explained(kb: KnowledgeBase, state: State) -> State:
    """How the present question is answered was told, so it need not be told again."""
    if state.asking.what != "answer":
        return state
    question = question_about(kb, state.survey, state.asking.mark, state.asking.ask, state.means)
    return replace(state, explained=state.explained | {question.how.name})
