"""What the screens say of a cause that several boats have in common."""

from __future__ import annotations

from triage.phrases.words import counted, uncapital

INTRO = (
    "A cause that is likely on one boat and possible on another is a habit, a slipway or a trolley "
    "rather than bad luck."
)
NOTHING = "No cause is likely on one of these boats and possible on another."
ONE_BOAT = "That takes two boats at least. Tell of another one first."
STILL = "Does it go on?"
CURE = "Then:"
LOOK_AT = "Because of it, look at"
NO_MORE = "nothing more is to be looked at."


def of_boats(looked: int, kept: int) -> str:
    """Whose visits were laid side by side."""
    told = f"The last visit to each of {counted(looked, 'boat')}"
    return f"{told}." if looked == kept else f"{told}, those last visited; {kept} are kept."


def likelihood(boat: str, word: str) -> str:
    """How likely it is on one boat."""
    return f"{boat}: {word}"


def line(name: str, place: str, side: str | None) -> str:
    """A check that it demands."""
    return f"{name}, {uncapital(place)}{f', {side}' if side else ''}"
