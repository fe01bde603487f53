"""What is said of marks that are looked at again: how they compare, what is due, what was mended and by whom."""

from __future__ import annotations

import datetime

from triage.log.again import Thread
from triage.log.boats import Entry
from triage.log.comparing import Compared
from triage.mechanics.interval import Interval, exactly
from triage.phrases.sums import FIGURES_MEASURED, between
from triage.phrases.words import counted

AGAIN = "Looking again"
VISITS = "Her visits"
THIS_ONE = "this one"
SINCE = "Found before, and now"
NOT_YET = "Found before, not looked at this time"
NEW = "New this time"
CLOSED = "Mended, looked at again and closed"
NOTHING_BEFORE = "This is her first visit with marks. Next time they stand here beside what is found then."
DUE = "What is due"
NOTHING_DUE = "Nothing is due."
CALENDAR = "Put these into a calendar"
ALL_IN_A_CALENDAR = "What is due on every boat, for a calendar"
HERE_AGAIN = "It is still here"
MENDED = "It was mended"
HOLDS = "Looked at again: it holds"
BY_WHOM = "By whom"
ON_DAY = "On which day"
WRITE_IT = "Write it down"
CAME_BACK = "It was found again after that."
NO_DAY = "no day named"
NOT_SO = "Not so: it is open"
DONE = {"mended": "Mended", "closed": "Looked at again and closed", "open": "Open again, as written"}
WHO = "A mend is written down with a name, of at most 80 letters. Go back and write one."
WHEN = "The day must be one from when that was last seen or written until today. Go back and mend it."
NOT_MENDED = "Only what was mended can be closed, or called open again. Write down first that it was mended."
UNKNOWN = "No such mark of this boat is kept."


def day(one: datetime.date | None) -> str:
    """A day as it stands in lists."""
    return one.isoformat() if one else NO_DAY


def lengths(found: Compared) -> list[str]:
    """Each measurement with how far it may be off."""
    return [
        f"{on.isoformat()}: {length(value, found.unit)}, give or take {_told(off, found)}"
        for on, value, off in found.lengths
    ]


def length(value: float, unit: str) -> str:
    """A length, no finer than it was measured."""
    return between(exactly(value), unit, FIGURES_MEASURED)


def come_to(found: Compared) -> str:
    """What the measurements come to, in one sentence."""
    low, high = found.season
    if found.growth.shows:
        pace = between(Interval(low, high), found.unit)
        return f"It grows by {pace} in a season: more than measuring can explain."
    if found.proposed:
        return "It has not grown by more than measuring can explain."
    most = _told(max(high, 0), found)
    return f"It cannot be told yet whether it grows: measured like this, up to {most} in a season is possible."


def grew(found: Compared) -> str:
    """How much longer it is than at first, and after how long; empty where it may be no more than measuring."""
    if not found.growth.shows:
        return ""
    (began, first, _), (ended, last, _) = found.lengths[0], found.lengths[-1]
    days = (ended - began).days
    time = counted(round(days / 7), "week") if days >= 14 else counted(days, "day")
    return f"{_told(last - first, found)} more in {time}."


def _told(value: float, found: Compared) -> str:
    return between(exactly(value), found.unit)


def reaches(found: Compared) -> str:
    """When it comes to the next length that matters, at this pace; empty where it does not grow."""
    if found.reaches is None:
        return ""
    length, first, last = found.reaches
    until = f"between {first.isoformat()} and {last.isoformat()}" if last else f"from {first.isoformat()} on"
    return f"At this pace it is {length:g} {found.unit} long {until}."


def again_from(found: Compared) -> str:
    """From when another look tells something."""
    return f"Measured as well as this, another look tells something from {found.again.isoformat()} on."


def take(answer: str) -> str:
    """The button that takes what is proposed as the answer."""
    return f"Answer “{answer}” to its growth"


def history(thread: Thread) -> list[str]:
    """The diary of a mark."""
    lines = [entry(one) for one in thread.entries]
    return [*lines, CAME_BACK] if thread.came_back else lines


def entry(one: Entry) -> str:
    """A line of the diary."""
    return f"{DONE[one.what]} on {one.on.isoformat()}, by {one.by}."


def written(one: Entry) -> str:
    """What is said when a line was written."""
    match one.what:
        case "mended":
            return "Written down. Look at it again after the next sail, and close it when it holds."
        case "closed":
            return "Written down: it is closed. If the mark is found again, it counts as come back."
        case "open":
            return "Written down: it is open. What was written before stays in her diary."


def look_at(title: str) -> str:
    """A re-check in a line."""
    return f"Look again at {title}"


def find_out(check: str, place: str) -> str:
    """A check that is still open, in a line."""
    return f"{check}, {place}"


def of_boat(boat: str, what: str) -> str:
    """What is due, in a calendar beside everything else."""
    return f"{boat}: {what}"


def still_open(question: str) -> str:
    """Why an open check is due at once."""
    return f"{question} The answer is still open.".strip()


def measure_again(title: str) -> str:
    """A length to measure, in a line."""
    return f"Measure again: {title}"


def look_at_mend(title: str) -> str:
    """A mend to look at, in a line."""
    return f"Look at the mend of {title}"


def mended_so(one: Entry) -> str:
    """What was done, and what is to be done."""
    return f"{entry(one)} Look at it after the next sail, and close it when it holds."


def measure(found: Compared) -> str:
    """Why measuring is due."""
    return f"Measure it the same way as before. {come_to(found)}"


def visit(on: datetime.date | None, marks: int) -> str:
    """A visit in a list."""
    return f"{day(on)}, {counted(marks, 'mark')}"


def not_looked_at(last: datetime.date | None) -> str:
    """Why a mark of an earlier visit is due."""
    return f"It was found before ({day(last)}) and not looked at since."
