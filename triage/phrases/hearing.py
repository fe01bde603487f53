"""What was understood from a story, said back before anything is kept: each thing with the person's own words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from triage.knowledge.model import KnowledgeBase
from triage.listening import statements as heard
from triage.phrases.words import at_side, capital, uncapital
from triage.survey.readings import quoted as in_its_words
from triage.survey.readings import reading_of

NOTHING_KEPT = "This is what I understood. Nothing of it is kept yet."
NOTHING_HEARD = "I understood nothing of this. Tell me what you see, and where; your own words will do."
FOUND = "What you found"
WELL = "What you say is well"
NOT_THERE = "What you say is not there (a note, and no more)"
UNSEEN = "What was not looked at (a note, and no more)"
BESIDE = "About the boat, and what happened"
QUESTIONS = "What you want to know"
NOT_UNDERSTOOD = "What I did not understand; it would be kept as a note"
ABOUT_THE_SALE = "About the sale"
MONEY_NOTED = "noted for you, and in no report that a seller may see"
NOTED = {
    heard.Passed: "Said to be well, and passed by no test",
    heard.Denied: "Said not to be there",
    heard.NotLooked: "Not looked at",
}
"""What is kept in words and judges nothing."""

ASKED_NEXT = "What would be asked"
WHICH_IS_IT = "Which of these is it?"
MOST_QUOTED = 80
"""Letters of somebody's words in a question."""

NONE_OF_THESE = "none of these"
ANOTHER_PLACE = "it is another place"
LOAD = "main loads go through it, so this is asked for by itself and never kept with the rest"

SIDES = {"port": "port", "starboard": "starboard", "both": "both sides", "": None}
SENSES = {"seen": "seen", "felt": "felt", "heard": "heard", "measured": "measured", "told": "by hearsay"}
MEASURES = {
    "movement": "a movement",
    "gap": "a gap",
    "depth": "a depth",
    "width": "a width",
    "length": "a length",
    "patch": "how far it reaches",
    "dull": "how far it sounds dull",
    "bend": "a bend",
    "volume": "how much water",
    "rate": "how fast it comes in",
    "angle": "an angle",
    "share": "a part of the whole",
    "weight": "a weight",
}
ABOUT = {
    "afloat": "may she sail?",
    "tow": "may she be towed?",
    "verdict": "how bad is it?",
    "cost": "what does it cost?",
    "decision": "should I buy her?",
    "cause": "what made it?",
    "mend": "how is it mended?",
    "hands": "who can mend it?",
    "look": "where should I look?",
}
UNANSWERED = (
    "This I cannot answer, or did not understand. I know damage and what to do about it; whoever had her before, her "
    "builder, your club or your insurer may know more."
)
AGO = {"today": "today or just before", "this season": "this season", "earlier": "earlier"}


def quoted(text: str, statement: heard.Statement) -> str:
    """The person's own words."""
    return f"“{' '.join(text[statement.start : statement.end].split())}”"


def mark_found(kb: KnowledgeBase, found: heard.Found, words: str) -> str:
    """A mark that is proposed by itself."""
    place = at_side(kb.zones[found.zone].name, SIDES[found.side])
    return f"{place}: {uncapital(kb.signs[found.sign].name)}, {SENSES[found.sense]}. {words}"


def mark_asked(words: str) -> str:
    """A mark of which it is asked what and where it is."""
    return f"Which of these is it? {words}"


def choice(kb: KnowledgeBase, zone: str, sign: str) -> str:
    """A mark that may be meant, in words and picture."""
    return f"{kb.zones[zone].name}: {uncapital(kb.signs[sign].name)}. {kb.signs[sign].picture}"


def size(kb: KnowledgeBase, measured: heard.Measured, words: str) -> str:
    """A figure and what it was taken as."""
    what = MEASURES.get(measured.measure, "")
    quantity = f"about {measured.quantity}" if measured.estimated else measured.answer
    said = f"{quantity}{f', {what}' if what else ''}"
    if measured.scale:
        return f"{capital(kb.scales[measured.scale].name)}: {quantity}. {words}".strip()
    return f"{said}: kept in the note, and judges nothing. {words}".strip()


def told(kb: KnowledgeBase, scale: str, said: str) -> str:
    """What else was told of a mark, on its card."""
    return f"{capital(in_its_words(kb.scales[scale], reading_of(kb.scales[scale], said)))}."


