"""What is known of buying: how a purchase is judged, what gear and risk come to, and what to ask and look at first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from triage.errors import Place
from triage.knowledge.model.repair import Span
from triage.knowledge.model.scale import NOWHERE, Basis

if TYPE_CHECKING:
    from triage.knowledge.model.base import KnowledgeBase

PURCHASE, OFFER = "purchase", "offer"
"""The one place and the one mark that rules of buying judge."""

DECISION = "decision"


@dataclass(frozen=True)
class Figure:
    """One figure, or several, that the sums of a purchase need, and what it means."""

    id: str
    values: tuple[float, ...]
    say: str
    basis: Basis
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Gear:
    """Something that belongs to a boat: what it costs to replace where it is ``missing`` or ``spent``.

    ``complete``: a boat that is called complete has it; else it is worth so much more where it comes with her. Its age
    is asked for where ``asks_age``; after ``spent_after`` years (0: whatever its age) it is counted as spent. ``told``
    is what an advert calls it, ``means`` what it is in plain words; a new one mends all damage ``at`` these places.
    """

    id: str
    name: str
    missing: Span
    spent: Span
    complete: bool
    note: str
    basis: Basis
    asks_age: bool = False
    spent_after: int = 0
    told: tuple[str, ...] = ()
    at: tuple[str, ...] = ()
    means: str = ""
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class SaleSign:
    """Something noticed about the sale and not about the boat; ``counts`` for this observed scale, or, where that is
    empty, for nothing; ``asks`` the seller about it; ``damage``: its words may tell of damage, too.

    ``heard`` are other words for it in an offer file, ``told`` those by which it is heard in a story; so are the words
    of ``together``, one of each row.
    """

    id: str
    say: str
    heard: tuple[str, ...]
    told: tuple[str, ...]
    counts: str
    basis: Basis
    together: tuple[tuple[str, ...], ...] = ()
    place: Place = field(default=NOWHERE, compare=False)
    asks: str = ""
    damage: bool = False


@dataclass(frozen=True)
class Ask:
    """A question to a seller; ``unless`` the buyer knows that already, by the name of what the offer says."""

    say: str
    unless: Literal["", "number", "ages", "afloat"] = ""


@dataclass(frozen=True)
class SettingUp:
    """What has to be done once before the places of a leg can be reached: in words, and in minutes."""

    say: str
    minutes: float
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Afloat:
    """How a boat is viewed that lies in the water, and by which words that is known.

    ``heard`` are words in what is said of where she lives, ``told`` ways in which an advert says so; the legs of the
    walk that are ``beyond`` reach are not planned, and where one ``stands`` for the others is otherwise.
    """

    say: str
    heard: tuple[str, ...]
    told: tuple[str, ...]
    beyond: tuple[str, ...]
    stands: Mapping[str, str]
    asks: tuple[str, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True)
class Viewing:
    """For the evening before: what to ask the seller, what to bring, what photographs show and what they hide.

    ``setting_up`` is by leg of the walk.
    """

    asks: tuple[Ask, ...]
    bring: tuple[str, ...]
    photos_show: tuple[str, ...]
    photos_hide: tuple[str, ...]
    basis: Basis
    setting_up: Mapping[str, SettingUp] = field(default_factory=dict)
    afloat: Afloat | None = None


@dataclass(frozen=True)
class AdvertWords:
    """The words of an advert.

    ``money`` are those beside an amount, by what it then is: a figure of the offer, or "other". Those of ``built``,
    ``number`` and ``lives`` stand before what they tell; ``without`` and ``worn`` beside gear.
    """

    money: Mapping[str, tuple[str, ...]]
    built: tuple[str, ...]
    number: tuple[str, ...]
    lives: tuple[str, ...]
    without: tuple[str, ...]
    worn: tuple[str, ...]
    basis: Basis


@dataclass(frozen=True)
class Purchase:
    """All of it. ``judging`` is a knowledge base of its own: observed scales that are computed from an assessment and
    an offer, and rules that raise the decision from them; the engines and the solver treat it as any other.
    """

    judging: KnowledgeBase | None = None
    figures: Mapping[str, Figure] = field(default_factory=dict)
    gear: Mapping[str, Gear] = field(default_factory=dict)
    sale: Mapping[str, SaleSign] = field(default_factory=dict)
    viewing: Viewing | None = None
    advert: AdvertWords | None = None

    def spoken(self) -> Iterator[str]:
        """Every way of telling of a sale, and of an advert, by which something is heard."""
        yield from (way for sign in self.sale.values() for ways in (sign.told, *sign.together) for way in ways)
        yield from (way for gear in self.gear.values() for way in gear.told)
        yield from self.viewing.afloat.told if self.viewing and self.viewing.afloat else ()
        if (words := self.advert) is not None:
            told = (*words.money.values(), words.built, words.number, words.lives, words.without, words.worn)
            yield from (way for ways in told for way in ways)

    def bases(self) -> Iterator[Basis]:
        """Where everything that says so comes from."""
        if self.judging:
            yield from (rule.basis for rule in self.judging.rules)
            yield from (scale.basis for scale in self.judging.scales.values() if scale.basis)
        for known in (self.figures, self.gear, self.sale):
            yield from (one.basis for one in known.values())
        yield from (one.basis for one in (self.viewing, self.advert) if one)
