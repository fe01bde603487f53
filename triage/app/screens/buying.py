"""For a buyer: the plan for the viewing, and whether to buy her."""

from __future__ import annotations

from urllib.parse import quote, urlencode

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.app.purchase import common, opened, plainly, today, told_of_the_sale
from triage.app.screen import Program, page
from triage.app.screens.files import REPORT_POLICY
from triage.app.visiting import Visit
from triage.buying.advice import PurchaseAdvice, advise_purchase
from triage.buying.offer import Offer
from triage.buying.read_offer import offer_from
from triage.buying.viewing import ViewingPlan, plan_viewing
from triage.conclusions.assessment import Assessment
from triage.dialogue.state import DESCRIBING, STORY
from triage.drawing.checks import draw_check
from triage.errors import BadOffer, CannotWork
from triage.listening.offer_told import offer_told
from triage.phrases import advert as words
from triage.phrases import build_up, buying, money, prices, seller, viewing
from triage.views.boat_picture import picture_of
from triage.views.price_picture import price_picture
from triage.views.purchase import render_purchase, render_viewing

KINDS = ("looks", "watch", "open", "weakened")
"""How gravity is drawn, by the level of the decision."""


async def viewing_plan(request: Request) -> Response:
    """What to try in so many minutes, and what to ask the seller before."""
    asked, visit, assessment = opened(request)
    plan = _plan(request, asked, visit, assessment)
    asks = [*(viewing.question(*one) for one in plan.about_marks), *plan.asks]
    asked_for = "\n".join(f"{number}. {one}" for number, one in enumerate(asks, 1))
    values = {
        **common(asked, visit),
        "p": plan,
        "list": asked_for,
        "mail": urlencode({"subject": plan.boat, "body": asked_for}, quote_via=quote),
        "viewing": viewing,
        "drawn": draw_check,
        "shown": [],
    }
    return page(request, "viewing.html", values)


async def plan_file(request: Request) -> Response:
    """The plan as text, to be printed."""
    asked, visit, assessment = opened(request)
    return _text(render_viewing(_plan(request, asked, visit, assessment)), "viewing.txt")


async def decision(request: Request) -> Response:
    """The decision, the price over one scale, the reasons, what was not looked at, and words for the seller."""
    asked, visit, assessment = opened(request)
    advice = _advice(asked, visit, assessment)
    note = "\n".join(seller.note(advice))
    values = {
        **common(asked, visit),
        "p": advice,
        "a": assessment,
        "kind": KINDS[advice.level],
        "kinds": KINDS,
        "price": price_picture(advice),
        "picture": picture_of(assessment),
        "rows": list(build_up.rows(advice)),
        "build_up": build_up,
        "numbers": {id_: number for number, job in enumerate(assessment.jobs, 1) for id_ in job.findings},
        "pending": visit.state.asking.what in (*DESCRIBING, *STORY),
        "note": note,
        "mail": urlencode({"subject": assessment.boat, "body": note}, quote_via=quote),
        "buying": buying,
        "seller": seller,
        "sale_told": told_of_the_sale(asked, visit, advice.offer.sale),
        "money": money,
        "prices": prices,
    }
    return page(request, "decision.html", values)


async def decision_page(request: Request) -> Response:
    """The decision as one page that stands by itself."""
    asked, visit, assessment = opened(request)
    text = render_purchase(_advice(asked, visit, assessment), "html")
    return Response(text, media_type="text/html", headers={"content-security-policy": REPORT_POLICY})


async def decision_text(request: Request) -> Response:
    """The decision as text."""
    asked, visit, assessment = opened(request)
    return _text(render_purchase(_advice(asked, visit, assessment)), "buying.txt")


def _offer(asked: Program, visit: Visit) -> Offer:
    """What was kept of the advert, else what was told of the sale. Raises CannotWork where the rules do not know it."""
    kept = asked.boats.offer(visit.kept.boat)
    if not kept:
        return offer_told(asked.kb, visit.survey.note)
    try:
        return offer_from(kept, asked.kb, source="the advert")
    except BadOffer as error:
        raise CannotWork(words.not_known([plainly(one.what, one.hint) for one in error.problems])) from None


def _advice(asked: Program, visit: Visit, assessment: Assessment) -> PurchaseAdvice:
    return advise_purchase(assessment, _offer(asked, visit), asked.kb)


def _plan(request: Request, asked: Program, visit: Visit, assessment: Assessment) -> ViewingPlan:
    minutes = request.query_params.get("minutes", str(visit.state.minutes or 40))
    if not (minutes.isdecimal() and 5 <= int(minutes) <= 1440):
        raise HTTPException(404)
    return plan_viewing(assessment, _offer(asked, visit), asked.kb, int(minutes), today().year)


def _text(text: str, name: str) -> Response:
    headers = {"content-disposition": f'attachment; filename="{name}"', "cache-control": "no-store"}
    return Response(text, media_type="text/plain; charset=utf-8", headers=headers)


ROUTES = [
    Route("/visit/{visit}/viewing", viewing_plan),
    Route("/visit/{visit}/viewing.txt", plan_file),
    Route("/visit/{visit}/buy", decision),
    Route("/visit/{visit}/buy.html", decision_page),
    Route("/visit/{visit}/buy.txt", decision_text),
]
