"""The clauses of a sentence by the words in which they find something, and which of them belong together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest

from triage.knowledge.model import KnowledgeBase
from triage.listening.choosing import Weighed, ear
from triage.listening.clauses import matches, phrases
from triage.listening.figures import Figure
from triage.listening.naming import marks_named, places_named
from triage.listening.phrase_matcher import stem
from triage.listening.scope import Scoped
from triage.listening.statements import Statement, Time, Told
from triage.listening.tokens import Token

WET = ("L", "L/h")
"""Figures that speak of water, whatever else is said."""

_FEW = 2
"""Words that say something, up to which what stands beside an event tells of nothing else: "wires renewed in May"."""

_ASIDE, _DAMPED, _DONE = 4, 0.6, 0.4
"""Words after "near" that tell where the place lies, what they count, and what "pushed" in "I pushed" is worth."""

_ON_IT = 2
"""Words after what was done among which it is said to what: "pulled on it"."""

_WHOLE_COMPLAINT, _SHORT_COMPLAINT, _FEWEST = 1.1, 1.4, 4
"""How like a whole complaint words must be, few of them more so, to tell of a mark that they do not name."""


@dataclass(frozen=True)
class Part:
    """Some clauses of a sentence that find something, as the words in which they do.

    ``sized``: a figure is among them; ``wet``: so many litres; ``happened``: an event is; ``more``: they tell more of
    the mark before. ``turned``: the scales by which what follows says that all is well: "worn but turning".
    """

    tokens: tuple[Token, ...]
    stems: Weighed
    sized: bool = False
    wet: bool = False
    happened: bool = False
    more: bool = False
    turned: frozenset[str] = frozenset()

    @property
    def names(self) -> tuple[str, ...]:
        """The stems that can name a mark or a place: what somebody did to find out names none."""
        return tuple(stem for stem, weight in self.stems if weight > _DONE)

    @property
    def subject(self) -> tuple[str, ...]:
        """The stems that do more than tell where the place lies."""
        return tuple(stem for stem, weight in self.stems if weight > _DAMPED)


def asides(kb: KnowledgeBase, words: Sequence[str]) -> set[int]:
    """Where words stand that only tell where a place lies: "near the keel"."""
    return {
        at
        for start, said in matches(phrases(kb, "asides"), words)
        for at in range(start + len(said), start + len(said) + _ASIDE)
    }


def likened(kb: KnowledgeBase, words: Sequence[str]) -> set[int]:
    """Where words stand that only compare: "a noise like stale chips", but not "it looks like a crack"."""
    scope = kb.lexicon.speech.scope
    return {
        at
        for start, said in matches(phrases(kb, "likened"), words)
        if start and words[start - 1] not in scope.praised_after
        for at in range(start + len(said), start + len(said) + _ASIDE)
    }


def standing(
    kb: KnowledgeBase,
    clause: Scoped,
    told: Sequence[Told] = (),
    figures: Sequence[Figure] = (),
    times: Sequence[Time] = (),
) -> Part:
    """The words of a clause that say what is there; where they only tell where the place lies they count for less, and
    those that tell when ("in spring") name nothing.
    """
    words = clause.clause.words
    damped = asides(kb, words)
    scope = kb.lexicon.speech.scope
    done = {
        at
        for at, word in enumerate(words)
        if word in scope.tests
        and (
            not scope.people.isdisjoint(words[max(0, at - 2) : at])
            or (at == 0 and (clause.passing or not scope.points_back.isdisjoint(words[1 : 1 + _ON_IT])))
        )
    }
    events = {
        at
        for at, token in enumerate(clause.clause.tokens)
        if any(token.start in event.words and not event.done for event in told)
        and not places_named(kb).named([token.stem])  # "clipped the bow on a buoy, and it cracked"
    }
    compared = likened(kb, words)
    when = {at for at, token in enumerate(clause.clause.tokens) if _within(token, times)}
    kept = [
        (token, _DONE if place in done | events | when | compared else _DAMPED if place in damped else 1.0)
        for place, token in enumerate(clause.clause.tokens)
        if clause.stands(place)
    ]
    wet = any(figure.unit in WET for figure in figures)
    said = [(token.stem, weight) for token, weight in kept if token.word not in kb.lexicon.ignored]
    if wet:
        said.append((stem("water"), 1.0))
    return Part(tuple(token for token, _ in kept), tuple(said), bool(figures), wet, bool(events))


def only_done(kb: KnowledgeBase, part: Part, told: Sequence[Told], times: Sequence[Time]) -> bool:
    """Whether the words only say what somebody did to her: "I tightened the shrouds today" is no mark found."""
    done = [event for event in told if event.done]
    told_by = frozenset().union(*(event.words for event in done))
    if part.sized or not any(token.start in told_by for token in part.tokens):
        return False
    rest = [token for token in part.tokens if token.start not in told_by and not _within(token, times)]
    by_somebody = not kb.lexicon.speech.scope.people.isdisjoint(token.word for token in part.tokens)
    said = sum(token.word not in kb.lexicon.ignored for token in rest)
    return (by_somebody or said <= _FEW) and not marks_named(kb).named(token.stem for token in rest)


def _within(token: Token, spans: Sequence[Statement]) -> bool:
    return any(one.start <= token.start < one.end for one in spans)


def tells_of_a_mark(kb: KnowledgeBase, part: Part, *, passes: bool = False) -> bool:
    """Whether the words name a mark, or, where nothing ``passes``, are much like a whole complaint."""
    if part.more:
        return False
    if part.wet or marks_named(kb).named(part.names, sized=part.sized):
        return True
    if passes or part.happened or places_named(kb).all_told(part.names):
        return False
    least = _WHOLE_COMPLAINT if len(part.stems) >= _FEWEST else _SHORT_COMPLAINT
    return max(ear(kb).whole.scores(part.stems).values(), default=0.0) >= least


def by_place(kb: KnowledgeBase, parts: Sequence[Part], spoken: frozenset[str], *, passes: bool) -> list[list[Part]]:
    """Rows of clauses that each speak of one part of the boat: another row begins with a mark that is told of at
    another place. ``spoken``: where the mark before them may be, which a first clause that names no place speaks of.
    """
    rows: list[list[Part]] = [[]]
    places: frozenset[str] = frozenset()
    for part in parts:
        if tells_of_a_mark(kb, part, passes=passes):
            named = _most_named(kb, part)
            if named and places and named.isdisjoint(places) and not _says_on(part):
                rows.append([])
            places = named or places or spoken
        rows[-1].append(part)
    return rows


def _says_on(part: Part) -> bool:
    """Whether the words only say more of what the clause before is about: "… is torn and flapping on one side"."""
    first, second = [*(token.word for token in part.tokens[:2]), "", ""][:2]
    return first == "and" and second.endswith("ing")


def _most_named(kb: KnowledgeBase, part: Part) -> frozenset[str]:
    """The places that the words name most fully: the "side deck" is no other deck."""
    named = places_named(kb).named(part.subject)
    return frozenset(zone for zone, words in named.items() if words == max(named.values()))


def groups_of(kb: KnowledgeBase, parts: Sequence[Part], *, passes: bool) -> list[Part]:
    """Clauses that tell of a mark, each with what follows it."""
    groups: list[list[Part]] = []
    lead: list[Part] = []
    for part in parts:
        if tells_of_a_mark(kb, part, passes=passes):
            groups.append([*lead, part] if not groups else [part])
        elif groups:
            groups[-1].append(part)
        else:
            lead.append(part)
    if not groups and lead and not any(part.more for part in lead) and tells_of_a_mark(kb, joined(lead), passes=passes):
        groups = [lead]
    return [joined(group) for group in groups]


def with_headings_damped(kb: KnowledgeBase, parts: Sequence[Part]) -> list[Part]:
    """With less said by a clause that only names a place, where the next names another: "rigging: the chainplate …"."""
    return [
        replace(part, stems=tuple((one, _DONE * weight) for one, weight in part.stems))
        if then and places_named(kb).all_told(part.names) and _elsewhere(kb, part, then)
        else part
        for part, then in zip_longest(parts, parts[1:])
    ]


def _elsewhere(kb: KnowledgeBase, part: Part, other: Part) -> bool:
    here, there = _most_named(kb, part), _most_named(kb, other)
    return bool(here and there) and here.isdisjoint(there)


def joined(parts: Sequence[Part]) -> Part:
    """Several clauses as one."""
    return Part(
        tuple(token for part in parts for token in part.tokens),
        tuple(one for part in parts for one in part.stems),
        any(part.sized for part in parts),
        any(part.wet for part in parts),
        any(part.happened for part in parts),
        turned=frozenset().union(*(part.turned for part in parts)),
    )
