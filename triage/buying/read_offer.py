"""The door for offers: from a file to an Offer, or to every question that it raises at once."""

from __future__ import annotations

import datetime
import re
from collections import Counter
from collections.abc import Iterable, Mapping
from pathlib import Path as FilePath
from typing import Annotated, Any, Literal

from pydantic import Field

from triage.buying.amounts import ThreePoint
from triage.buying.offer import FromNew, Offer, Quote
from triage.errors import BadOffer, Place, Problem
from triage.knowledge.model import KnowledgeBase
from triage.parsing.documents import MAX_BYTES, Document, Path, document_of, read_document
from triage.parsing.forms import Form, fill
from triage.parsing.money import DOLLARS, currency_called
from triage.survey.names import Names, zone_names

Figure = Annotated[float, Field(ge=0, le=10_000_000)]
Price = Figure | Annotated[list[Figure], Field(min_length=2, max_length=3)]
YesNo = Literal["yes", "no"]

AS_OURS = ("EUR", "GBP", "USD")
"""Currencies of which one is about one unit of the prices in the rules."""


class QuoteForm(Form):
    """A figure for mending at a place, ``for`` which damage, ``by`` whom and ``on`` which day."""

    zone: str = Field(alias="for")
    side: Literal["port", "starboard"] | None = None
    price: Price
    by: str = ""
    on: datetime.date | None = None
    fixed: YesNo = "no"
    accepted: YesNo = "no"


class OfferForm(Form):
    """An offer. A price is one figure, or ``[least, most]``, or ``[least, likely, most]``; ``of_new`` is percent,
    written the same way, or ``ours``. ``advert`` are the words that it was read from, for whoever reads the file.
    """

    offer: Literal[1] = 1
    boat: str = ""
    currency: str
    one_unit: Annotated[float, Field(gt=0, le=1_000_000)] | None = None
    year: Annotated[int, Field(ge=2000, le=2100)] | None = None
    sound: Price | None = None
    new: Price | None = None
    of_new: Price | Literal["ours"] | None = None
    asking: Figure | None = None
    budget: Figure | None = None
    until: datetime.date | None = None
    quotes: list[QuoteForm] = []
    missing: list[str] = []
    spent: list[str] = []
    extra: list[str] = []
    gear_prices: dict[str, Price] = {}
    ages: dict[str, Annotated[int, Field(ge=0, le=100)]] = {}
    sale: list[str] = []
    only_in_photos: list[str] = []
    lives: str = ""
    number: str = ""
    second_number: str = ""
    claimed_year: Annotated[int, Field(ge=1940, le=2100)] | None = None
    advert: str = ""


def read_offer(file: FilePath | str, kb: KnowledgeBase) -> Offer:
    """The offer in a YAML or JSON file. Raises BadOffer with every problem, or when the file cannot be opened."""
    try:
        with FilePath(file).open("rb") as opened:
            raw = opened.read(MAX_BYTES + 1)
    except OSError as error:
        what = f"cannot be opened: {error.strerror}"
        raise BadOffer([Problem(Place(str(file)), what, "Check the name and the folder.")]) from None
    return _offer(read_document(raw, str(file)), kb)


def offer_from(mapping: Mapping[str, Any], kb: KnowledgeBase, *, source: str = "offer") -> Offer:
    """The offer in a mapping of the shape of an offer file. Raises BadOffer with every problem at once."""
    return _offer(document_of(mapping, source), kb)


def _offer(document: Document, kb: KnowledgeBase) -> Offer:
    if document.broken:
        raise BadOffer(document.problems)
    form = fill(OfferForm, {} if document.value is None else document.value, document)
    offer = _Reader(kb, document, form).offer() if form else None
    if document.problems or offer is None:
        raise BadOffer(document.problems)
    return offer


