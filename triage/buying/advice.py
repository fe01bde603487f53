"""What to do about a boat that is for sale, concluded by the rules of buying, with everything it rests on."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from triage.buying.offer import Offer
from triage.buying.places import BuyersView, PlaceAt, rules_of_buying, short_name
from triage.buying.price import Sums, price_of
from triage.buying.professional import Professional, professional_for
from triage.buying.standing import Evidence, standing_of
from triage.conclusions.assessment import Assessment
from triage.conclusions.ranges import range_between
from triage.conclusions.values import Range
from triage.inference.evaluation import Evaluation, Firing
from triage.inference.forward import forward
from triage.knowledge.model import Basis, KnowledgeBase
from triage.knowledge.model.purchase import DECISION, OFFER, PURCHASE
from triage.survey.model import Boat, Finding

MOST_REASONS = 4
"""Reasons that are told as deciding; a buyer acts on no more."""


@dataclass(frozen=True)
class DecidingReason:
    """A rule that brought the decision so far: why, what is behind it, and what would turn it."""

    rule: str
    level: int
    scale: str
    because: str
    behind: tuple[Evidence, ...]
    turns: tuple[str, ...]
    basis: Basis


@dataclass(frozen=True)
class PurchaseAdvice:
    """The whole of it. ``decision`` is the mildest and the gravest that what is not known leaves possible; its milder
    end is what is told, because nothing rests on what nobody named. ``reasons`` stand most deciding first (for leaving
    those alone that end in it), ``others`` are the rest. ``conditions`` are to be put in writing, ``never`` is what not
    to do. ``untried`` are all main places that nobody tried, suspected or not. ``only_in_photos`` names marks that
    nobody saw but there, ``photos_hide`` what a photograph cannot show. ``unnamed`` are the figures that the buyer did
    not name.
    """

    assessment: Assessment
    offer: Offer
    decision: Range
    reasons: tuple[DecidingReason, ...]
    others: tuple[DecidingReason, ...]
    conditions: tuple[str, ...]
    never: tuple[str, ...]
    sums: Sums
    untried: tuple[PlaceAt, ...]
    only_in_photos: tuple[str, ...]
    photos_hide: tuple[str, ...]
    professional: Professional | None
    unnamed: tuple[str, ...]
    prices_of: int | None

    @property
    def level(self) -> int:
        """The level of the decision that is told."""
        return self.decision.levels[0]


def advise_purchase(
    assessment: Assessment, offer: Offer, kb: KnowledgeBase, *, today: datetime.date | None = None
) -> PurchaseAdvice:
    """What to do, by the rules of ``kb``. ``today`` is the day of the visit where nothing else is said.

    Raises BadRules when the knowledge has no rules of buying.
    """
    judging = rules_of_buying(kb)
    this_year = (assessment.seen_on or today or datetime.date.today()).year
    view = BuyersView(kb, assessment, offer.only_in_photos)
    sums = price_of(view, offer)
    standing = standing_of(judging, view, offer, sums, this_year)
    (judged,) = forward(judging, Boat(assessment.boat), [Finding("offer", PURCHASE, OFFER, None, standing.readings)])
    decision = range_between(judging, DECISION, *judged.interval(DECISION))
    leaving = decision.levels[0] == judging.scales[DECISION].top
    every = _reasons(judged, standing.behind)
    reasons = [one for one in every if not leaving or one.level == decision.levels[0]][:MOST_REASONS]
    prices = kb.mending.prices
    return PurchaseAdvice(
        assessment=assessment,
        offer=offer,
        decision=decision,
        reasons=tuple(reasons),
        others=tuple(one for one in every if one not in reasons),
        conditions=_said(judged, "do"),
        never=_said(judged, "never"),
        sums=sums,
        untried=view.not_tried,
        only_in_photos=tuple(f"{short_name(kb, one.zone)}: {one.mark}" for one in view.only_in_photos),
        photos_hide=kb.purchase.viewing.photos_hide if kb.purchase.viewing else (),
        professional=None if leaving else professional_for(kb, offer, sums),
        unnamed=tuple(name for name in ("sound", "asking", "budget") if getattr(offer, name) is None),
        prices_of=prices.year if prices else None,
    )


def _deciding(judged: Evaluation) -> list[tuple[int, Firing]]:
    """What fired for certain, most deciding first; of two rules about one scale the graver speaks."""
    firings = [(dict(one.rule.raises).get(DECISION, 0), one) for one in judged.lower.firings]
    ranked = sorted(firings, key=lambda pair: (-pair[0], pair[1].rule.order))
    seen: set[str] = set()
    found = []
    for level, firing in ranked:
        scale = _scale(firing)
        if scale not in seen:
            seen.add(scale)
            found.append((level, firing))
    return found


def _scale(firing: Firing) -> str:
    return firing.conjunct.levels[0][0]


def _reasons(judged: Evaluation, behind: dict[str, tuple[Evidence, ...]]) -> tuple[DecidingReason, ...]:
    return tuple(
        DecidingReason(
            rule=firing.rule.id,
            level=level,
            scale=_scale(firing),
            because=firing.rule.because,
            behind=behind.get(_scale(firing), ()),
            turns=tuple(one.say for one in firing.rule.advises if one.kind == "do"),
            basis=firing.rule.basis,
        )
        for level, firing in _deciding(judged)
    )


def _said(judged: Evaluation, kind: str) -> tuple[str, ...]:
    said = (one.say for _, firing in _deciding(judged) for one in firing.rule.advises if one.kind == kind)
    every = (one.say for firing in judged.lower.firings for one in firing.rule.advises if one.kind == kind)
    return tuple(dict.fromkeys([*said, *every] if kind == "never" else said))
