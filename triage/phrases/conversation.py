"""What a conversation says."""

from __future__ import annotations

from collections.abc import Sequence

from triage.knowledge.model import KnowledgeBase, Scale
from triage.phrases.words import FORCE, at_side, uncapital
from triage.survey.merge import Clash
from triage.survey.model import COULD_NOT_TELL, Happened, Survey

WHAT_DO_YOU_SEE = "What do you see, and where? Your own words will do."


SAME_AS_BEFORE = "Noted: it is as it was, so what was answered then stands. A length was not measured anew."
ATTEMPTED = "Noted: could not tell. It is not asked again."
CLEARED = "Noted: that answer is taken out, and may be asked for again."
CLEAR = "take the answer out"
I_COULD_NOT_TELL = COULD_NOT_TELL
NO_MOVE = "That alone does not move it."
NOTHING_USUAL = "What is usual no longer says which way it goes."
WHAT_NEXT = "Describe another mark, ask whether she may sail, or choose."
THE_REPORT = "the report"
SOMETHING_ELSE = "answer something else about this mark, or change an answer"
LEAVE = "leave"
WHICH_ANSWER = "Which one?"
TAKE_MARK_OUT = "take this mark out of the survey"
WHICH_MARK = "Which mark?"
SOMETHING_NEW = "another one, that is not in the survey yet"
TAKEN_BACK = "The last step is taken back."
NOTHING_TO_TAKE_BACK = "There is nothing to take back."
CANNOT_TAKE_BACK = "The last step cannot be taken back, because the survey was changed elsewhere since."
NOTHING_TO_SKIP = "There is no question here that could be skipped."
NO_REASON = "Nothing is asked here that needs a reason."
NO_METHOD = "There is nothing to find out here."
NO_MARK = "No mark is being talked about."
WHICH_TO_TAKE_OUT = "No mark is being talked about. Go on with the one that is meant, and say “delete” again."
NOT_ASKED_THERE = "That is not asked about this mark."
NO_MARK_IN_THAT = "I hear no mark in that. It is kept as a note, and judges nothing."
TELL_FIRST = "No mark is in the survey yet: tell me first what you see, and where, and answer what is asked of it."
NOTHING_TO_REPORT = "No mark is in the survey yet, so there is nothing to report."
NO_CHOICES = "There is nothing to choose from here. Say it in words."
ONE_OF_THESE = "Please choose one of these."
SEE_IT_DRAWN = "To see each mark and check drawn, answer on a screen: triage serve."
FIND_OUT = "Find out"
PASSED = "Looked at, tried, and nothing found: this part is passed."
NOT_TRIED = "Looked at, nothing found. That counts neither for her nor against her until it is tried."
STILL_NO_MARK = "no mark"
NOTHING_MORE = "Nothing more to ask."
CANNOT_SETTLE = "No question that is left can settle it."
NO_SUCH_MARK = "that mark is not in the survey any more"
SENDS_TO = "It also sends you to look at:"


def no_such_choice(number: int, count: int) -> str:
    """There are not so many choices."""
    return f"There is no choice {number}; there are {count}."


def of_what(said: str) -> str:
    """A number without a unit is neither a measurement nor a choice."""
    return f"{said} of what? Say the unit too, or choose one."


def measure_it(unit: str, examples: Sequence[str]) -> str:
    """How else to answer than by a choice; empty where there is no other way."""
    ways = [f"measure it, in {unit} or another unit"] if unit else []
    ways += [f"say it as in “{example}”" for example in examples]
    return f"Or {', or '.join(ways)}." if ways else ""


def said_instead(scale: Scale) -> str:
    """How else than by a choice the scale can be told, where it is not a plain quantity alone."""
    unit = scale.measure.unit if scale.measure else ""
    return measure_it(unit, scale.ways.examples) if scale.ways.examples else ""


def not_between(scale: str) -> str:
    return f"“{scale}” can be between two of its answers only."


def not_understood(said: str) -> str:
    """Words that answer nothing that is asked."""
    return f"I do not know what “{said}” means here."


def verdict_told(headline: str) -> str:
    """How bad it is, all in all."""
    return f"{headline}. The report tells the rest: say “finish”."


def noted(phrase: str) -> str:
    return f"Noted: {phrase}."


def noted_event(kb: KnowledgeBase, told: Happened) -> str:
    """What was heard of an event, and what it leaves to be thought of."""
    event = kb.happenings.events[told.event]
    about = ", ".join(word for word in (FORCE.get(told.force, ""), told.when) if word)
    return f"Noted: {event.name}{f' ({about})' if about else ''}. {event.note}".strip()


def taken_out(place_and_mark: str) -> str:
    return f"{place_and_mark} is taken out. Taking this step back puts it in again."


