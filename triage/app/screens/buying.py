"""For a buyer: the advert the evening before, the plan for the viewing, and whether to buy her."""

from __future__ import annotations

import datetime
from collections.abc import Container, Iterator, Mapping
from dataclasses import replace
from typing import Any
from urllib.parse import quote, urlencode

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app import addresses
from triage.app.advert import fields_of, gear_rows, offer_of, quote_rows
from triage.app.pictures import legs_of
from triage.app.screen import Program, fields, go_to, page, program
from triage.app.screens.files import REPORT_POLICY
from triage.app.visiting import Visit, open_visit
from triage.buying.advice import PurchaseAdvice, advise_purchase
from triage.buying.hull_number import HullNumber, read_hull_number
from triage.buying.noticed import noticed
from triage.buying.offer import NOTHING_NAMED, Offer
from triage.buying.read_offer import offer_from
from triage.buying.viewing import ViewingPlan, plan_viewing
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.errors import BadOffer, CannotWork
from triage.phrases import advert as words
from triage.phrases import buying, identity, money, prices, seller, viewing
from triage.views.boat_picture import picture_of
from triage.views.price_picture import price_picture
from triage.views.purchase import render_purchase, render_viewing

MOST_FIELDS = 400
"""In the form of an advert, which has one for each mark and each piece of gear."""

KINDS = ("looks", "watch", "open", "weakened")
"""How gravity is drawn, by the level of the decision."""

NEXT = {"viewing": "viewing", "decide": "buy", "number": "advert#whose"}
"""Where a form leads, by its button."""


async def advert(request: Request) -> Response:
    """The form of the advert, with what was kept of it."""
    asked, visit, assessment = _opened(request)
    kept = asked.boats.offer(visit.kept.boat)
    said = fields_of(kept) if kept else {f"sale/{sign}": "yes" for sign in noticed(asked.kb, visit.survey.note)}
    return page(request, "advert.html", _form(asked, visit, assessment, said, ()))


async def keep_advert(request: Request) -> Response:
    """Keep what is in the form, and go on; where something cannot be read, nothing is kept and the form says what."""
    asked, visit, assessment = _opened(request)
    form = await fields(request, MOST_FIELDS)
    to = NEXT.get(form.pop("to", "viewing"))
    if to is None:
        raise HTTPException(400)
    said, problems = offer_of(form, _today().year)
    if not problems:
        try:
            offer_from(said, asked.kb)
        except BadOffer as error:
            problems = [_plainly(one.what, one.hint) for one in error.problems]
    if problems:
        return page(request, "advert.html", _form(asked, visit, assessment, form, problems), 422)
    asked.boats.keep_offer(visit.kept.boat, said)
    return go_to(request, addresses.visit(visit.kept.visit, to))


async def viewing_plan(request: Request) -> Response:
    """What to try in so many minutes, and what to ask the seller before."""
    asked, visit, assessment = _opened(request)
    plan = _plan(request, asked, visit, assessment)
    asks = [*(viewing.question(*one) for one in plan.about_marks), *plan.asks]
    asked_for = "\n".join(f"{number}. {one}" for number, one in enumerate(asks, 1))
    values = {
        **_common(asked, visit),
        "p": plan,
        "list": asked_for,
        "mail": urlencode({"subject": plan.boat, "body": asked_for}, quote_via=quote),
        "viewing": viewing,
    }
    return page(request, "viewing.html", values)


async def plan_file(request: Request) -> Response:
    """The plan as text, to be printed."""
    asked, visit, assessment = _opened(request)
    return _text(render_viewing(_plan(request, asked, visit, assessment)), "viewing.txt")


async def decision(request: Request) -> Response:
    """The decision, the price over one scale, the reasons, what was not looked at, and words for the seller."""
    asked, visit, assessment = _opened(request)
    advice = _advice(asked, visit, assessment)
    note = "\n".join(seller.note(advice))
    values = {
        **_common(asked, visit),
        "p": advice,
        "a": assessment,
        "kind": KINDS[advice.level],
        "kinds": KINDS,
        "price": price_picture(advice),
        "picture": picture_of(assessment),
        "lines": prices.by_weight(advice.sums.lines),
        "numbers": {id_: number for number, job in enumerate(assessment.jobs, 1) for id_ in job.findings},
        "note": note,
        "mail": urlencode({"subject": assessment.boat, "body": note}, quote_via=quote),
        "buying": buying,
        "sale_told": _told_of_the_sale(asked, visit, advice.offer.sale),
        "money": money,
        "prices": prices,
    }
    return page(request, "decision.html", values)


