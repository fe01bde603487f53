"""What is said of a mark until place, mark, size and side are right."""

from __future__ import annotations

WHICH_PLACE = "Which place is it? Choose one, or say it in other words."
UNKNOWN_PLACE = "I do not know which place you mean. Say it in other words, or go round the boat."
GO_ROUND = "none of these: go round the boat part by part"
WHERE_ABOUT = "Where is it?"
WHICH_SPOT = "Which place is it?"
OTHER_PART = "another part of the boat"
SHOW_ALL = "none of these: show me all that there may be"
OTHER_PLACE = "it is another place"
IS_THAT_RIGHT = "Is that right?"
RIGHT = "yes, that is right"
NOT_THE_PLACE = "no, it is another place"
NOT_THE_MARK = "no, it is another mark"
NOT_THE_SIZE = "no, leave the size out"
WHICH_SIDE = "Which side?"
SIDES = {
    "port": "port, on the left as you look forward",
    "starboard": "starboard, on the right as you look forward",
    "both": "both sides: two marks, one on each",
    "unknown": "cannot tell",
}
ON_SIDE = {
    "port": "on the port side, left as you look forward",
    "starboard": "on the starboard side, right as you look forward",
    "both": "on both sides, a mark on each",
    "unknown": "I cannot tell on which side",
}
ALREADY_THERE = "That mark is already in the survey; going on with it."
TWO_MARKS = "These are two marks, one on each side. First the one on the port side; the other comes after it."
LEFT_OUT = "Left out. Nothing of it was kept."


def with_side(said: str, side: str) -> str:
    """A yes that tells the side with it, which nobody had told."""
    return f"{said}: {ON_SIDE[side]}"


def what_it_looks_like(place: str) -> str:
    """Which mark it is, with the place that it is taken to be at."""
    return f"At this place: {place}. What does it look like?"


def size_left_out(what: str, hint: str) -> str:
    return f"The size is left out: {what}. {hint}".strip()


def size_taken(said: str, value: float, unit: str, phrase: str, *, estimated: bool) -> str:
    taken = " (our estimate of what that is)" if estimated else ""
    return f"{said}, taken as {value:g} {unit}{taken}: {phrase}."


def size_not_judged(said: str) -> str:
    return f"{said}: kept in the note, and not used to judge this mark."


def told_instead(place_and_mark: str) -> str:
    """A mark that was corrected goes."""
    return f"In place of: {place_and_mark}"


def not_kept_yet(words: str) -> str:
    """A report is wanted while something that was told waits for an answer."""
    return f"“{' '.join(words.split())}” is not in it yet. Answer this first, or leave it out with “delete”."


def kept_without_side(place_and_mark: str) -> str:
    """A report is wanted while the side of a mark is asked."""
    return f"{place_and_mark}: kept, and nobody has said on which side."