TAKEN_SO = "This is what I took from it. Anything that is not right can be put right in words, or taken back."
SAY_ANEW = "Then it is asked anew."
WHAT_WAS_WRONG = "What was wrong? Choose it, and it is asked anew."
ANOTHER_MARK = "That is another mark, so it is shown first; the one before stays, and is asked about again after it."
SAME_PART = "It stays where it is: there is only one of that part, in the middle."


def given(name: str, phrase: str, words: str) -> str:
    """One of several answers that were heard in a sentence, with the words that it rests on."""
    return f"{name}: {phrase} (“{words}”)"


def moved_over(place_and_mark: str) -> str:
    """The mark is on another side than was noted."""
    return f"The mark is now: {place_and_mark}"


def also_of(place_and_mark: str) -> str:
    """That an answer was said of two marks at once."""
    return f"The same is noted for {uncapital(place_and_mark)}."


def on_both(place_and_mark: str) -> str:
    """The mark is on the other side too."""
    return f"On both sides, so there is one more mark: {place_and_mark}"


def there_already(place_and_mark: str) -> str:
    """The mark cannot be moved to where the same one was found."""
    return f"That mark is in the survey already, as one of its own: {place_and_mark}"


def asked_by_itself(name: str) -> str:
    """Something that passes a part is not taken in passing."""
    return f"{name}: this part carries main loads, so it is asked by itself, with its test."


def not_taken(words: str) -> str:
    """Words beside an answer of which nothing was made."""
    return f"I made nothing of “{words}”, so it is not kept."


def kept_as_note(words: str) -> str:
    """Words beside an answer of which nothing was made stay with the mark."""
    return f"“{words}” is kept as a note, and judges nothing."


def next_open(place_and_mark: str) -> str:
    return f"go on with one that is not settled: {place_and_mark}"


def answered(name: str, said: str) -> str:
    return f"{name} (answered: {said})" if said else name


def change(now: str, before: str) -> str:
    return f"Now {now}; before, {before}."


def typical(verdict: str, *, most: bool) -> str:
    """What marks like this usually turn out to be."""
    often = "Most marks like this turn out" if most else "Marks like this turn out, more often than not,"
    return f"{often} as “{verdict}”. That is our estimate of what is usual; it clears nothing."


def settled(verdict: str, because: str) -> str:
    return f"{verdict.capitalize()}. {because}"


def still_open(best: str, worst: str, because: str, meanwhile: str) -> str:
    """Between two verdicts, why it may be the worse one, and what holds until it can be told."""
    return f"{verdict_so_far(best, worst)} At worst: {because} {meanwhile}".strip()


NOT_BEFORE = "Do not sail before that is known."
"""Of a mark that may keep her ashore, and may not."""


def until_known(phrase: str) -> str:
    """What holds while a mark is open."""
    return f"Until it can be told, {phrase}."


def named_check(how_passed: str) -> str:
    return f"It is one of the checks that must not be left out at this place: {how_passed}"


def could_be(because: str) -> str:
    return f"What it could be, at worst: {because}"


def if_so(answer: str, then: str) -> str:
    return f"If {answer}: {then}."


def decided_by(check: str) -> str:
    return f"What decides it is the check “{check}”, which could not be answered yet."


def verdict_so_far(best: str, worst: str) -> str:
    return f"{best.capitalize()}." if best == worst else f"Can't tell yet: between {best} and {worst}."


def look_there(place: str, sides: tuple[str, ...], mark: str, because: str) -> str:
    """Where else a mark sends people, for what, and why."""
    side = "both sides" if len(sides) > 1 else sides[0]
    return f"{at_side(place, side or None)}: {uncapital(mark)}? {because}"


def look_for(place: str, side: str | None, mark: str) -> str:
    """Going on at a place where something is suspected."""
    return f"look at {uncapital(at_side(place, side))}: “{uncapital(mark)}” is suspected there"


def before_she_sails(places: tuple[str, ...]) -> str:
    """What happened demands a look there."""
    return f"Before she sails, somebody has to look here: {'; '.join(map(uncapital, places))}."


def clash_sentence(kb: KnowledgeBase, survey: Survey, clash: Clash) -> str:
    """What two conversations about one boat said differently, and which of them stands."""
    finding = next((one for one in survey.findings if one.id == clash.mark), None)
    where = f"{at_side(kb.zones[finding.zone].name, finding.side)}: " if finding else ""
    if not clash.ask:
        return f"{where}this mark was taken out in one conversation and answered in the other. It stays."
    event = kb.happenings.events.get(clash.ask)
    name = kb.scales[clash.ask].name if clash.ask in kb.scales else event.name if event else clash.ask
    if not clash.other:
        return f"{where}“{name}” was taken out in one conversation and is “{clash.kept}” in the other, which stands."
    return f"{where}“{name}” is “{clash.other}” in another conversation; “{clash.kept}”, which is newer, stands."
