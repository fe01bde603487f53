"""What the screens say beside what the conversation says."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from triage.phrases.words import counted

THE_PROGRAM = "Dinghy triage"
NAMELESS, FOR_SALE = "My boat", "Boat for sale"
UNNAMED = (NAMELESS, FOR_SALE)

WHAT_DID_YOU_FIND = "What did you find?"
HOW_TO_TELL = "What, where, how big, what you tried. Type it, or dictate it with the keyboard's microphone."
EXAMPLE = "Crack by the bolt that holds the mast wire, about an inch. Stood on the deck, it does not give."
READ_IT = "Read it"
WALK_ROUND = "Walk round"
BUYING = "Buying? The advert first"
WAY = {"advert": "Advert", "viewing": "Plan", "walk": "Viewing", "buy": "Decision"}
THE_WAY = "From the advert to the decision"
SHOULD_I_BUY = "Should I buy her?"
ROUND = "Round"
ON_WITH_ROUND = "On with the round"
PHOTOS = "Photographs"
OR_TAP = "Or tap the place"
PRACTISE = "Practise on a case, alone or with a class"
ANOTHER_MARK = "Another mark"
FINISH = "The answer"
ALL_MARKS = "All marks"

BACK = "Back"
WHY = "Why?"
COULD_NOT_TELL = "Could not tell"
SAME_OTHER_SIDE = "Tried on both sides, and the same on the other"
BETWEEN = "It lies between two of these"
AT_BEST = "It is at best"
AT_WORST = "It is at worst"
IT_IS_BETWEEN = "Between these two"
ELSEWHERE_ON_IT = "Answer something else about it"
OR_SAY = "Or say it in your own words"
SAY_IT = "Say it"
MEANWHILE = "That question was answered meanwhile. This is what is asked now."
UNDERSTOOD = "This is what I understood"
NOTHING_KEPT = "Nothing is kept until you say so."
THAT_IS_RIGHT = "That is right"
KEEP = "Keep"
KEPT = "✓ Keep"
CHANGE = "Change"
REMOVE = "Remove"
CHOOSE_WHICH = "Choose which"
LEFT_OUT = "Left out"
TELL_AGAIN = "Tell it again"
WHICH_SIDE = "Which side?"
SIDES = {"port": "Port", "starboard": "Starboard", "both": "Both", "unknown": "Cannot tell"}
ANSWERED = "Answered"
WOULD_CHANGE = "What would still change it"
COULD_SETTLE = "What could settle it"
SENDS_TO = "It also sends you to look at"
STEPS = "How to find out"
TAKE_CARE = "Take care"

STANDS = {
    "not_looked": "not looked at",
    "seen": "looked at, not tried",
    "passed": "passed its check",
    "found": "a mark was found",
}
THE_ANSWER = "The answer"
MAY_SHE_SAIL = "May she sail?"
WHAT_COST = "What will it cost?"
WHAT_MADE = "What made it?"
THE_REPORT = "The whole report"
THE_SURVEY = "The survey as a file"
A_NOTE = "A note to send"
ASK_HER = "Ask"
WHAT_WAS_FOUND = "What was found"
WHAT_NEXT = "What to do next"
WITH_HELPER = "with a helper"
ANSWER_NOW = "Answer this now"
SEND = "To send or to keep"
SEND_ON = "Send it on"
NOTES = {"anyone": "For anyone", "repairer": "For a repairer", "seller": "For a seller"}
BY_MAIL = "Send by mail"
SHARE = "Share or copy"
MORE = "More of this"
WHAT_ELSE = "What else you can do"
WHAT_NOW = "What now?"
NOTHING_YET = "Nothing is in the survey yet. Tell first what you found, or walk round her."

BOATS = "Boats"
NO_SUCH_BOAT = "This boat is not kept here, or not any more."
NO_BOATS = "No boat is kept yet."
IN_COMMON = "What they have in common"
NEW_BOAT = "A new boat"
NEW_VISIT = "Look at her again"
LOOKING_AGAIN = "Since last time, and what is due"
HER_NAME = "Her name"
NAME_HER = "Name her"
WHAT_IS_SHE_CALLED = "What is she called? So that you find her again in the list of boats."
STANDS_FROM_BEFORE = "This stands from last time"
STANDS_SO = "It counts in every answer until somebody looks at it again or says that it was mended."
SAME_AGAIN = "Same as last time"
WAS_MENDED = "Mended"
LOOK_AGAIN = "Look at it again"
MORE_ABOUT = "Her name, files, taking out"
KEEP_BOAT = "All her visits and her diary as one file"
OPEN_FILE = "Open a survey or a boat from a file"
OPEN_IT = "Open it"
NO_DAY = "no day named"

GO_TO_START = "To the first screen"
PROBLEMS = {
    400: ("That could not be read", "The form or the file did not arrive whole. Go back and send it again."),
    403: ("Not taken", "That was sent from another page, so nothing was changed. Do it again from here."),
    404: ("Nothing is here", "There is no such screen, boat or visit, or it was taken out."),
    405: ("Not like that", "This address takes something else. Go on from the first screen."),
    413: (
        "Too much at once",
        "That is larger than what is taken: a few pages of a survey, or one photograph.",
    ),
    422: ("That is no survey", "Nothing of it was kept. Mend this and open it again:"),
    500: ("A mistake of ours", "What you answered before is kept. Go back and try another way."),
}


def visit(day: datetime.date | None, marks: int) -> str:
    """A visit in a list."""
    return f"{day.isoformat() if day else NO_DAY}, {counted(marks, 'mark')}"


def about_minutes(minutes: float, wait: str, *, helper: bool) -> str:
    """How long it takes to find an answer."""
    return f"{minutes:g} minutes{wait}{', with a helper' if helper else ''}"


def still_left(left: int) -> str:
    """How many questions may follow."""
    return f"{counted(left - 1, 'more question')} may follow" if left > 1 else ""


def looked_at(looked: int, places: int) -> str:
    """How much of her somebody has looked at."""
    return f"Looked at {looked} of {counted(places, 'place')}"


def card(letter: str, cards: int) -> str:
    """Which card of a story it is."""
    return f"Mark {letter} of {cards}"


def keep_these(marks: int) -> str:
    """Everything that was understood and not taken out is kept."""
    return "Keep it" if marks == 1 else f"Keep all {marks}" if marks else "Go on"


def not_that(name: str) -> str:
    """What a mark is most easily taken for."""
    return f"not: {name[:1].lower()}{name[1:]}"


def more_like_it(count: int) -> str:
    """How many more drawings there are."""
    return f"{count} more that it may be"


def bring(tools: Sequence[str]) -> str:
    """What a check needs."""
    return f"Bring: {', '.join(tools)}."


def start_check(minutes: float) -> str:
    """On the button that asks what is worth finding out next."""
    return f"Start the {minutes:g}-minute look" if minutes else "Ask me that"


def go_on_with(boat: str, marks: int) -> str:
    """On the way back to where one left off."""
    return f"Go on with {boat}, {counted(marks, 'mark')}"


def keep_file(day: datetime.date | None) -> str:
    """On what fetches the survey of a visit as a file."""
    return f"File of {day or NO_DAY}"


def take_out(day: datetime.date | None) -> str:
    """On what takes a visit out."""
    return f"Take out {day or NO_DAY}"


def seen_on(day: datetime.date | None) -> str:
    """When a mark was last looked at."""
    return f"seen on {day.isoformat()}" if day else NO_DAY
