"""What is asked of a whole story before anything of it is kept: which mark is meant, what is right, what was tried."""

from __future__ import annotations

from string import ascii_lowercase
from textwrap import shorten

from triage.knowledge.model import KnowledgeBase
from triage.listening import statements as heard
from triage.phrases.hearing import MOST_QUOTED, SIDES
from triage.phrases.words import at_side, uncapital

KEEP_THESE = "Is that right? What is not clear is asked before it is kept."
KEEP = "yes, keep these"
TELL_AGAIN = "no, keep none of it: I will tell it again"
NONE_LEFT_OUT = "none of these: leave it out"
SAY_WHERE = "Say in words where it is, and what it looks like; or leave it out, and tell of it once the rest is kept."
TRIED_SO = "yes, like this, and nothing was found"
NOT_TRIED_SO = "no, it was not tried like this"


def letter(place: int) -> str:
    """What the mark at this place of a story, from 0, is called; numbers are choices. After z come aa, bb and so on."""
    rounds, place = divmod(place, len(ascii_lowercase))
    return ascii_lowercase[place] * (rounds + 1)


def more_of(kb: KnowledgeBase, zone: str, sign: str, letter: str) -> str:
    """Words that tell more of a mark that was told of before."""
    return f"more of {letter}, {uncapital(kb.zones[zone].name)}: {uncapital(kb.signs[sign].name)}."


def tried_there(place_and_mark: str) -> str:
    """A test that was told of without its place was made at a mark."""
    return f"yes, like this, and I said it of this mark: {place_and_mark}"


def which_mark(words: str) -> str:
    """One mark of several is asked for, by the words for it."""
    return f"Which of these is “{shorten(words, MOST_QUOTED, placeholder=' …')}”?"


def taken_as(choice: str) -> str:
    """Which of the choices somebody's words were taken for."""
    return f"Taken as: {choice.partition('.')[0]}."


def keep_with(kb: KnowledgeBase, zone: str) -> str:
    """All of it is right, and of this place the side is told with it."""
    return f"{KEEP}, and {uncapital(kb.zones[zone].name)}"


def change_card(letter: str, name: str) -> str:
    """A card that may be changed or taken out."""
    return f"change or take out {letter}: {name}"


def taken_out(words: str) -> str:
    """A card that is not kept."""
    return f"(left out) {words}"


def was_it_tried(kb: KnowledgeBase, one: heard.Passed, words: str) -> str:
    """Whether a part was tried by the test that passes it."""
    place, checks = kb.zones[one.zone], kb.checks_for(one.scale, one.zone)
    how = f"{checks[0].name}: {' '.join(checks[0].steps)}" if checks else place.how_passed
    return f"{at_side(place.name, SIDES[one.side])}: you said {words}. Was it tried like this? {how}"
