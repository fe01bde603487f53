"""One damage is one card: what tells more of a mark, or only compares, opens none of its own."""

from __future__ import annotations

import pytest

from tests.listening.scoring import COUNTING, of_kind, written
from triage.knowledge.model import KnowledgeBase
from triage.listening.statements import Denied, Found, NotLooked, Unheard
from triage.listening.story import hear
from triage.listening.tokens import tokens_of


def _marks(kb: KnowledgeBase, text: str) -> list[tuple[str, str]]:
    return [(one.zone, one.sign) for one in of_kind(hear(text, kb), Found)]


@pytest.mark.parametrize(
    "more",
    [
        "Patch would be as big as a dinner plate.",
        "When I stood there the soft patch went down a bit.",
        "Dirty water came out of it.",
        "We will not go out until the soft patch is looked at.",
    ],
)
def test_what_tells_more_of_a_mark_is_no_card_of_its_own(kb: KnowledgeBase, more: str) -> None:
    told = "The side deck has a soft patch."

    assert len(_marks(kb, told)) == 1
    assert _marks(kb, f"{told} {more}") == _marks(kb, told)


@pytest.mark.parametrize(
    "more",
    ["There is another soft patch on the foredeck.", "The crack on the transom is 3 cm long.", "The boom has a dent."],
)
def test_a_mark_at_another_place_is_another_card(kb: KnowledgeBase, more: str) -> None:
    assert len(_marks(kb, f"The side deck has a soft patch. {more}")) == 2


def test_what_is_seen_in_a_mark_is_told_of_it(kb: KnowledgeBase) -> None:
    assert len(_marks(kb, "The topside is crushed at the shroud, you can see the glass all splintered.")) == 1
    assert len(_marks(kb, "The topside has a dent, you can see a crack on the transom.")) == 2


def test_what_only_compares_names_no_mark(kb: KnowledgeBase) -> None:
    assert _marks(kb, "The side deck is spongy and makes a noise like stale chips.") == [("side_deck", "soft_panel")]
    assert any(sign == "hairline" for _, sign in _marks(kb, "There is what looks like a crack in the thwart."))


def test_a_mark_that_the_words_themselves_speak_against_is_not_meant(kb: KnowledgeBase) -> None:
    assert ("halyards", "seized_wheel") in _marks(kb, "Halyard sheave is seized.")
    signs = [sign for _, sign in _marks(kb, "Halyard sheave is worn and sticks but turns freely.")]

    assert signs
    assert "seized_wheel" not in signs


def test_a_heading_does_not_take_the_mark_from_the_part_that_is_named_under_it(kb: KnowledgeBase) -> None:
    text = "Standing rigging: the starboard chainplate has lifted by 2 mm."

    assert _marks(kb, text) == [("chainplate", "play")]


def test_words_that_hardly_speak_for_a_mark_are_a_note(kb: KnowledgeBase) -> None:
    text = "The floor creaks and goes down about 5 mm by the mast."
    heard = hear(f"{text} The casing and the step were both passed by him.", kb)

    assert {one.zone for one in of_kind(heard, Found)} == {"cockpit_floor"}
    assert any("goes down" in text[one.start : one.end] for one in of_kind(heard, Unheard))


def test_litres_told_after_a_leak_are_of_that_leak(kb: KnowledgeBase) -> None:
    assert len(_marks(kb, "The bailer leaks. Not much, a pint or so in an hour.")) == 1


@pytest.mark.parametrize("word", ["staff", "thought", "skipper", "strange", "coaching"])
def test_ordinary_words_are_no_slips_of_the_trades(kb: KnowledgeBase, word: str) -> None:
    assert [token.word for token in tokens_of(word, kb)] == [word]


def test_a_denial_without_stops_ends_where_other_things_are_told(kb: KnowledgeBase) -> None:
    told = "no cracks on the deck or anywhere else on the boat that i can find today the forestay has a broken strand"
    heard = hear(told, kb)

    assert of_kind(heard, Denied)
    assert ("shrouds", "wire_fray") in {
        (choice.zone, choice.sign) for one in of_kind(heard, Found) for choice in one.choices
    }


def test_there_is_no_hatch_tells_why_nobody_looked(kb: KnowledgeBase) -> None:
    heard = hear("The shroud plate has cracks round it. I could not see underneath, there is no hatch.", kb)

    assert {one.zone for one in of_kind(heard, Found)} == {"chainplate"}
    assert of_kind(heard, NotLooked)


def test_what_leads_to_a_question_is_no_mark(kb: KnowledgeBase) -> None:
    assert _marks(kb, "Bolt heads of the forestay fitting are rusty. Just rust or should I worry?") == [
        ("forestay_anchor", "rust_bleed")
    ]


@pytest.mark.parametrize("which", ["worked_towards", "only_counted"])
def test_few_cards_are_shown_that_nobody_told(kb: KnowledgeBase, which: str) -> None:
    count = COUNTING["strangers"](kb, written("strangers")[which])  # a third of the cards before, 17 and 10 of 67

    assert count["marks that nobody told"] <= 3  # with what happened heard apart: 2 and 3
    assert count["marks told twice"] <= 2