class _Reader:
    """Turns what has the right shape of one offer into the words of the knowledge."""

    def __init__(self, kb: KnowledgeBase, document: Document, form: OfferForm) -> None:
        self.kb, self.document, self.form = kb, document, form
        known = kb.purchase
        part = known.figures.get("likely_part")
        self.likely = part.values[0] if part else 0.5
        self.gear = Names("gear", ((one.id, (one.name,)) for one in known.gear.values()))
        self.currency = currency_called(form.currency)
        self.sale = Names("sign of a sale", ((one.id, (one.say, *one.heard)) for one in known.sale.values()))

    def ask(self, path: Path, what: str, hint: str = "") -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def offer(self) -> Offer:
        form = self.form
        from_new = self.from_new()
        offer = Offer(
            currency=self.currency,
            one_unit=self.one_unit(),
            year=form.year,
            sound=from_new.sound if from_new else self.price(("sound",), form.sound),
            from_new=from_new,
            asking=form.asking,
            budget=form.budget,
            until=form.until,
            quotes=tuple(self.quotes()),
            missing=self.named(("missing",), form.missing, self.gear),
            spent=self.named(("spent",), form.spent, self.gear),
            extra=self.named(("extra",), form.extra, self.gear),
            gear_prices=self.gear_prices(),
            ages=self.ages(),
            sale=self.named(("sale",), form.sale, self.sale),
            only_in_photos=tuple(dict.fromkeys(form.only_in_photos)),
            lives=form.lives,
            number=form.number,
            second_number=form.second_number,
            claimed_year=form.claimed_year,
            boat=form.boat,
            source=self.document.source,
        )
        self.each_once(offer)
        if offer.sound and not offer.sound.most:
            self.ask(("sound",), "a sound boat costs something", "Write what others like her are sold for.")
        if offer.second_number and not offer.number:
            self.ask(("second_number",), "there is a second number and no first", "Write it as number.")
        return offer

    def one_unit(self) -> float:
        """How much of the currency is one unit of our prices; a currency that is none of ours says so itself."""
        if self.currency == "$":
            what, hint = "dollars are of several countries: which are these?", f"Write {' or '.join(DOLLARS)}."
        elif not re.fullmatch("[A-Z]{3}", self.currency):
            what = f'"{self.form.currency}" is no currency in three letters'
            hint = "Write it as €, £, or in letters: EUR, GBP, USD, SEK …"
        elif self.form.one_unit is not None or self.currency in AS_OURS:
            return self.form.one_unit or 1.0
        else:
            what = f"how much of {self.currency} is about one euro, pound or dollar?"
            hint = 'Add a line "one_unit: …"; prices of the rules are multiplied by it.'
        self.ask(("currency",), what, hint)
        return 1.0

    def from_new(self) -> FromNew | None:
        """What used ones cost by what a new one does; our estimate of that only where it is asked for."""
        form, known = self.form, self.kb.purchase.figures.get("used_of_new")
        if form.new is None and form.of_new is None:
            return None
        if form.sound is not None:
            self.ask(("sound",), "there is a price for a sound boat, and one worked out from a new one", "Keep one.")
        elif form.new is None:
            self.ask(("of_new",), "it is not said what a new one costs", "Write it as new.")
        elif form.of_new is None or (form.of_new == "ours" and known is None):
            ours = f" Or write ours, for our estimate: {known.values[0]:g} to {known.values[-1]:g}." if known else ""
            what = "it is not said how much of that used ones like her fetch"
            self.ask(("new",), what, f"Write of_new: [least, most], in percent, from what you saw advertised.{ours}")
        else:
            new = self.price(("new",), form.new)
            if form.of_new != "ours":
                part = self.price(("of_new",), form.of_new)
            elif known:
                part = ThreePoint(known.values[0], known.values[1], known.values[2])
            return FromNew(new, part, form.of_new == "ours") if new and part else None
        return None

    def price(self, path: Path, said: float | list[float] | None) -> ThreePoint | None:
        if said is None:
            return None
        if not isinstance(said, list):
            return ThreePoint(said, said, said)
        if sorted(said) != said:
            self.ask(path, "this price does not run from the least to the most", "Write [least, likely, most].")
            return None
        least, most = said[0], said[-1]
        return ThreePoint(least, said[1] if len(said) == 3 else least + self.likely * (most - least), most)

    def quotes(self) -> Iterable[Quote]:
        zones = zone_names(self.kb)
        for index, one in enumerate(self.form.quotes):
            here: Path = ("quotes", index)
            zone = zones.find(one.zone)
            if zone is None:
                self.ask((*here, "for"), *zones.unknown(one.zone))
            price = self.price((*here, "price"), one.price)
            if zone and price:
                yield Quote(zone, one.side, price, one.by, one.on, one.fixed == "yes", one.accepted == "yes")

    def named(self, path: Path, said: Iterable[str], names: Names) -> tuple[str, ...]:
        found = []
        for index, word in enumerate(said):
            id_ = names.find(word)
            if id_ is None:
                self.ask((*path, index), *names.unknown(word, f"It can be: {', '.join(names.ids.values())}."))
            else:
                found.append(id_)
        return tuple(dict.fromkeys(found))

    def gear_prices(self) -> dict[str, ThreePoint]:
        found = {}
        for said, given in self.form.gear_prices.items():
            id_, price = self.gear.find(said), self.price(("gear_prices", said), given)
            if id_ is None:
                self.ask(("gear_prices", said), *self.gear.unknown(said))
            elif price:
                found[id_] = price
        return found

    def ages(self) -> dict[str, int]:
        found = {}
        for said, years in self.form.ages.items():
            id_ = self.gear.find(said)
            if id_ is None:
                self.ask(("ages", said), *self.gear.unknown(said))
            else:
                found[id_] = years
        return found

    def each_once(self, offer: Offer) -> None:
        """Nothing is missing, spent and there at the same time."""
        seen: dict[str, str] = {}
        for section in ("missing", "spent", "extra"):
            for id_ in getattr(offer, section):
                if seen.setdefault(id_, section) != section:
                    what = f'"{self.kb.purchase.gear[id_].name}" is {section} and {seen[id_]} at once'
                    self.ask((section,), what, "Keep one of them.")
        places = Counter((quote.zone, quote.side) for quote in offer.quotes)
        for zone, _ in (place for place, count in places.items() if count > 1):
            what = f"two quotes are for the same place, {self.kb.zones[zone].name}"
            self.ask(("quotes",), what, "Keep the one you believe.")
