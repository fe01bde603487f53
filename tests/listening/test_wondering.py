"""A question in no known words is about what its words hint at, in a story; the answer then begins with it."""

from __future__ import annotations

import pytest

from triage.dialogue.events import Said
from triage.dialogue.state import State
from triage.dialogue.step import step
from triage.knowledge.model import KnowledgeBase
from triage.listening.statements import Asked
from triage.listening.story import hear
from triage.survey.asked import asked_about
from triage.survey.model import Boat, Survey

MARK = "There is a crack in the rudder blade, an inch long."
ASKED = [
    ("would she get us through the regatta next week", "afloat"),
    ("am I mad to launch on Sunday", "afloat"),
    ("will the trailer get me to the yard", "tow"),
    ("roughly how many quid", "cost"),
    ("is she a lemon", "decision"),
    ("does it want a proper boatbuilder", "hands"),
    ("would a dab of sikaflex do", "mend"),
    ("any idea where that came from", "cause"),
    ("am I being paranoid", "verdict"),
    ("anywhere else I ought to poke", "look"),
]


@pytest.mark.parametrize(("words", "about"), ASKED)
def test_most_of_its_words_say_what_it_is_about(kb: KnowledgeBase, words: str, about: str) -> None:
    heard = [one for one in hear(f"{MARK} {words.capitalize()}?", kb) if isinstance(one, Asked)]

    assert [one.about for one in heard] == [about]


@pytest.mark.parametrize("words", ["which tune does the bosun whistle", "where do you keep the biscuits"])
def test_what_hints_at_nothing_is_about_nothing(kb: KnowledgeBase, words: str) -> None:
    heard = [one for one in hear(f"{MARK} {words.capitalize()}?", kb) if isinstance(one, Asked)]

    assert [one.about for one in heard] == [""]


def test_what_was_wondered_is_kept_and_answered(kb: KnowledgeBase) -> None:
    story = f"{MARK} Would she get us through the regatta?"

    state, _ = step(kb, State(Survey(Boat("Wagtail"), ())), Said(story))

    assert asked_about(kb, state.survey.asked) == ("afloat",)
