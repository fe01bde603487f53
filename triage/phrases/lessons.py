"""What stands on lessons and cards beside the knowledge itself: headings, blanks to fill in, and what holds for all."""

from __future__ import annotations

from collections.abc import Iterator

from triage.conclusions.values import Range
from triage.knowledge.model import Check
from triage.knowledge.model.teaching import Lesson, LessonStep, SheetFault
from triage.phrases.words import between, capital, plus_waiting

KINDS = {"learner": "Handout", "trainer": "Trainer’s notes", "answers": "Answer sheet"}
AIM, BRING, STEPS, CASES, QUESTIONS = "Afterwards", "Bring", "What we do", "Marks to judge", "Questions"
LOOKS_FOR, CAUTIONS, SCORES, ALL_LESSONS = "Look for", "Mind", "What counts", "In every lesson"
SHEET = "One finding, twenty points"
ITEM, FULL, PART, POINTS = "What", "All points for", "Some for", "Points"
FAULTS, STOPS = "What takes points away", "stop, and no points"
NAME_AND_DAY = "Nickname and day"
CARDS, QUIZ = "Taken for each other", "Five spare minutes"
CARDS_SAY = "Two things that look alike, and the test that tells them apart."
QUIZ_SAYS = "Cut along the solid lines and fold along the dotted one, so that the answer is inside."
QUIZ_ASKS = "What is it? What may it come to? What would you try next?"
THE_TEST, IF_SO, BECAUSE = "The test", "It is this one if", "Because"
AT_SIGHT, NEXT_CHECK, THEN, IT_IS = "At sight", "Try next", "Then", "It is"
BLANKS = ("What it is", "What it carries", "Try next, and why", "Because", "Look elsewhere at")
VERDICT, SURE = "Verdict", "Sure, in percent"
CHOICES = "○ cosmetic   ◇ monitor   ■ structural   ? not yet"
BASIS, ALL, CASE = "Basis", "All of it", "Mark"
OTHERS_ON_SCREENS = "Cases on telephones are whole boats with answers of their own, and not these marks."
NOTHING_LEFT = "Nothing is left to try."
DRAWN = "What was found there"
NAMED = ("A", "B")
ONE_SCALE, OWN_SCALES = "Both to one scale.", "Each to a scale of its own: see the bars."
NEXT, BACK, SHOW = "Next", "Back", "Answer"
DRAWN_FROM = "Verdicts are those of the rules for such a mark alone on a common boat."
DEFERS = "For teaching. It is no inspection of a boat; local rules and people who are licensed for it come first."


def kicker(lesson: Lesson) -> str:
    """What stands over the title of a lesson."""
    return f"Lesson {lesson.number}, {lesson.minutes} minutes"


def row(lesson: Lesson) -> str:
    """A lesson in a list."""
    return f"{lesson.title} ({lesson.minutes} min): {lesson.aim}"


def clock(lesson: Lesson) -> Iterator[tuple[str, LessonStep]]:
    """The steps with the minutes from the beginning at which each begins and ends."""
    begun = 0
    for step in lesson.steps:
        yield f"{begun}–{begun + step.minutes}", step
        begun += step.minutes


def in_the_trade(words: str) -> str:
    """What a repairer calls the place of a card."""
    return f"In the trade: {words}."


def comes_to(verdict: Range) -> str:
    """What something may come to, as a sentence."""
    return f"{capital(between(verdict))}."


def takes(check: Check) -> str:
    """A check with its minutes."""
    return f"{check.name}, {check.minutes:g} min{plus_waiting(check.wait)}"


def fault(one: SheetFault) -> str:
    """What a fault costs."""
    if one.most is not None:
        return f"at most {one.most} in all"
    return STOPS if one.stops else f"−{one.points}"


def screen(number: int, many: int) -> str:
    """Where in a row of screens one is."""
    return f"{number} of {many}"


def no_such(number: int, many: int) -> str:
    """Somebody asks for a lesson that there is not."""
    if not many:
        return "These rules hold no lessons. Add some under lessons: in rules/teaching."
    return f"There is no lesson {number}: they go from 1 to {many}. See triage teach lessons."


def drawn_as(seed: int) -> str:
    """Under which number the same cards can be had again."""
    return f"Set {seed}"


def minutes(when: str) -> str:
    """When a step is, as its title."""
    return f"Minutes {when}"
