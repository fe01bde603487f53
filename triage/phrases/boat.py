"""What is said of the whole boat: the headline, what keeps her ashore, causes, stories and what to look at next."""

from __future__ import annotations

from triage.conclusions.assessment import Assessment, EventTold, NotLookedAt, Suspicion
from triage.conclusions.diagnosis import CauseHypothesis, PlanLine, Reason, StillAtWork, Story, StoryPart, Support
from triage.phrases.findings import title
from triage.phrases.words import FORCE, at_side, between, capital, counted, listed, mark_at, uncapital

DEFERS = (
    "This says what was found and what follows from it. It is a guide and not a survey: what was not looked at is not "
    "known, and where life hangs on a part a repairer or rigger has the last word. Local rules come first."
)

NO_MARK = "No mark was found"
ON_THE_ROAD = " for the road, not for sailing"


def headline(assessment: Assessment) -> str:
    """The verdict on the boat in a few words."""
    if not assessment.findings:
        waiting = len(assessment.suspicions)
        return "Nothing was looked at" + (f"; {waiting} to look at because of what happened" if waiting else "")
    if all(one.passed or one.looked_at_only for one in assessment.findings) and not assessment.suspicions:
        untried = sum(one.looked_at_only for one in assessment.findings)
        return NO_MARK + (f"; {counted(untried, 'part')} looked at and not tried" if untried else "")
    open_ = sum(not one.verdict.settled for one in assessment.findings)
    suspected = len(assessment.suspicions)
    verdict = assessment.verdict
    told = f"{capital(verdict.best)}{ON_THE_ROAD if only_the_road(assessment) else ''}"
    parts = [told if verdict.settled else f"Not cleared: {between(verdict)}"]
    parts += [f"{open_} not cleared yet"] if open_ and verdict.settled else []
    parts += [f"{suspected} more suspected"] if suspected else []
    return "; ".join(parts)


def only_the_road(assessment: Assessment) -> bool:
    """Whether what is weak bars the road alone and leaves her sailing as she is."""
    sails, towed = assessment.afloat.range, assessment.tow.range
    return sails.settled and sails.roles[1] == "fit" and towed.settled and towed.roles[1] == "barred"


def support(one: Support, assessment: Assessment) -> str:
    """Something that speaks for a cause."""
    if one.kind == "said":
        return "Somebody who knows the boat says so."
    if one.kind == "told":
        return f"It was told: {one.event}."
    return f"{title(assessment.finding(one.finding))}. {how_often(one.how_often)}"


def objection(one: Support) -> str:
    """Something that speaks against a cause."""
    match one.kind:
        case "said":
            return "Somebody who knows the boat says that it has not happened."
        case "absent":
            return f"{one.place}: no “{one.mark}” was found. {how_often(one.how_often)}"
        case "older":
            return f"{one.place}: “{one.mark}” was there before that."
        case _:
            return f"All that speaks for it can come from a likelier cause as well: {one.cause}."


def how_often(word: str) -> str:
    """How often a cause leaves a mark."""
    return f"This cause {word} leaves it."


def as_likely(cause: CauseHypothesis | Story) -> str:
    """A cause with how likely it is, and those that are as likely."""
    others = cause.alike if isinstance(cause, CauseHypothesis) else cause.or_else
    return f"{cause.likelihood}; as likely: {', '.join(others)}" if others else cause.likelihood


def story_part(part: StoryPart, assessment: Assessment) -> str:
    """One finding of a story."""
    mark = title(assessment.finding(part.finding))
    if part.follows_from:
        return f"{mark}. It follows from {title(assessment.finding(part.follows_from))}. {part.because}"
    return f"{mark}. {how_often(part.how_often)}"


def still_at_work(one: StillAtWork, assessment: Assessment) -> str:
    """Whether a cause goes on, and what ends it."""
    if one.shown_by:
        shown = "; ".join(title(assessment.finding(id_)) for id_ in one.shown_by)
        return f"Still at work: {shown}. {one.cure}"
    return f"Is it still at work? {one.tell} {one.cure}"


def path(reason: Reason, assessment: Assessment) -> tuple[str, ...]:
    """The way from something known to a check, step by step."""
    start = (title(assessment.finding(reason.finding)),) if reason.finding else ()
    return (*start, *(step.strip(".") for step in reason.path))


def plan_line(line: PlanLine) -> str:
    """A check elsewhere, with how likely it is to find something and what it may come to."""
    told = f"{at_side(line.place, line.side)}: {line.name} ({line.likelihood}; at worst {line.at_worst.worst})"
    if line.after_mending:
        return f"{told}. Not before it is mended: the part is weak and must not be loaded"
    return f"{told}. Tried, and nobody could tell" if line.attempted else told


def suspicion(one: Suspicion) -> str:
    """What is suspected, and why."""
    return f"{mark_at(one.place, one.side, one.mark)} (at worst {one.verdict.worst}). {one.because}"


def not_looked_at(leg: NotLookedAt) -> str:
    """The places of a leg that nobody looked at: those that matter by name, the others by number."""
    named = [at_side(one.place, one.side) for one in leg.places if one.primary]
    others = len(leg.places) - len(named)
    if others:
        places = "place" if others == 1 else "places"
        named.append(f"{others} more {places}" if named else f"{others} {places}")
    return f"{leg.leg}: {'; '.join(named)}"


def come_from(one: Suspicion, assessment: Assessment) -> str:
    """The findings and the events that make something suspected."""
    names = {told.event: told.name for told in assessment.events}
    found = [title(assessment.finding(id_)) for id_ in one.come_from]
    return listed([*found, *(names[event] for event in one.events)])


def event(one: EventTold) -> str:
    """What was told, and what it makes worth looking at."""
    when = one.when or (f"on {one.on}" if one.on else "")
    about = ", ".join(word for word in (FORCE.get(one.force, ""), when, f"{one.side} side" if one.side else "") if word)
    told = f"{capital(one.name)}{f' ({about})' if about else ''}."
    if one.first:
        told += f" Before she sails look at: {'; '.join(map(uncapital, one.first))}."
    if one.sends:
        told += f" Worth a look{' too' if one.first else ''}: {'; '.join(map(uncapital, one.sends))}."
    return f"{told} {one.note}".strip()
