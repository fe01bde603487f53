"""How people tell a whole story: more of their words, and what splits, denies, passes and measures in them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

Ways = Mapping[str, tuple[str, ...]]
"""Several ways of saying each thing."""

Sizes = Mapping[str, str]
"""Things that people measure by, and the quantity that one of them is taken as, always an estimate."""


@dataclass(frozen=True)
class Scope:
    """What tells a clause that finds from one that denies, passes, did not look or asks.

    ``absent`` and ``undone`` turn a denial into a finding: "no ring", "does not seal"; ``undone`` only after one of
    ``not_doing``; words of ``between`` may stand before either: "not any longer tight". ``alone`` are words that say
    nothing of a mark, and ``directions`` nothing of a place, unless another word of the same phrase stands beside
    them. ``tests`` are what ``people`` did to find out, and no marks. ``praise`` counts after ``praised_after``: "a
    good look" praises nothing; or at the end of a few words, not after ``unpraised``: "boom fine", but not "rig too
    tight". ``told_beside`` are scales whose readings are told after any mark that has them: "and it sounds dull". A
    word of ``points_back`` begins what is said of the mark before: "the biggest is 8 mm", and so does one of
    ``told_again``: "the crack is 3 cm", "patch would be" (``said_of``). A clause with a phrase of ``of_it`` or
    ``shows`` tells more of the mark before: "you can see daylight", "water came out of it". After one of ``likened``
    words only compare: "like stale chips". After one of ``definite`` a thing was told of before, after one of
    ``one_more`` it was not. Words of ``ordinary`` are no slips of words of the trade. A clean result is of the part
    that a word of ``leads_to`` names right after it, or after one of ``everywhere``: "no play in the tiller"; after it
    "the" and a verb of ``stating`` tell of another. What is passed before a word of ``turns`` is not what follows it,
    and after ``partly`` nothing is passed: "three of the bolts are tight but the fourth spins".

    A question begins, after ``hesitations``, with one of ``asked_first`` and one of ``asked_of`` ("can she"), or with
    one of ``asked_by`` and one of ``asked_then`` ("how bad"). In the midst of a clause it begins with a phrase of
    ``asked_amid`` that is not after one of ``asked_on`` ("how far can she"), or is told by a word of ``wishes``, if
    what is asked for is understood, or by a phrase of ``asks_for`` in any case: "please advise whether". What ends in
    one of ``asked_or`` before it belongs to it: "just rust or should I worry".
    """

    breaks: tuple[str, ...] = ()
    together: tuple[str, ...] = ()
    denials: tuple[str, ...] = ()
    denial_ends: tuple[str, ...] = ()
    turns: frozenset[str] = frozenset()
    partly: tuple[str, ...] = ()
    no_denial: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    undone: tuple[str, ...] = ()
    not_doing: frozenset[str] = frozenset()
    between: frozenset[str] = frozenset()
    asides: tuple[str, ...] = ()
    contrasts: tuple[str, ...] = ()
    facing: tuple[str, ...] = ()
    points_back: frozenset[str] = frozenset()
    told_again: frozenset[str] = frozenset()
    said_of: frozenset[str] = frozenset()
    of_it: tuple[str, ...] = ()
    shows: tuple[str, ...] = ()
    likened: tuple[str, ...] = ()
    definite: frozenset[str] = frozenset()
    one_more: frozenset[str] = frozenset()
    ordinary: frozenset[str] = frozenset()
    leads_to: frozenset[str] = frozenset()
    everywhere: frozenset[str] = frozenset()
    stating: frozenset[str] = frozenset()
    alone: frozenset[str] = frozenset()
    not_looked: tuple[str, ...] = ()
    asked_first: frozenset[str] = frozenset()
    asked_of: frozenset[str] = frozenset()
    asked_by: frozenset[str] = frozenset()
    asked_then: frozenset[str] = frozenset()
    asked_amid: tuple[str, ...] = ()
    asked_on: frozenset[str] = frozenset()
    asked_or: frozenset[str] = frozenset()
    wishes: frozenset[str] = frozenset()
    asks_for: tuple[str, ...] = ()
    hesitations: frozenset[str] = frozenset()
    praise: tuple[str, ...] = ()
    praised_after: frozenset[str] = frozenset()
    unpraised: frozenset[str] = frozenset()
    directions: frozenset[str] = frozenset()
    tests: frozenset[str] = frozenset()
    people: frozenset[str] = frozenset()
    told_beside: tuple[str, ...] = ()


@dataclass(frozen=True)
class Dimension:
    """What a figure may be a measure of: the words that tell so, and the scales that it can be a reading of.

    ``scales`` only of a mark that is itself about them; those of ``beside`` of any mark that is judged by them. A
    figure of one of the dimensions of ``of`` is one of this where its words stand in the same clause: "dull for 90 mm
    across". A length in mm from ``unsaid_from`` on is one of this where no word tells what it is; one over ``most`` is
    none, whatever the words say.
    """

    words: tuple[str, ...]
    scales: tuple[str, ...]
    beside: tuple[str, ...] = ()
    of: tuple[str, ...] = ()
    unsaid_from: float = math.inf
    most: float = math.inf


@dataclass(frozen=True)
class Sizing:
    """How figures are taken. ``long_things``, ``thin_things`` and ``wide_things`` are what a thing is where its length,
    its thickness or its breadth is meant.

    ``coins``, ``gallons``, ``pints`` and ``quarts`` go by country; ``countries`` are the words that tell which.
    """

    measures: Mapping[str, Dimension] = field(default_factory=dict)
    before_no_size: tuple[str, ...] = ()
    after_no_size: tuple[str, ...] = ()
    things: Sizes = field(default_factory=dict)
    long_things: Sizes = field(default_factory=dict)
    thin_things: Sizes = field(default_factory=dict)
    wide_things: Sizes = field(default_factory=dict)
    vessels: Sizes = field(default_factory=dict)
    coins: Mapping[str, Sizes] = field(default_factory=dict)
    gallons: Sizes = field(default_factory=dict)
    pints: Sizes = field(default_factory=dict)
    quarts: Sizes = field(default_factory=dict)
    countries: Ways = field(default_factory=dict)


COMMANDS = ("back", "delete", "skip", "why", "how", "other", "marks", "new", "finish")
"""What can be asked of a conversation in words, at any prompt."""


@dataclass(frozen=True)
class Replies:
    """How people answer, correct themselves and command. A word of ``corrects`` takes back what was said before; one
    of ``opens`` may stand beside any answer and says nothing, but what is also in ``apart`` ("a bit", "from") tells
    answers apart; what follows ``instead`` ("not 5") is not meant any more.
    """

    commands: Ways = field(default_factory=dict)
    corrects: tuple[str, ...] = ()
    opens: tuple[str, ...] = ()
    apart: frozenset[str] = frozenset()
    instead: tuple[str, ...] = ()
    other_side: tuple[str, ...] = ()
    agrees: tuple[str, ...] = ()
    disagrees: tuple[str, ...] = ()


@dataclass(frozen=True)
class Speech:
    """Words for whole stories. ``complaints`` are whole sentences, by place and mark; ``passes``, by scale, words that
    are a reading of it at its best; ``observations``, by scale and answer, how people answer so when it is asked about;
    ``facts``, by fact and value.
    """

    zones: Ways = field(default_factory=dict)
    signs: Ways = field(default_factory=dict)
    events: Ways = field(default_factory=dict)
    complaints: Mapping[str, Ways] = field(default_factory=dict)
    observations: Mapping[str, Ways] = field(default_factory=dict)
    scope: Scope = field(default_factory=Scope)
    sizing: Sizing = field(default_factory=Sizing)
    sides: Ways = field(default_factory=dict)
    senses: Ways = field(default_factory=dict)
    passes: Ways = field(default_factory=dict)
    spelling: Mapping[str, str] = field(default_factory=dict)
    variants: Mapping[str, str] = field(default_factory=dict)
    questions: Ways = field(default_factory=dict)
    question_words: Ways = field(default_factory=dict)
    question_begins: Ways = field(default_factory=dict)
    facts: Mapping[str, Ways] = field(default_factory=dict)
    replies: Replies = field(default_factory=Replies)
