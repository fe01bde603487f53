"""What the screens say on which the boat is tapped, gone round and photographed."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from triage.knowledge.model import Check
from triage.phrases.words import at_side, counted, listed, uncapital

TAP = "Tap the place"
TAP_HOW = "Any tap shows the four nearest places, so you need not hit it."
VIEWS = {"deck": "Deck", "inside": "Inside", "under": "Under", "rig": "Rig"}
VIEW_OF_HER = "View of her"
WHICH = "Which of these?"
OTHER_VIEWS = "Look elsewhere"
ALL_PLACES = "All places as a list"
THE_DRAWING = "The boat to tap"
WAYS_ON = "Ways on"
KEY = "What the drawing says"

HERE_ALREADY = "Found here"
GO_ON = "Go on with it"
WHICH_SIDE = "Side"
BOTH = "both sides"
SIDES = {"port": "port (left)", "starboard": "starboard (right)", "both": BOTH, "unknown": "cannot tell"}
NO_MARK = "No mark: looks fine here"
NO_MARK_MEANS = "Looked at, not tried. It passes nothing."
TRIED = "Tried: fine"
A_MARK = "A mark"
OR_A_MARK = "Or a mark: which is it most like?"
HOW_TO_TRY = "How to try it"
LOOKS = "Looks fine"

THE_ROUND = "Walk round her"
MINUTES = "How much time is there?"
MINUTES_WHY = "It decides what comes first. You can stop and come back, and take the parts in any order."
ALL_THE_TIME = "As long as it takes"
CHANGE_MINUTES = "Change the time"
GO_ON_ROUND = "Go on"
THE_LEGS = "All parts"
ALL_LOOK_FINE = "The rest looks fine"
ROUND_DONE = "Every place was looked at."
THE_ANSWER = "The answer so far"
FIRST = "first"
ALSO_HERE = "Also here, if there is time"
STILL_TO_PASS = "To pass it, also"
SAME = "Same as last time"
SAME_MEANS = "What was answered then stands; a length was not measured anew."
MENDED = "Mended"

PHOTOS = "Photographs"
ADD_PHOTO = "Take or choose a photograph"
KEEP_PHOTO = "Keep it with this mark"
PHOTO_MEANS = "It is made smaller, and where and with what it was taken is left out."
TAKE_OUT = "Take it out"
BACK_TO_MARK = "Back to the mark"
A_LENGTH = "A length from it"
PHOTO_NOT_KEPT = "Choose a photograph first."

MEASURE = "A length from the photograph"
MEASURE_HOW = (
    "Lay a bank card flat beside the line. Tap the two ends of one long side of the card, then its other two corners, "
    "going round. Then tap along the line, from tip to tip."
)
WITHOUT_SCRIPT = (
    "Here the taps need the page's script, which is not running. Lay a ruler along the line and read it there, from "
    "tip to tip; or type where each point is, in pixels to the right and down, such as 120, 340."
)
CORNERS = ("first corner", "other end of its long side", "third corner", "fourth corner")
LINE = "points along the line"
TAPS = "Where you tapped"
NUDGE = {"left": "to the left", "up": "up", "down": "down", "right": "to the right"}
RECKON = "Reckon it"
CLEAR = "Begin again"
USE_IT = "Answer with this"
ONLY_PROPOSED = "It is only proposed: what you measure with a ruler is better."
NO_TAPS = "That is not four corners and two points at least. Each is two numbers, such as 120, 340."
STATES = {
    "not looked at": "not looked at",
    "partly": "one side looked at",
    "nothing found": "looked at, not tried",
    "passed": "passed",
    "marked": "a mark was found",
}


def minutes(some: int) -> str:
    """A choice of time."""
    return f"{some} minutes"


def leg_of(number: int, legs: int, used: float, whole: int) -> str:
    """Which part it is, and how much of the time what was looked at has taken."""
    told = f"Part {number} of {legs}"
    return f"{told} · {used:g} of {whole} minutes used" if whole else told


def looked(some: int, whole: int) -> str:
    """How many places were looked at."""
    return f"{some} of {whole} looked at"


def on_to(leg: str) -> str:
    """The way to the next part."""
    return f"On: {uncapital(leg)}"


def tried_by(checks: Sequence[Check]) -> str:
    """What passes a part: the names of the tests, and the time they take."""
    names = [uncapital(check.name) for check in checks]
    return f"{listed(names)}, {sum(check.minutes for check in checks):g} min" if names else ""


def noted_tried(place: str, sides: tuple[str, ...], *, passed: bool) -> str:
    """What was recorded of a part that was tried."""
    end = "tried, and passed" if passed else "tried and fine. One more thing is wanted before it is passed"
    return f"Noted: {_on(place, sides)}: {end}."


def noted_looks(place: str, sides: tuple[str, ...]) -> str:
    """What was recorded of a part that was looked at."""
    return f"Noted: {_on(place, sides)}: looked at, not tried."


def noted_not_looked(place: str, sides: tuple[str, ...]) -> str:
    """That nobody looked there."""
    return f"Noted: {_on(place, sides)}: not looked at."


def noted_rest(number: int) -> str:
    """What was recorded of the rest of a leg."""
    return f"Noted: {counted(number, 'place')} looked at, not tried."


def last_time(day: datetime.date | None, mark: str, side: str | None) -> str:
    """A mark of an earlier visit."""
    return f"Last time{f' ({day.isoformat()})' if day else ''}: {at_side(mark, side)}"


def same_as(day: datetime.date | None) -> str:
    """What is said of a mark that stands from an earlier visit and is as it was."""
    return f"The same as {f'on {day.isoformat()}' if day else 'last time'}."


def length_of(told: str) -> str:
    """What the taps come to."""
    return f"The line is {told} long, as far as these taps tell."


def cannot_reckon(why: str) -> str:
    """Why these taps come to no length."""
    return f"These taps come to no length: {why}."


def photo_of(number: int, mark: str) -> str:
    """A photograph, for those who cannot see it."""
    return f"Photograph {number}: {mark}"


def _on(place: str, sides: tuple[str, ...]) -> str:
    named = tuple(side for side in sides if side)
    return at_side(place, named[0] if len(named) == 1 else BOTH if named else None)
