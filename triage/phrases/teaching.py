"""What the screens say to those who learn and those who teach."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

from triage.phrases.words import uncapital

TEACHING = "Practise on a case"
INTRO = (
    "A boat is drawn from the rules. Look at the mark, choose your checks, and say what you think. "
    "Then you see how the program reasons."
)
NICKNAME = "A nickname"
IS_IT_YOU = "Is it you?"
NICKNAME_HINT = "one that nobody else in your class has; nothing else of you is kept"
CODE = "Class code"
CODE_HINT = "from your trainer; leave it empty to practise alone"
WHAT_CASES = "Which cases?"
BY_DIFFICULTY, BY_LESSON, BY_CONFUSION = "By difficulty", "Of a lesson", "Two that look alike"
BY_TRAINER, OWN_CASES = "From your trainer", "Your trainer’s own cases"
NO_OWN_CASES = "this class has no cases of its trainer’s own"
OTHER_CHOICE = "Choose other cases, or ask your trainer for the class code."
ANY_CASE = "Any case"
DIFFICULTY: Mapping[str, str] = {"easy": "Easy cases", "middling": "Middling cases", "hard": "Hard cases"}
NUMBER = "Number of the case"
NUMBER_HINT = "leave it empty for the next one; the same number is the same case for everybody"
WHEN = "Before or after the lesson?"
WHENS: Mapping[str, str] = {"": "Neither, or both", "before": "Before", "after": "After"}
MORE = "A certain case; before or after a lesson"
NEXT_CASE = "Next case"
FIRST_CASE = "Show me a case"
OTHER_CASES = "Other cases"
FOR_TRAINERS = "For trainers"
PROJECT = "Two that look alike, for the projector"
SEE_CLASS = "See the class"
LESSONS = "Six lessons, cards and a quiz"
LESSONS_SAY = (
    "Each opens as a page of its own: print it from your browser, or show it large and go on with the Enter key."
)
LARGE = "For the projector"
TO_PRINT = "To print"
ITS_CASES = "Its cases to judge"
OTHER_CARDS = "Other cards"
NO_SUCH_PAGE = "There is no such page to print. Go back to the lessons and choose one."

TO_JUDGE = "The mark to judge"
ALSO_THERE = "Also there"
WHERE_IT_IS = "Where it is"
NOT_DRAWN = "Nobody has drawn this mark: go by the words."
NAME_IT = "Name what you see"
GO_ON = "Go on"
WHICH_CHECK = "Which check do you make?"
NO_MORE_CHECKS = "No check is left that would tell anything."
RESULTS = "What your checks told"
NOTHING_TRIED = "Nothing was tried yet."
ENOUGH = "Enough: I judge it now"
ANOTHER_CHECK = "One more check first"
YOUR_VERDICT = "What do you say?"
DONE = "That is my answer"
NOT_ANSWERED = "Still to be answered"
CHOOSE = "Choose one"

BESIDE = "Your answers, and the program's"
QUESTION, YOU, PROGRAM = "Question", "You", "The program"
SAME = "the same"
WHAT_YOU_FOUND = "What you found"
ONLY_SIGHT = "Nothing but what the eye sees."
REASONS = "How the program reasons when all is known"
MISSED = "What was left out"
WAY = "The cheapest way"
SHEET = "The sheet of points"
KEPT_FOR = "Your trainer sees that you did this case, and how it went."
OTHERWISE = "Do you see it otherwise?"
OTHERWISE_SAYS = (
    "Say what it is and why. The answer stays as it is until the rules are mended; what you say is kept "
    "beside the rule that decided."
)
IT_IS, BECAUSE, WHO_SAYS = "It is", "Because", "Who says so"
BECAUSE_HINT = "in a sentence: what the mark shows, or what the part carries"
WRITE_DOWN = "Write it down"
NOT_YET_JUDGED = "This case is not judged yet. Give a verdict first; then you can say what you think of the answer."
PROPOSALS = "As proposals for the rules"

OTHER_RULES = "The rules have changed since this run was begun, so this is another case now. Begin a new one."
CLASS_IS_FULL = "This class has as many runs as are kept for one. Begin another class."
WHO = "Who did which case"
OPEN_CLASS = "Open"


def lesson(number: int, title: str) -> str:
    """A lesson in the list of what cases may be of."""
    return f"{number}. {title}"


def confusion(names: Sequence[str]) -> str:
    """Two things that are taken for each other."""
    return f"{names[0]}, or {uncapital(names[1])}"


def quiz(seed: int) -> str:
    """A quiz to print; the same number gives the same cards."""
    return f"To print, number {seed}"


def case(number: int, kind: str = "") -> str:
    """What a case is called by those who must not know more; ``kind`` is what it was chosen by."""
    return f"Case {number} ({uncapital(kind)})" if kind else f"Case {number}"


def photo(number: int) -> str:
    """A photograph of the mark to judge, for those who cannot see it."""
    return f"Photograph {number} of the mark to judge"


def mark_of(boat: str, day: datetime.date | None, name: str, where: str, side: str | None) -> str:
    """A mark of a visit, in the trainer's list."""
    seen = f", {day.isoformat()}" if day else ""
    return f"{boat}{seen}: {name}, {uncapital(where)}{f', {side}' if side else ''}"


def so_far(minutes: float) -> str:
    """What the checks have cost."""
    return f"{minutes:g} minutes of checks so far."


def from_this(verdict: str) -> str:
    """What the program makes of what the learner had found."""
    return f"From this alone the program says: {verdict}."


def name_is_taken(name: str, code: str) -> str:
    """Somebody of this nickname has begun a case before."""
    where = f"in the class {code.strip().upper()}" if code.strip() else "here"
    return f"Somebody called {name} has begun a case {where} already."


def has_judged(name: str) -> str:
    """Somebody of this nickname has done this very case before."""
    return f"Somebody called {name} has judged this case in this class already."


def go_on_as(name: str) -> str:
    """It is the same person."""
    return f"That is me: go on as {name}"


def call_me(name: str) -> str:
    """It is somebody else."""
    return f"That is somebody else: call me {name}"


def against(by: str, case: str, verdict: str, key: str) -> str:
    """Somebody sees a case otherwise."""
    return f"{by}, {uncapital(case)}: {verdict}, where the program says {key}."


def rule_was(rule: str) -> str:
    """What decided."""
    return f"Decided by the rule {rule}."


def points(points: int, of: int) -> str:
    """What was reached."""
    return f"{points} of {of} points that a program can give"


def right(*, right: bool) -> str:
    """Whether a verdict was right."""
    return "right" if right else "not so"
