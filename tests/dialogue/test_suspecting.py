"""What happened chooses what is asked: what it demands is told at once, and offered when a mark has come to its end."""

from __future__ import annotations

from collections.abc import Sequence

from triage.dialogue.events import Chose, Event, Said
from triage.dialogue.messages import Asked, Ended, Line, Message
from triage.dialogue.state import State
from triage.dialogue.step import begin, step
from triage.dialogue.suspecting import next_sought
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Happened, Reading, Survey


def talk(kb: KnowledgeBase, survey: Survey, *events: Event) -> tuple[State, Sequence[Message]]:
    state, messages = begin(kb, survey)
    for event in events:
        state, messages = step(kb, state, event)
    return state, messages


def after(*happened: Happened, looks: tuple[Finding, ...] = ()) -> Survey:
    return Survey(Boat("Wagtail"), looks, events=happened)


def test_what_an_event_demands_is_said_when_it_is_told(kb: KnowledgeBase) -> None:
    _, mud = talk(kb, after(), Said("the mast stuck in the mud today"))
    _, capsize = talk(kb, after(), Said("she capsized today"))

    first = "Before she sails, somebody has to look here:"
    assert [one.text for one in mud if isinstance(one, Line) and one.text.startswith(first)]
    assert not [one for one in capsize if isinstance(one, Line) and one.text.startswith(first)]


def test_it_is_offered_at_the_end_of_a_mark_and_asked_by_what_tells_of_it(kb: KnowledgeBase) -> None:
    scuff = Finding("scuff", "topside", "scuff", "port")
    state, (*_, ended) = talk(
        kb, after(Happened("mast_in_mud"), looks=(scuff,)), Said("scuff on the topside, port side")
    )
    while not isinstance(ended, Ended):
        state, (*_, ended) = step(kb, state, Chose(1))
    number = next(n for n, one in enumerate(ended.choices, start=1) if "is suspected there" in one)

    state, (*_, asked) = step(kb, state, Chose(number))

    assert isinstance(asked, Asked)
    assert (state.asking.ask, state.survey.looks[0].zone) == ("fitting_play", "chainplate")
    assert not state.survey.looks[0].readings


def test_what_was_found_well_or_tried_in_vain_is_not_sought_again(kb: KnowledgeBase) -> None:
    def sought(*looks: Finding) -> tuple[str, str | None] | None:
        found = next_sought(kb, after(Happened("mast_in_mud"), looks=looks))
        return (found.zone, found.side) if found else None

    anchors = [
        Finding(side, "chainplate", "nothing_seen", side, {"fitting_play": said})
        for side, said in (("port", Reading.at(0)), ("starboard", Reading.attempted()))
    ]
    step_ = Finding("step", "mast_step", "nothing_seen", None, {"crack_opening": Reading.at(0)})

    assert sought() == ("chainplate", "port")
    assert sought(*anchors[:1]) == ("chainplate", "starboard")
    assert sought(*anchors) == ("mast_step", None)
    assert sought(*anchors, step_) == ("mast_low", None)


def test_nothing_is_offered_where_nothing_is_suspected(kb: KnowledgeBase) -> None:
    assert next_sought(kb, after(Happened("capsized"))) is None
