"""What a class's page and its trainer's own page say."""

from __future__ import annotations

from triage.phrases.words import counted

PROPOSALS_SAY = (
    "The file says of each what to add to the rules, and triage rules check then holds the rules against it."
)
NOTHING_AGAINST = "Nobody has said anything against an answer."
ANSWERS_HERE = "Answers stand here: do not show this page to the class."
TRAINERS_PAGE = "For you alone: your own cases, answers to talk about"
YOUR_CASES = "Cases of your own"
YOUR_CASES_SAY = (
    "Choose a mark of a boat that is kept here. Learners see its photographs and find what you found, "
    "each with its check. What was written beside it is left out."
)
WHICH_MARK = "Which mark is to be judged?"
TELL_THEM, TELL_THEM_HINT = "What they are told", "may stay empty; do not tell the answer"
MAKE_CASE = "Make a case of it"
NO_MARKS = "No boat with a mark is kept here yet. Tell of one first, with photographs, and come back."
AS_A_LEARNER = "See them as a learner does"
TALK, TALK_SAY = "Answers to talk about", "Each opens one run with its answer."
WHO_SAID_WHAT = "Who said what"
POINTS_AND_MINUTES = "Points and minutes, learner by learner"
NONE_DONE = "Nobody has finished a case yet."
HOW_EACH = "How each did"
AGAINST = "Said against the answers"
COVERED = "What these cases are about"
WHAT_IS_LEFT = "Tell what the cases were about, and what none of them was"
BACK_TO_CLASS = "Back to the class"
NO_RUNS = "Nobody has begun a case in this class yet. Give your learners the address and the code."
LET_IN = "Let your learners in"
LET_IN_SAYS = (
    "Have them scan this with their telephones, on the same network. It opens cases to practise on, in this class, and "
    "neither boats nor answers."
)
NO_ANSWERS = "No answers stand here, and not who was right, so it may be shown to all."
FIGURES = "What the class made of them"
HOW_SURE = "With agreement, calibration, and how sure all this is"
NOT_SETTLED = "not settled yet"
NOT_DONE, DONE_WITH = "not finished", "finished"
RELOAD = "Look again"
ANOTHER_CLASS = "Another class"
CLASS_FILE = "The results as a file"
TAKE_OUT = "Take this class out"
TAKE_OUT_SAYS = (
    "All its runs and nicknames, your cases for it and what was said against answers are then gone for good."
)
SURE_TO = "Yes, take out all of it"
INSTALL = (
    "Agreement, calibration and how sure these figures are need the statistics, on the machine that serves: "
    "pip install 'dinghy-triage[teaching]'."
)


def key_is(verdict: str) -> str:
    """What the program makes of a trainer's own case."""
    return f"The program says: {verdict}."


def take_case_out(number: int) -> str:
    """A case of one's own is no longer wanted."""
    return f"Take case {number} out"


def see_case(case: str, name: str) -> str:
    """A finished run, by which to talk about its case."""
    return f"{case}, as {name} judged it"


def wrong_of(wrong: int, of: int) -> str:
    """How many said otherwise than the key."""
    return f"{wrong} of {counted(of, 'verdict')} not so." if wrong else f"All right, {counted(of, 'verdict')}."


def it_is(verdict: str) -> str:
    """The key, at the head of what was said."""
    return f"it is {verdict}"


def verdict_said(said: str, confidence: int, *, right: bool) -> str:
    """What one learner said of one case."""
    return f"{said or NOT_SETTLED}, {confidence}%" + ("" if right else ": not so")


def still_at_it(learners: int) -> str:
    """Why to wait with an answer."""
    return f"{counted(learners, 'learner')} not finished with it."


def said_of(said: str, key: str, confidence: int) -> str:
    """What a learner said in a finished run, beside what the program says."""
    return f"said {said or NOT_SETTLED}, {confidence}% sure; it is {key}"


def run_line(points: int, of: int, minutes: float, least: float) -> str:
    """What came of a finished run besides."""
    checks = f"{minutes:g} minutes of checks, where {least:g} settle it" if least else f"{minutes:g} minutes of checks"
    return f"{points} of {of} points; {checks}"


def class_title(code: str) -> str:
    """A class."""
    return f"Class {code}"


def class_is(learners: int, finished: int, begun: int) -> str:
    """How many are in it, and how far they are."""
    return f"{counted(learners, 'learner')}. {finished} of {counted(begun, 'case')} finished."


def so_far(finished: int, begun: int) -> str:
    """Why the figures are not the last word yet."""
    return f"So far: {begun - finished} of {counted(begun, 'case')} not finished, and in no figure."
