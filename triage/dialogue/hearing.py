"""What comes of words: whether they can stand in a survey, whether they ask, correct, answer, or tell something new."""

from __future__ import annotations

import re
from dataclasses import replace

from triage.dialogue.answering import Answering
from triage.dialogue.describing import Describing
from triage.dialogue.edits import TellEvent, apply_all, find
from triage.dialogue.hearing_answers import HearingAnswers, spoken_of
from triage.dialogue.messages import Line, Points
from triage.dialogue.moves import Move, Outcome, option_said
from triage.dialogue.noting import noted
from triage.dialogue.state import Asking, State
from triage.dialogue.stories import is_one_unclear_mark, is_story, told, without_a_mark
from triage.dialogue.suspecting import demanded
from triage.dialogue.talks import Talk, refused
from triage.dialogue.telling import Telling
from triage.knowledge.model import KnowledgeBase
from triage.listening.events import heard_events
from triage.listening.replies import only_asks, question_in, reply
from triage.listening.saying import takes_back
from triage.listening.understand import understand
from triage.phrases import conversation as phrases
from triage.phrases import hearing
from triage.survey.doubt import text_doubts
from triage.survey.finding_doubts import MAX_NOTE

TELLING = ("describe", "ended", "marks")
"""What is being asked when words may tell of something new."""

CORRECTED = (*TELLING, "answers")
"""What is being asked when words may correct a mark that is in the survey; at a question about it they may anyway."""

_BARE_NUMBER = re.compile(r"\d+")


def heard(kb: KnowledgeBase, state: State, talk: Talk, text: str) -> Outcome:
    """Words: first whether they can stand in a survey, then whether they ask something, then what they answer."""
    text = text.strip()
    longest = MAX_NOTE - len(state.asking.text) - 2  # they may be added to what was said before
    for doubt in text_doubts((), text, longest, lines=True):
        return (refused(kb, state, f"{doubt.what}.", doubt.hint),)
    if not text:
        return ()
    if _BARE_NUMBER.fullmatch(text):
        return (refused(kb, state, phrases.of_what(text)),)
    if state.asking.what in CORRECTED and option_said(talk.options(), text) is None:
        mark = spoken_of(kb, state, text) if takes_back(kb, text) else ""
        corrected = HearingAnswers(kb, state, mark).heard(text) if mark else None
        if corrected is not None:
            return corrected
    if state.asking.what in TELLING and option_said(talk.options(), text) is None:
        if is_story(kb, text) or (not question_in(kb, text) and is_one_unclear_mark(kb, text)):
            return Telling(kb, replace(state, asking=Asking("story", text=text))).begin()
        if lines := without_a_mark(kb, text):
            return _without_a_mark(kb, state, text, lines)
    if (asked := question_in(kb, text)) and not _answers_too(kb, state, text):
        return _wondered(kb, state, text, asked)
    if state.asking.what in TELLING and only_asks(kb, text):
        return (Line(hearing.UNANSWERED),)
    outcome = talk.heard(text)
    if outcome is not None:
        return outcome
    if state.asking.what in TELLING:
        return _told(kb, state, text)
    return (refused(kb, state, phrases.not_understood(text)),)


def _wondered(kb: KnowledgeBase, state: State, text: str, asked: str) -> Outcome:
    """The answer to a question; what is told beside it and is no mark is noted."""
    notes = told(kb, text).notes if state.asking.what in TELLING else ()
    survey, backs = noted(kb, state.survey, notes)
    says = Answering(kb, replace(state, survey=survey)).wondered(asked)
    return Move(state.asking, (Line(hearing.noted_beside(notes)), *says), survey, backs) if backs else says


def _without_a_mark(kb: KnowledgeBase, state: State, text: str, lines: tuple[str, ...]) -> Move:
    """What only denies a mark or says that a part is well: a story where a test may pass it, else a note."""
    story = told(kb, text)
    if story.passes:
        return Move(Asking("story", text=text))
    survey, backs = noted(kb, state.survey, story.without_a_mark)
    return Move(state.asking, (Points(phrases.NO_MARK_IN_THAT, lines),), survey, backs)


def _answers_too(kb: KnowledgeBase, state: State, text: str) -> bool:
    """Whether a question about the boat stands beside an answer to what is asked."""
    if state.asking.what != "answer":
        return False
    return reply(kb, text, find(state.survey, state.asking.mark), state.asking.ask).says_something


def _told(kb: KnowledgeBase, state: State, text: str) -> Outcome:
    """A mark in somebody's words, or what happened to her, which is said back; or both."""
    happened = heard_events(text, kb)
    if not happened.events:
        return Describing(kb, state).begin(text)
    survey, backs = apply_all(kb, state.survey, [TellEvent(told) for told in happened.events])
    says = tuple(Line(phrases.noted_event(kb, told)) for told in happened.events)
    if first := demanded(kb, survey, frozenset(told.event for told in happened.events)):
        says = (*says, Line(phrases.before_she_sails(first)))
    marked = understand(happened.rest, kb)
    if marked.zone is None and marked.sign is None:
        return Move(state.asking, says, survey, backs)
    move = Describing(kb, replace(state, survey=survey)).begin(text)
    assert isinstance(move, Move)  # a new description only asks
    return replace(move, says=(*says, *move.says), survey=survey, backs=backs)
