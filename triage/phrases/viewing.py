"""What is said of a viewing: where to go, what to try, what to bring, what to ask before."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.buying.trying import ViewingLine
from triage.buying.viewing import ViewingPlan, ViewingStop
from triage.knowledge.model import Check
from triage.phrases.buying import DOUBTS
from triage.phrases.words import capital, counted, listed, uncapital

BRING, ASK, PHOTOS, LEFT_OUT, ODD, LIVES = "Bring", "Ask before", "Photos", "No time for", "Odd", "She lies"
AFLOAT, HOW = "Afloat", "How"
BY_RANK = (
    "The number tells how much a line is worth its minutes: 1 first, if time runs short. These are the places on which "
    "she depends; look along everything else as you pass."
)
POLITE = "Ask in your own words, and say why: a seller who cannot do it has done nothing wrong."
NO_DEPOSIT = "Pay no deposit before you have seen her and her number."
LEFT_TOLD = 8


def headline(plan: ViewingPlan) -> str:
    """What the plan is for."""
    lines = sum(len(stop.lines) for stop in plan.stops)
    return f"{plan.boat}: {counted(lines, 'place')} in {plan.used:g} of {plan.minutes:g} minutes, bow to stern"


def line(one: ViewingLine) -> str:
    """A place and what to try there."""
    longest = max((check.wait for check in one.checks if check.wait), key=lambda wait: wait.hours, default=None)
    about = [f"{one.minutes:g} min{f', of which waiting: {longest.say}' if longest else ''}"]
    if one.both_sides:
        about.append("both sides")
    if any(check.helper for check in one.checks):
        about.append("with a helper")
    because = f" Seen or suspected: {uncapital(one.because)}." if one.because else ""
    left = f" To pass it, also: {_names(one.left)}." if one.left else ""
    known = one.trade.casefold() in one.place.casefold()
    place = capital(one.place) if known else f"{capital(one.place)} ({one.trade})"
    return f"{place}: {_names(one.checks)} ({', '.join(about)}).{because}{left}"


def _names(checks: Sequence[Check]) -> str:
    return listed([uncapital(check.name) for check in checks])


def how(plan: ViewingPlan) -> Iterator[str]:
    """How each check of the plan is done, once."""
    every = {check.id: check for stop in plan.stops for one in stop.lines for check in one.checks}
    yield from (f"{check.name}: {' '.join(check.steps)}" for check in every.values())


def setting_up(stop: ViewingStop) -> str:
    """What has to be done there first, and how long it takes; empty where nothing has."""
    one = stop.setting_up
    return f"{one.say}: {one.minutes:g} min, once." if one else ""


def question(name: str, where: str) -> str:
    """A test that the seller is asked for, at a mark that was seen."""
    return f"Could you try this for me, or film it: {uncapital(name)} at the {uncapital(where)}?"


def photos(plan: ViewingPlan) -> str:
    """What photographs are good for."""
    return (
        f"They show {'; '.join(plan.photos_show)}. They cannot show {'; '.join(plan.photos_hide)}. What was only seen "
        "in one stays open until it is tried."
    )


def left_out(plan: ViewingPlan) -> str:
    """The main places for which there is no time."""
    told = "; ".join(map(uncapital, plan.left_out[:LEFT_TOLD]))
    more = len(plan.left_out) - LEFT_TOLD
    return f"{told}{f'; and {more} more' if more > 0 else ''}. Not tried is not passed."


def beyond(plan: ViewingPlan) -> str:
    """That she is afloat, and what cannot be reached then; empty where she is not."""
    if plan.afloat is None:
        return ""
    places = f" Not to be reached now: {listed(list(map(uncapital, plan.beyond)))}." if plan.beyond else ""
    return f"{plan.afloat.say}{places} What nobody sees stays open."


def odd(plan: ViewingPlan) -> str:
    """What does not match in the advert."""
    return f"{capital('; '.join(DOUBTS[doubt] for doubt in plan.doubts))}. Ask; there may be a plain reason."
