"""The form of an advert: from its fields to the words of an offer file, and back. Everything in it is optional."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from triage.app.refused import Trouble
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase
from triage.parsing.money import DOLLARS, currency_called, money_in, sign_in
from triage.parsing.text import plain
from triage.phrases import advert as words

CURRENCY = "EUR"
"""In which a form begins: about one unit of our own prices."""

MONEY = ("asking", "budget", "sound_least", "sound_most", "new")
NUMBERS = ("claimed_year",)
TEXTS = ("currency", "number", "second_number", "lives", "until")
OURS = "ours"
"""Where the buyer takes our estimate of what used boats fetch."""

LONGEST = 120
"""Letters of a text in it."""

LONGEST_ADVERT = 10_000
"""Letters of an advert that is pasted."""

PRESENT = ""
"""How gear is unless somebody says otherwise: there and fit, or not promised where a complete boat has none."""


@dataclass(frozen=True)
class GearRow:
    """Something that belongs to a boat, what may be said of it, and what is said."""

    id: str
    name: str
    means: str
    choices: Sequence[tuple[str, str]]
    said: str


@dataclass(frozen=True)
class QuoteRow:
    """A damage for which the buyer may have a figure of his own."""

    key: str
    name: str


def gear_rows(kb: KnowledgeBase, fields: Mapping[str, str]) -> list[GearRow]:
    """All gear, what a complete boat has first."""
    known = sorted(kb.purchase.gear.values(), key=lambda one: not one.complete)
    choices = {True: words.GEAR, False: words.EXTRA_GEAR}
    return [
        GearRow(one.id, one.name, one.means, choices[one.complete], fields.get(f"gear/{one.id}", PRESENT))
        for one in known
    ]


def quote_rows(assessment: Assessment) -> list[QuoteRow]:
    """A row for each place with damage that is more than looks."""
    found: dict[str, str] = {}
    for job in assessment.jobs:
        if job.verdict.roles[1] != "looks":
            first = assessment.finding(job.findings[0])
            found.setdefault(f"{first.zone}/{first.side or ''}", f"{first.place}: {first.mark}")
    return [QuoteRow(key, name) for key, name in found.items()]


def fields_of(offer: Mapping[str, Any]) -> dict[str, str]:
    """What stands in the fields of the form for an offer as it is kept."""
    single = ("asking", "budget", "one_unit", "advert", *NUMBERS, *TEXTS)
    said = {name: _shown(offer[name]) for name in single if name in offer}
    if sound := offer.get("sound"):
        said |= {"sound_least": _shown(sound[0]), "sound_most": _shown(sound[-1])}
    if new := offer.get("new"):
        said |= {"new": _shown(new)}
    if part := offer.get("of_new"):
        ends = {"ours": "yes"} if part == OURS else {"of_new_least": _shown(part[0]), "of_new_most": _shown(part[-1])}
        said |= ends
    for kind in ("missing", "spent", "extra"):
        said |= {f"gear/{id_}": kind for id_ in offer.get(kind, ())}
    said |= {f"age/{id_}": str(years) for id_, years in offer.get("ages", {}).items()}
    said |= {f"sale/{id_}": "yes" for id_ in offer.get("sale", ())}
    said |= {f"photo/{id_}": "yes" for id_ in offer.get("only_in_photos", ())}
    for quote in offer.get("quotes", ()):
        key = f"{quote['for']}/{quote.get('side', '')}"
        said |= {f"least/{key}": _shown(quote["price"][0]), f"most/{key}": _shown(quote["price"][-1])}
        said |= {f"accepted/{key}": "yes"} if quote.get("accepted") == "yes" else {}
    return said


def offer_of(fields: Mapping[str, str], this_year: int) -> tuple[dict[str, Any], list[Trouble]]:
    """The words of an offer file for what stands in the fields, and every field that cannot be read."""
    reader = _Reader({name: "\n".join(map(plain, text.splitlines())).strip() for name, text in fields.items()})
    return reader.offer(this_year), reader.problems


def _shown(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


class _Reader:
    def __init__(self, fields: Mapping[str, str]) -> None:
        self.fields = fields
        self.problems: list[Trouble] = []

    def offer(self, this_year: int) -> dict[str, Any]:
        said = self.fields
        offer: dict[str, Any] = {"currency": self.currency()}
        offer |= {name: said[name][:LONGEST] for name in TEXTS if said.get(name) and name != "currency"}
        if pasted := said.get("advert"):
            offer["advert"] = pasted[:LONGEST_ADVERT]
        for name in ("asking", "budget", "new", "one_unit"):
            value = self.figure(name, words.FIELDS[name])
            offer |= {} if value is None else {name: value}
        if sound := self.span("sound_least", "sound_most", words.FIELDS["sound_least"]):
            offer["sound"] = sound
        if part := self.span("of_new_least", "of_new_most", words.FIELDS["of_new_least"]):
            offer["of_new"] = part
        elif said.get("ours"):
            offer["of_new"] = OURS
        year = self.whole("claimed_year", words.FIELDS["claimed_year"])
        offer |= {} if year is None else {"claimed_year": year}
        if "until" in offer and not _is_day(offer["until"]):
            self.problems.append(Trouble("until", words.no_day(offer.pop("until"))))
        for kind in ("missing", "spent", "extra"):
            offer[kind] = [id_ for id_ in self.under("gear") if said[f"gear/{id_}"] == kind]
        ages = {id_: self.whole(f"age/{id_}", words.AGE) for id_ in self.under("age")}
        offer["ages"] = {id_: years for id_, years in ages.items() if years is not None}
        offer |= {"sale": list(self.under("sale")), "only_in_photos": list(self.under("photo"))}
        offer["quotes"] = list(self.quotes())
        if any(name in offer for name in ("asking", "budget", "sound", "new")):
            offer["year"] = this_year
        return {name: value for name, value in offer.items() if value not in ([], {})}

    def currency(self) -> str:
        """As it is written in its own field; where that still is as it began, by the signs beside the figures."""
        called = currency_called(self.fields.get("currency") or CURRENCY)
        signs = {name: sign for name in MONEY if (sign := sign_in(self.fields.get(name, "")))}
        if called == CURRENCY and len(set(signs.values())) == 1:
            return next(iter(signs.values()))
        for name, sign in signs.items():
            if sign != called and not (sign == "$" and called in DOLLARS):
                self.problems.append(Trouble(name, words.other_currency(words.FIELDS[name], sign, called)))
        return called

    def under(self, kind: str) -> Iterator[str]:
        """The ids of the fields of a kind that are not empty."""
        filled = (name for name, text in self.fields.items() if text)
        yield from (name.removeprefix(f"{kind}/") for name in filled if name.startswith(f"{kind}/"))

    def quotes(self) -> Iterator[dict[str, Any]]:
        for key in dict.fromkeys([*self.under("least"), *self.under("most")]):
            price = self.span(f"least/{key}", f"most/{key}", words.QUOTE)
            zone, _, side = key.partition("/")
            if price:
                accepted = "yes" if self.fields.get(f"accepted/{key}") else "no"
                yield {"for": zone, "price": price, "accepted": accepted, **({"side": side} if side else {})}

    def span(self, least: str, most: str, called: str) -> list[float] | None:
        ends = [one for one in (self.figure(least, called), self.figure(most, called)) if one is not None]
        if ends != sorted(ends):
            self.problems.append(Trouble(least, words.wrong_way(called)))
            return None
        return [ends[0], ends[-1]] if ends else None

    def figure(self, name: str, called: str) -> float | None:
        """An amount, with or without the sign of a currency and spaces or commas between thousands, or in words."""
        text = self.fields.get(name, "")
        bare = re.sub(r"[£$€\s']|[A-Za-z]{3}(?=\s*\d)|,(?=\d{3}(?!\d))", "", text)
        if not bare:
            return None
        if not re.fullmatch(r"\d{1,8}([.,]\d{1,6})?", bare):
            said = [one for one in money_in(text) if text[one.start : one.end] == text]
            if said and said[0].low == said[0].high:
                return said[0].low
            self.problems.append(Trouble(name, words.no_figure(called, text)))
            return None
        return float(bare.replace(",", "."))

    def whole(self, name: str, called: str) -> int | None:
        text = self.fields.get(name, "")
        if text and not re.fullmatch(r"\d{1,4}", text):
            self.problems.append(Trouble(name, words.no_figure(called, text)))
            return None
        return int(text) if text else None


def _is_day(text: str) -> bool:
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        return False
    return True