def ask_size(measured: heard.Measured) -> str:
    """What is asked of a figure that could be bound to nothing."""
    what = MEASURES.get(measured.measure, "")
    known = f" It sounds like {what}." if what else ""
    return f"{capital(measured.quantity)}: what does that measure?{known}"


def passed(kb: KnowledgeBase, one: heard.Passed, words: str) -> str:
    """A part that is said to be well."""
    place = at_side(kb.zones[one.zone].name, SIDES[one.side]) if one.zone else "There"
    reading = uncapital(kb.scales[one.scale].name) if one.scale else "no test named, so it passes nothing yet"
    return f"{place}: {reading}. {words}"


def ask_pass(kb: KnowledgeBase, one: heard.Passed) -> str:
    """How it is asked whether a part was passed, with the test that passes it."""
    if not one.zone:
        return "Which part is that said of?"
    place = kb.zones[one.zone]
    checks = kb.checks_for(one.scale, one.zone) if one.scale else ()
    test = f"was it this test: {uncapital(checks[0].name)}?" if checks else f"how was it tried? {place.how_passed}"
    load = f" ({LOAD})" if place.criticality == "primary" else ""
    return f"{place.name}: {test}{load}"


def denied(kb: KnowledgeBase, one: heard.Denied, words: str) -> str:
    """A mark that is said not to be there."""
    return f"{kb.signs[one.sign].name}. {words}"


def unseen(kb: KnowledgeBase, one: heard.NotLooked, words: str) -> str:
    """What nobody looked at."""
    return f"{kb.zones[one.zone].name}. {words}" if one.zone else words


def fact(kb: KnowledgeBase, one: heard.BoatFact, words: str) -> str:
    """A fact of the boat."""
    return f"{kb.facts[one.fact].asks} {capital(kb.facts[one.fact].values[one.value])}. {words}"


def sale(kb: KnowledgeBase, signs: Mapping[str, str], sentence: str) -> str:
    """What a sentence tells of the sale; one that tells no sign of it names money."""
    told = "; ".join(kb.purchase.sale[sign].say for sign, said in signs.items() if said == sentence)
    return f"{ABOUT_THE_SALE}: {told or MONEY_NOTED}. “{sentence}”"


def noted_beside(notes: Sequence[str]) -> str:
    """What was told beside a question and is no mark that is known."""
    return f"Kept as a note, and no mark was understood in it: {' '.join(f'“{one}”' for one in notes)}"


def event(kb: KnowledgeBase, one: heard.Told, words: str) -> str:
    """What happened or was done."""
    more = [said for said in (one.force, AGO.get(one.ago, "")) if said]
    details = f" ({', '.join(more)})" if more else ""
    return f"{kb.happenings.events[one.event].sentence}{details}. {words}"


def noted(kb: KnowledgeBase, one: heard.Statement, words: str) -> str:
    """What is told of a part without a mark, as a note; empty for all else that is told."""
    if not isinstance(one, heard.Passed | heard.Denied | heard.NotLooked):
        return ""
    place = f", {uncapital(kb.zones[one.zone].name)}" if one.zone else ""
    return f"{NOTED[type(one)]}{place}: {words}."


def time(one: heard.Time, words: str) -> str:
    """When something was."""
    return f"When: {AGO.get(one.ago, one.ago)}. {words}"


def question(one: heard.Asked, words: str) -> str:
    """A question; to one that is not understood belongs the line that says who may know."""
    return f"{capital(ABOUT[one.about])} {words}" if one.about else f"{words} {UNANSWERED}"


def unheard(kb: KnowledgeBase, one: heard.Unheard, words: str) -> str:
    """Words of which nothing was made."""
    return f"{words} What do you see there, at: {uncapital(kb.zones[one.zone].name)}?" if one.zone else words


def said_well(kb: KnowledgeBase, one: heard.Passed, words: str) -> str:
    """A part that is said to be well, on the screen of a story."""
    return f"{WELL}: {passed(kb, one, words)}"


def unsure_of(said: str) -> str:
    """Words that are an answer, and nobody can be sure which."""
    return f"I would rather ask than guess what “{said}” means."


def nearest(answers: Sequence[str]) -> str:
    """The answers that the words are likest."""
    quoted = [f"“{one}”" for one in answers]
    return f"Nearest to it: {' or '.join(quoted)}."
