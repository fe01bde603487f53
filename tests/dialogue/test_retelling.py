"""A card of a story put right in words while it is asked which mark is meant."""

from __future__ import annotations

import pytest

from tests.dialogue.talking import talk
from triage.dialogue.events import Said
from triage.dialogue.messages import Choices, Message, Points
from triage.dialogue.retelling import at_place_said, with_more
from triage.dialogue.step import step
from triage.dialogue.stories import told
from triage.knowledge.model import KnowledgeBase

KNOCKS = "The rudder knocks and there is some water in the boat after a sail."


def test_another_place_in_words_is_shown_with_the_others_and_nothing_is_kept(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said(KNOCKS))
    assert (state.asking.what, state.asking.ask) == ("which", "0")

    state, messages = step(kb, state, Said("no, it is on the tiller"))

    shown = [line for one in messages if isinstance(one, Points) for line in one.lines]
    assert state.asking.what == "story"
    assert shown[0].startswith(f"a. {kb.zones['tiller'].name}: ")
    assert not state.survey.findings


def test_no_mark_is_made_up_at_a_place_where_none_of_those_is_met(kb: KnowledgeBase) -> None:
    (card,) = told(kb, "pinhead bumps about 2 mm").cards

    decision = at_place_said(kb, card, "not there, on the papers")
    assert not decision or decision.split()[1] in {one.sign for one in card.found.choices}


@pytest.mark.parametrize("said", ["300 mm across", "about a hand across"])
def test_a_size_is_added_to_its_card_alone(kb: KnowledgeBase, said: str) -> None:
    story = told(kb, KNOCKS.replace("The rudder knocks", "There is a soft patch on the foredeck"))
    longer = with_more(kb, story, 0, said, ())

    after = told(kb, longer)
    assert len(after.cards[0].sizes) == len(story.cards[0].sizes) + 1
    assert [card.sizes for card in after.cards[1:]] == [card.sizes for card in story.cards[1:]]
    assert not with_more(kb, story, 0, "I could not say", ())


def test_other_words_for_a_card_offer_what_these_may_mean(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said("pinhead bumps"))
    assert state.asking.what == "which"

    after, messages = step(kb, state, Said("a crack in the mast"))

    assert after.asking.what in ("which", "story")
    assert "“a crack in the mast”" in f"{messages}"
    assert "mast" in " ".join(choices(messages)).casefold()
    assert not after.survey.findings


def choices(messages: tuple[Message, ...]) -> tuple[str, ...]:
    return next(one.choices for one in messages if isinstance(one, Choices))


def test_other_words_that_stand_for_themselves_are_not_taken_for_what_was_offered(kb: KnowledgeBase) -> None:
    state, _ = talk(kb, Said("There is a dent in the nose with the gelcoat off. May she sail?"))
    assert state.asking.what == "which"
    offered = told(kb, state.asking.text, state.asking.offered).cards[0].pairs
    assert ("stem", "gouge_fibre") not in offered

    state, messages = step(kb, state, Said("the stem is worn down to bare glass"))

    card = told(kb, state.asking.text, state.asking.offered).cards[0]
    assert (card.zone, card.sign) == ("stem", "gouge_fibre")
    assert "gouge to the fibre" in f"{messages}"
    assert not state.survey.findings


def test_which_choice_words_were_taken_for_is_said(kb: KnowledgeBase) -> None:
    state, messages = talk(kb, Said("pinhead bumps"))
    place = choices(messages)[0].partition(":")[0]

    _, messages = step(kb, state, Said(f"{place}, please"))

    assert f"Taken as: {place}" in f"{messages}"
