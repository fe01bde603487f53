"""What answers say: may she go afloat or on the road, whose hands can mend it, and what a better answer waits for."""

from __future__ import annotations

from triage.conclusions.answers import NOT_YET, Answer
from triage.conclusions.checks import OpenCheck
from triage.knowledge.model import KnowledgeBase
from triage.phrases.words import at_side, capital, listed, plus_waiting, uncapital

MOST_NAMED = 5
"""Checks named in one sentence; of more, their number."""

NOBODY_KNOWS = (
    "Nobody knows yet whether anything is to mend: not before somebody who can tell, such as a repairer, has looked."
)
"""What bars her while no check that is left can clear her, and nothing that was found does."""


def waits(answer: Answer) -> bool:
    """Whether it is "not yet": checks that can be made now have still to say so."""
    return answer.now == NOT_YET


def now(answer: Answer) -> str:
    """What holds today, and what it asks of people."""
    if waits(answer):
        return f"{capital(answer.now)}."
    return f"{capital(answer.now)}. {asks(answer)}".strip()


def asks(answer: Answer) -> str:
    """What an answer asks of people. Where only what nobody could tell bars her, nothing is known to want mending."""
    return NOBODY_KNOWS if only_unknown(answer) else answer.means


def only_unknown(answer: Answer) -> bool:
    """Whether it bars her, and no more is known than that it may: the checks were tried in vain."""
    best, worst = answer.range.roles
    return worst == "barred" != best and answer.now == answer.range.worst


def first(answer: Answer) -> str:
    """The checks that a better answer waits for, how long they take, and what comes of them; empty without any."""
    if not answer.awaits:
        return ""
    places = {(one.check.place, one.check.side) for one in answer.awaits}
    named = dict.fromkeys(_named(one.check, place=len(places) > 1) for one in answer.awaits)
    minutes = sum({(one.check.check, one.check.place): one.check.minutes for one in answer.awaits}.values())
    told = [f"“{name}”" for name in list(named)[:MOST_NAMED]]
    if len(named) > MOST_NAMED:
        told.append(f"{len(named) - MOST_NAMED} more")
    waiting = plus_waiting(*(one.check.wait for one in answer.awaits))
    return f"First {listed(told)}, some {minutes:g} minutes{waiting}. {_comes_of(answer)}"


def _named(check: OpenCheck, *, place: bool) -> str:
    return f"{check.name}: {at_side(check.place, check.side)}" if place else check.name


def _comes_of(answer: Answer) -> str:
    """What each answer to the only check comes to; of several, what holds when all are well."""
    if len(answer.awaits) > 1:
        otherwise = "" if not waits(answer) else " If one comes out badly: no."
        return f"If all of them come out well: {answer.then}.{otherwise}"
    (awaited,) = answer.awaits
    by_outcome: dict[str, list[str]] = {}
    for turn in awaited.turns:
        by_outcome.setdefault(turn.now, []).append(turn.answer)
    return " ".join(f"If {', or '.join(answers)}: {outcome}." for outcome, answers in by_outcome.items())


def outcome_sentence(kb: KnowledgeBase, scale: str, answer: Answer) -> str:
    """May she, in a few sentences: yes, no or not yet, why, and what a better answer waits for."""
    why = f", because {uncapital(answer.because)}" if answer.because else "."
    if waits(answer):
        return f"Not yet{why} {first(answer)}".strip()
    levels = kb.scales[scale].levels
    names = [level.name for level in levels]
    phrase = levels[names.index(answer.now)].phrase
    if answer.now == names[0]:
        return f"Yes: {phrase}."
    more = asks(answer) if only_unknown(answer) else first(answer)
    return f"{'No' if answer.now == names[-1] else 'Yes, but'}: {phrase}{why} {more}".strip()


def hands(answer: Answer) -> str:
    """Who can mend it."""
    range_ = answer.range
    return range_.worst if range_.settled else f"{range_.best} to {range_.worst}"
