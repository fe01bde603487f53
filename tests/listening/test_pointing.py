"""One damage is one card: what tells more of a mark, or only compares, opens none of its own."""

from __future__ import annotations

import pytest

from tests.listening.scoring import of_kind
from triage.knowledge.model import KnowledgeBase
from triage.listening.statements import Found
from triage.listening.story import hear


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
