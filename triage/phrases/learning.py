"""What a learner and a trainer are told about cases."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from triage.knowledge.model import Check, KnowledgeBase, Scale
from triage.phrases.words import TAKES_OFF, at_side, capital, plus_waiting, uncapital
from triage.survey.model import Boat, Finding, Happened, Reading, Survey
from triage.survey.readings import quoted

NO_STORY = "Nobody has told what happened to her."
NOBODY_KNOWS = "nothing that anybody knows of"
AT_SIGHT = "Looking is enough: no check would change the answer."
NO_WAY = "No check that a visit has room for would settle it."


def boat_in_words(kb: KnowledgeBase, boat: Boat) -> str:
    """What is known of how she is built."""
    told = [f"{kb.facts[fact].asks} {capital(kb.facts[fact].values[value])}." for fact, value in boat.facts.items()]
    told += [
        f"{'A' if value == 'yes' else 'No'} closed space lies behind the {kb.zones[zone].name.lower()}."
        for zone, value in boat.encloses_buoyancy.items()
    ]
    return " ".join([f"{boat.name}.", *told])


def story(kb: KnowledgeBase, events: Sequence[Happened]) -> str:
    """What her owner tells."""
    told = "; ".join(kb.happenings.events[one.event].name for one in events)
    return f"Her owner says: {told}." if told else NO_STORY


def done_there(kb: KnowledgeBase, events: Sequence[Happened], finding: Finding) -> str:
    """Where on her it was, if somebody did something; empty where nobody did."""
    done = any(kb.happenings.events[one.event].kind == "done" for one in events)
    return f"It was done here: {uncapital(at_side(kb.zones[finding.zone].name, finding.side))}." if done else ""


def gone(part: str) -> str:
    """Which part is not there."""
    return f"What is missing: {part}."


def mark_in_words(kb: KnowledgeBase, finding: Finding, looks_like: str = "") -> str:
    """A mark as it looks, without its name; ``looks_like`` where its own picture would say too much."""
    return f"{at_side(kb.zones[finding.zone].name, finding.side)}: {looks_like or kb.signs[finding.sign].picture}"


def told(kb: KnowledgeBase, scale: str, reading: Reading) -> str:
    """What a check tells, in the words of what was observed, to stand after its name."""
    return f"{capital(_found(kb, scale, reading))}."


def told_by(kb: KnowledgeBase, check: Check, readings: Mapping[str, Reading]) -> str:
    """What the hand, the coin, the foil or the sponge of a check tells, to be read aloud."""
    return f"{check.name}: {'; '.join(_found(kb, scale, reading) for scale, reading in readings.items())}."


def _found(kb: KnowledgeBase, scale: str, reading: Reading) -> str:
    return quoted(kb.scales[scale], reading) or "you could not tell"


def check_in_words(check: Check, scales: Sequence[Scale], place: str = "") -> str:
    """A check that may be made, with what it costs; ``place`` where it is not that of the mark to judge."""
    there = f" at {uncapital(place)}" if place else ""
    return f"{check.name}{there}: {reads(scales)} ({costs(check)})"


def reads(scales: Sequence[Scale]) -> str:
    """What a check tells something about."""
    return ", ".join(uncapital(scale.name) for scale in scales)


def costs(check: Check) -> str:
    """What a check costs: its minutes, what goes by in waiting, and what has to come off."""
    return f"{check.minutes:g} minutes{plus_waiting(check.wait)}{TAKES_OFF[check.dismantling]}"


def way_in_words(checks: Sequence[tuple[Check, str]] | None) -> str:
    """The cheapest way to the answer; each check with the place, where it is made at another mark."""
    if checks is None:
        return NO_WAY
    if not checks:
        return AT_SIGHT
    minutes = sum(check.minutes for check, _ in checks)
    waits = "".join(f" and {check.wait.say}" for check, _ in checks if check.wait)
    named = [check.name + (f" at {uncapital(place)}" if place else "") for check, place in checks]
    return f"{', then '.join(named)}: {minutes:g} minutes{waits}."


def case_in_words(
    kb: KnowledgeBase, survey: Survey, focus: str, name: str, difficulty: str, at_sight: str = ""
) -> list[str]:
    """A case as a learner meets it, in lines; ``at_sight`` is what the mark to judge looks like."""
    told = [f"Case {name}" + (f", {difficulty}" if difficulty else ""), boat_in_words(kb, survey.boat)]
    told.append(story(kb, survey.events))
    if survey.note:
        told.append(survey.note)
    for finding in survey.findings:
        first = "The mark to judge. " if finding.id == focus else "Also there. "
        told.append(first + mark_in_words(kb, finding, at_sight if finding.id == focus else ""))
        if finding.note:
            told.append(finding.note)
        if finding.photos:
            told.append(f"Photographs: {', '.join(finding.photos)}")
    return told


KINDS: Mapping[str, str] = {
    "places": "places",
    "marks": "marks",
    "pairs": "pairs that are taken for each other",
    "confusions": "confusions that are taught",
    "turns": "readings at which a verdict turns",
}


def covered(kb: KnowledgeBase, kind: str, of: int, missing: Sequence[str], most: int = 8) -> str:
    """How much of a kind some cases are about, and what they leave out."""
    said = f"{capital(KINDS[kind])}: {of - len(missing)} of {of}"
    if not missing:
        return f"{said}."
    named = [NAMED[kind](kb, one) for one in missing[:most]]
    more = [f"{len(missing) - most} more"] if len(missing) > most else []
    return f"{said}. None is about {'; '.join([*named, *more])}."


def _pair(kb: KnowledgeBase, pair: str) -> str:
    return " or ".join(uncapital(kb.signs[sign].name) for sign in pair.split("/"))


def _turn(kb: KnowledgeBase, turn: str) -> str:
    scale, _, verdict = turn.partition("→")
    return f"{uncapital(kb.scales[scale].name)} (to {verdict})"


NAMED: Mapping[str, Callable[[KnowledgeBase, str], str]] = {
    "places": lambda kb, zone: uncapital(kb.zones[zone].name),
    "marks": lambda kb, sign: uncapital(kb.signs[sign].name),
    "pairs": _pair,
    "confusions": lambda kb, id_: " or ".join(uncapital(one.name) for one in kb.teaching.confusions[id_].pair),
    "turns": _turn,
}
"""How what cases are about is called."""


ASKED: Mapping[str, str] = {
    "mark": "What is this mark called?",
    "trade": "What does the trade call the place?",
    "load": "What does the place carry, above all?",
    "check": "Which check do you make?",
    "verdict": "What is your verdict on the mark?",
    "confidence": "How sure are you that this verdict is right, in percent?",
    "afloat": "As far as this mark goes, may she go afloat today?",
    "tow": "As far as this mark goes, may she be towed?",
    "cause": "What made it?",
    "next": "Which check comes next, if there is time for one more?",
    "elsewhere": "Where else on her would you look because of this mark?",
    "hands": "Whose hands can mend it?",
}
ENOUGH = "enough: I judge it now"
NONE_NEEDED = "none: it is settled"
NOT_CLEARED = "not cleared: it may still be one or the other"
NOT_BEFORE = "not before another check has come out well"
NOTHING_MADE_IT = "nothing in particular that anybody could know of"
NOWHERE_ELSE = "nowhere else because of this"


def minutes_so_far(minutes: float, check: Check) -> str:
    """What the checks have cost so far."""
    waited = f" {capital(check.wait.say)} went by." if check.wait else ""
    return f"{minutes:g} minutes so far.{waited}"


def sheet_line(name: str, points: int, of: int, trainer: int) -> str:
    """One line of the sheet; ``trainer``: what the trainer can still give."""
    if trainer and not of:
        return f"{name}: __ of {trainer}, for the trainer who sees it done"
    more = f"; __ of {trainer} more for the reason, from the trainer" if trainer else ""
    return f"{name}: {points} of {of}{more}" if of else f"{name}: {points}"


def fault(name: str, because: str) -> str:
    """What took points away."""
    return f"{name}: {uncapital(because)}"


def right_or_not(said: str, key: str, *, right: bool, sure: int) -> str:
    """The learner's verdict beside the key."""
    if right and said != key:
        return f"You said: {said}, {sure}% sure. From what you had found that is right; with all checked it is {key}."
    return f"You said: {said}, {sure}% sure. It is {key}: {'right' if right else 'not so'}."


BESIDE: Mapping[str, str] = {
    "mark": "What it is called",
    "trade": "What the trade calls the place",
    "load": "What the place carries",
    "verdict": "Verdict",
    "afloat": "Afloat",
    "tow": "On the road",
    "hands": "Mended by",
    "cause": "What made it",
    "next": "Next check",
    "elsewhere": "Look also at",
}
"""The answers that are put beside the program's."""


def beside(what: str, said: str, key: str) -> str:
    """Another of the learner's answers beside the key."""
    return f"{what}: you said {said}; {'so does the program' if said == key else f'the program says {key}'}."


def missed(checks: Sequence[str], places: Sequence[str], minutes: float, least: float) -> list[str]:
    """What a learner left out, and what it cost."""
    said = []
    if checks:
        said.append(f"Not made: {', '.join(checks)}.")
    if places:
        said.append(f"Not looked at because of it: {', '.join(places)}.")
    if not said:
        said.append("Nothing that settles it was left out.")
    said.append(f"Your checks took {minutes:g} minutes; the cheapest way takes {least:g}.")
    return said
