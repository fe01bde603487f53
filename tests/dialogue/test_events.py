"""What happened, told in a conversation: heard, said back, kept and taken back."""

from __future__ import annotations

import pytest

from tests.dialogue.talking import talk
from triage.dialogue.events import Chose, Said, Undo
from triage.dialogue.keeping import kept
from triage.dialogue.messages import Line, Points
from triage.dialogue.state import State
from triage.dialogue.step import begin, step
from triage.knowledge.model import KnowledgeBase
from triage.listening.events import heard_events
from triage.phrases.hearing import UNANSWERED
from triage.survey.model import Happened
from triage.survey.read import survey_from_text
from triage.survey.write import survey_text


def told(kb: KnowledgeBase, words: str) -> tuple[State, tuple[object, ...]]:
    return talk(kb, Said(words))


@pytest.mark.parametrize(
    ("words", "events"),
    [
        ("we hit a rock", {"hit_bottom"}),
        ("she capsized and the mast stuck in the mud", {"capsized", "mast_in_mud"}),
        ("tightened it today", {"tightened"}),
        ("she never capsized", set()),
        ("did she hit the bottom", set()),
        ("crack where the mast wires bolt on, about an inch", set()),
    ],
)
def test_events_are_heard_in_peoples_words(kb: KnowledgeBase, words: str, events: set[str]) -> None:
    assert {one.event for one in heard_events(words, kb).events} == events


def test_how_hard_and_when_are_heard_as_well(kb: KnowledgeBase) -> None:
    (one,) = heard_events("last week we hit a rock, stopped her dead", kb).events

    assert (one.force, one.when) == ("hard", "this season")


def test_an_event_is_said_back_kept_and_taken_back(kb: KnowledgeBase) -> None:
    state, says = told(kb, "we hit a rock")

    assert says[0] == Line("Noted: she hit a rock or the ground under water.")
    assert state.survey.events == (Happened("hit_bottom", said="we hit a rock"),)
    again, _ = begin(kb, survey_from_text(survey_text(kept(state)), kb))
    assert again.survey.events == state.survey.events
    assert step(kb, again, Undo())[0].survey.events == ()


def test_a_mark_in_the_same_sentence_is_described_as_well(kb: KnowledgeBase) -> None:
    state, says = told(kb, "crack at the root of the board case where we hit a rock")

    assert any("hit a rock" in line for one in says if isinstance(one, Points) for line in one.lines)
    while state.asking.what not in ("answer", "ended"):
        state, says = step(kb, state, Chose(1))
    assert [one.event for one in state.survey.events] == ["hit_bottom"]
    assert len(state.survey.marks) == 1


def test_a_question_that_nothing_answers_gets_the_line_that_says_who_may_know(kb: KnowledgeBase) -> None:
    state, says = told(kb, "What colour was she when she was new?")

    assert says[0] == Line(UNANSWERED)
    assert not state.survey.marks


def test_a_question_that_names_a_mark_is_still_taken_as_one(kb: KnowledgeBase) -> None:
    _, says = told(kb, "Where could the crack in the foredeck come from, any idea?")

    assert Line(UNANSWERED) not in says
