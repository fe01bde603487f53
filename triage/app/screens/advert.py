"""For a buyer, the evening before: the form of the advert, with what its numbers say."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.advert import CURRENCY, LONGEST, LONGEST_ADVERT, fields_of, gear_rows, offer_of, quote_rows
from triage.app.purchase import common, opened, today, told_of_the_sale
from triage.app.refused import Trouble, troubles_of
from triage.app.screen import Program, fields, go_to, page
from triage.app.visiting import Visit, keep, take
from triage.buying.hull_number import HullNumber, read_hull_number
from triage.conclusions.assessment import Assessment
from triage.dialogue import events
from triage.dialogue.edits import NameBoat, apply
from triage.dialogue.step import joined
from triage.listening.advert import hear_advert
from triage.phrases import heard_advert, identity
from triage.phrases.screens import UNNAMED

MOST_FIELDS = 400
"""In the form of an advert, which has one for each mark and each piece of gear."""

NEXT = {"viewing": "viewing", "walk": "walk", "decide": "buy", "number": "advert#whose", "marks": ""}
"""Where a form leads, by its button."""

READ = "read"
"""The button that only reads the words of an advert."""


async def advert(request: Request) -> Response:
    """The form of the advert, with what was kept of it."""
    asked, visit, assessment = opened(request)
    kept = asked.boats.offer(visit.kept.boat)
    said = fields_of(kept or hear_advert(visit.survey.note, asked.kb, today().year).offer())
    name = visit.survey.boat.name
    said |= {} if name in UNNAMED else {"called": name}
    return page(request, "advert.html", _form(asked, visit, assessment, said, ()))


async def keep_advert(request: Request) -> Response:
    """Keep what is in the form, and go on; where something cannot be read, nothing is kept and the form says what."""
    asked, visit, assessment = opened(request)
    form = await fields(request, MOST_FIELDS)
    button = form.pop("to", "viewing")
    if button == READ:
        return page(request, "advert.html", _read(asked, visit, assessment, form))
    to = NEXT.get(button)
    if to is None:
        raise HTTPException(400)
    called = form.get("called", "").strip()[:LONGEST]
    said, problems = offer_of(form, today().year)
    told = {one.field for one in problems}
    problems += [one for one in troubles_of(said, asked.kb) if one.field not in told]
    if problems:
        return page(request, "advert.html", _refused(asked, visit, assessment, form, problems), 422)
    asked.boats.keep_offer(visit.kept.boat, said)
    if called not in ("", visit.survey.boat.name):
        survey, _ = apply(asked.kb, visit.survey, NameBoat(called))
        keep(asked, visit.kept, joined(asked.kb, visit.state, survey))
    if button == "marks" and (marks := hear_advert(form.get("advert", ""), asked.kb, today().year).marks):
        take(asked, visit.kept.visit, [events.New(), events.Said(". ".join(marks))])
    return go_to(request, addresses.visit(visit.kept.visit, to))


def _read(asked: Program, visit: Visit, assessment: Assessment, form: Mapping[str, str]) -> dict[str, Any]:
    """The form with what its advert tells in the fields that are empty, and what was understood; nothing is kept."""
    heard = hear_advert(form.get("advert", "")[:LONGEST_ADVERT], asked.kb, today().year)
    as_it_began = {"currency": CURRENCY}.items()
    filled = {name: text for name, text in form.items() if text and (name, text) not in as_it_began}
    values = _form(asked, visit, assessment, {**fields_of(heard.offer()), **filled}, ())
    return {**values, "heard": heard, "understood": list(heard_advert.understood(asked.kb, heard))}


def _refused(
    asked: Program, visit: Visit, assessment: Assessment, form: Mapping[str, str], problems: Sequence[Trouble]
) -> dict[str, Any]:
    """The form as it was sent, each trouble beside its field, and what was understood of the advert."""
    values = _form(asked, visit, assessment, form, problems)
    if not form.get("advert"):
        return values
    heard = hear_advert(form["advert"][:LONGEST_ADVERT], asked.kb, today().year)
    return {**values, "heard": heard, "understood": list(heard_advert.understood(asked.kb, heard))}


def _form(
    asked: Program, visit: Visit, assessment: Assessment, said: Mapping[str, str], problems: Sequence[Trouble]
) -> dict[str, Any]:
    known = asked.kb.purchase
    return {
        **common(asked, visit),
        "typed": said,
        "problems": problems,
        "wrong": {one.field: one.says for one in reversed(problems)},
        "gear": gear_rows(asked.kb, said),
        "aged": [one for one in known.gear.values() if one.asks_age],
        "used_of_new": known.figures["used_of_new"].values[::2],
        "sale": list(known.sale.values()),
        "sale_noticed": _any(said, "sale"),
        "sale_told": told_of_the_sale(asked, visit, ()),
        "photos_ticked": _any(said, "photo"),
        "quoted": _any(said, "least", "most"),
        "marks": [
            (one.id, f"{one.place}: {one.mark}")
            for one in assessment.findings
            if not (one.passed or one.looked_at_only)
        ],
        "quotes": quote_rows(assessment),
        "number_told": list(_numbers(said)),
        "identity": identity,
        "reading": heard_advert,
        "heard": None,
        "longest_advert": LONGEST_ADVERT,
    }


def _any(said: Mapping[str, str], *kinds: str) -> bool:
    """Whether something stands in a field of one of these kinds."""
    return any(text and name.partition("/")[0] in kinds for name, text in said.items())


def _numbers(said: Mapping[str, str]) -> Iterator[str]:
    """What the numbers say, what does not match, and what to do then; nothing where none is given."""
    this_year, claimed = today().year, said.get("claimed_year", "")
    year = int(claimed) if claimed.isdecimal() else None
    read = [read_hull_number(said[name], this_year) for name in ("number", "second_number") if said.get(name)]
    numbers = [one for one in read if isinstance(one, HullNumber)]
    odd: list[str] = []
    for one in read:
        if isinstance(one, HullNumber):
            yield from identity.told(one)
            odd += identity.does_not_match(one, this_year, year)
        else:
            yield from identity.unreadable(one)
    if len(numbers) == 2 and (differing := identity.two_plates(*numbers)):
        odd.append(differing)
    if odd:
        yield from (*dict.fromkeys(odd), identity.ASK)


ROUTES = [
    Route("/visit/{visit}/advert", advert),
    Route("/visit/{visit}/advert", keep_advert, methods=["POST"]),
]