async def decision_page(request: Request) -> Response:
    """The decision as one page that stands by itself."""
    asked, visit, assessment = _opened(request)
    text = render_purchase(_advice(asked, visit, assessment), "html")
    return Response(text, media_type="text/html", headers={"content-security-policy": REPORT_POLICY})


async def decision_text(request: Request) -> Response:
    """The decision as text."""
    asked, visit, assessment = _opened(request)
    return _text(render_purchase(_advice(asked, visit, assessment)), "buying.txt")


def _opened(request: Request) -> tuple[Program, Visit, Assessment]:
    asked = program(request)
    if asked.kb.purchase.judging is None:
        raise HTTPException(404)
    visit = open_visit(asked, request.path_params["visit"])
    return asked, visit, assess_survey(visit.survey, asked.kb)


def _offer(asked: Program, visit: Visit) -> Offer:
    """What was kept of the advert, else what was told of the sale. Raises CannotWork where the rules do not know it."""
    kept = asked.boats.offer(visit.kept.boat)
    if not kept:
        return replace(NOTHING_NAMED, sale=tuple(noticed(asked.kb, visit.survey.note)))
    try:
        return offer_from(kept, asked.kb, source="the advert")
    except BadOffer as error:
        raise CannotWork(words.not_known([_plainly(one.what, one.hint) for one in error.problems])) from None


def _advice(asked: Program, visit: Visit, assessment: Assessment) -> PurchaseAdvice:
    return advise_purchase(assessment, _offer(asked, visit), asked.kb)


def _plan(request: Request, asked: Program, visit: Visit, assessment: Assessment) -> ViewingPlan:
    minutes = request.query_params.get("minutes", str(visit.state.minutes or 40))
    if not (minutes.isdecimal() and 5 <= int(minutes) <= 1440):
        raise HTTPException(404)
    return plan_viewing(assessment, _offer(asked, visit), asked.kb, int(minutes), _today().year)


def _common(asked: Program, visit: Visit) -> dict[str, Any]:
    return {"visit": visit, "legs": legs_of(asked.kb, visit.survey), "say": words}


def _form(
    asked: Program, visit: Visit, assessment: Assessment, said: Mapping[str, str], problems: object
) -> dict[str, Any]:
    known = asked.kb.purchase
    return {
        **_common(asked, visit),
        "typed": said,
        "problems": problems,
        "gear": gear_rows(asked.kb, said),
        "aged": [one for one in known.gear.values() if one.asks_age],
        "used_of_new": known.figures["used_of_new"].values[::2],
        "sale": list(known.sale.values()),
        "sale_noticed": _any(said, "sale"),
        "sale_told": _told_of_the_sale(asked, visit, ()),
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
    }


def _told_of_the_sale(asked: Program, visit: Visit, ticked: Container[str]) -> list[str]:
    """The sentences of the note that tell of the sale, but for what is ticked in the advert."""
    told = noticed(asked.kb, visit.survey.note)
    return list(dict.fromkeys(sentence for sign, sentence in told.items() if sign not in ticked))


def _any(said: Mapping[str, str], *kinds: str) -> bool:
    """Whether something stands in a field of one of these kinds."""
    return any(text and name.partition("/")[0] in kinds for name, text in said.items())


def _numbers(said: Mapping[str, str]) -> Iterator[str]:
    """What the numbers say, what does not match, and what to do then; nothing where none is given."""
    this_year, claimed = _today().year, said.get("claimed_year", "")
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


def _plainly(what: str, hint: str) -> str:
    said = f"{what[:1].upper()}{what[1:]}"
    return f"{said}. {hint}" if hint else f"{said}."


def _text(text: str, name: str) -> Response:
    headers = {"content-disposition": f'attachment; filename="{name}"', "cache-control": "no-store"}
    return Response(text, media_type="text/plain; charset=utf-8", headers=headers)


def _today() -> datetime.date:
    return datetime.date.today()


ROUTES = [
    Route("/visit/{visit}/advert", advert),
    Route("/visit/{visit}/advert", keep_advert, methods=["POST"]),
    Route("/visit/{visit}/viewing", viewing_plan),
    Route("/visit/{visit}/viewing.txt", plan_file),
    Route("/visit/{visit}/buy", decision),
    Route("/visit/{visit}/buy.html", decision_page),
    Route("/visit/{visit}/buy.txt", decision_text),
]
