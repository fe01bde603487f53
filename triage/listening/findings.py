"""The marks that a sentence tells of: one, or several where its clauses name different ones."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from triage.knowledge.model import KnowledgeBase
from triage.listening.choosing import MOST_ASKED, Choice, Chosen, at_place, choose, ear, without
from triage.listening.manner import sense_of, side_of
from triage.listening.naming import marks_named, places_named
from triage.listening.parts import Part, by_place, groups_of, joined, with_headings_damped
from triage.listening.sameness import Before, is_again, is_of, is_the_same, was_tightened, with_choice
from triage.listening.scope import without_the_other_side
from triage.listening.statements import Found

SURE = 0.8
"""From which on a mark at its place is proposed by itself, if the words name both (see DEVELOPERS.md)."""

_RIVAL = 0.12
"""How likely another mark that is named must be for it to be asked which one is meant."""

_GUESSED = 0.2
"""How likely the likeliest mark must be for words that name a place and none of the marks there to be asked about."""

_CERTAIN = 0.9
"""From which on a place counts as named that only a common word speaks of ("the bottom")."""

_ANOTHER = 0.5
"""How sure a clause must be of its own mark to tell of another one than its sentence."""

_BESIDE_ASKED = 2
"""Places that the words beside name, of which each is among the candidates."""

_WORTH_ASKING = 0.5
"""How likely a mark that is named must be, beside the last candidate, to be asked for in its stead."""

_BESIDE = 0.35
"""What the rest of a sentence says about the place counts for a clause."""

_THERE = 1.0
"""What the place of the first mark counts for a further clause that names none: "and rusty brown round it"."""


def found_in(
    kb: KnowledgeBase,
    parts: Sequence[Part],
    around: Mapping[str, float],
    before: Before,
    text: str,
    passed: frozenset[str] = frozenset(),
) -> list[Found]:
    """The marks that the clauses of one sentence tell of. ``passed``: the scales by which the same sentence passes a
    part, so that a mark that is a reading of one of them is not meant.
    """
    told: list[Found] = []
    spoken = frozenset(one.zone for one in before.last.choices) if before.last else frozenset()
    for row in by_place(kb, with_headings_damped(kb, parts), spoken, passes=bool(passed)):
        told += _at_one_part(kb, row, around, before if not told else Before(told[-1]), text, passed)
    return told


def _at_one_part(
    kb: KnowledgeBase,
    parts: Sequence[Part],
    around: Mapping[str, float],
    before: Before,
    text: str,
    passed: frozenset[str],
) -> list[Found]:
    groups = groups_of(kb, parts, passes=bool(passed))
    if not groups:
        return []
    every = joined(parts)
    chosen = _choose(kb, every, around)
    if not chosen.pairs:
        return []
    told: list[Found] = []
    if not is_again(kb, chosen, before, every) and not _is_passed(kb, chosen, passed, every):
        lead = _lead(kb, groups, chosen, around, every)
        told.append(_found(kb, *lead, text, around))
    heard = {one.sign for one in (*told, *([before.last] if before.last else ()))}
    if len(groups) > 1:
        beside = {zone: _BESIDE * value for zone, value in ear(kb).zones.scores(every.stems).items()}
        first = {zone: _THERE * sure for zone, sure in chosen.zones[:MOST_ASKED]}
        for number, group in enumerate(groups):
            named = bool(places_named(kb).named(group.subject))
            own = _choose(kb, group, most({**around, **beside}, {} if named else first))
            if told and not named:
                own = _at_the_first(kb, told[0], own, group)
            if own.pairs:
                _add(kb, told, _found(kb, group, own, text, around), own, group, heard, leads=not number)
    return told


def _add(
    kb: KnowledgeBase, told: list[Found], found: Found, own: Chosen, group: Part, heard: set[str], *, leads: bool
) -> None:
    """Adds what a clause tells of to the marks of its sentence: as one more, or as what the first may also be.
    ``leads``: it is the clause in which the first is told of.
    """
    if told and is_the_same(kb, told[0], own):
        told[0] = with_choice(kb, told[0], own.pairs[0])
        heard.add(own.pairs[0].sign)
    elif found.sign not in heard and own.signs[0][0] not in heard and _is_another(kb, group, own, heard):
        if told and leads:  # the first mark is not told of twice: it is one of the two
            less, more = sorted((told[0], found), key=lambda one: one.sure)
            told[0] = with_choice(kb, more, less.choices[0])
        else:
            told.append(found)
        heard.add(found.sign)


def _at_the_first(kb: KnowledgeBase, first: Found, own: Chosen, group: Part) -> Chosen:
    """What a clause that names no place may mean beside the first mark: nothing where it tells more of that one; what
    fits its place, where that is certain; else anything, if it is sure enough.
    """
    if is_of(kb, first, own, group):
        return Chosen((), (), ())
    if not first.clear:
        return own
    there = at_place(own, first.zone)
    return there if there.pairs or not own.pairs or own.pairs[0].sure < SURE else own


def _choose(kb: KnowledgeBase, part: Part, around: Mapping[str, float]) -> Chosen:
    return without(kb, choose(kb, part.stems, around), part.turned)


def _lead(
    kb: KnowledgeBase, groups: Sequence[Part], chosen: Chosen, around: Mapping[str, float], every: Part
) -> tuple[Part, Chosen]:
    """What the first mark is told with: all the clauses, or its own where it and a later one each name their mark."""
    first = groups[0]
    if len(groups) > 1 and all(marks_named(kb).named(group.names) for group in groups):
        beside = {zone: _BESIDE * value for zone, value in ear(kb).zones.scores(every.stems).items()}
        own = _choose(kb, first, most(around, beside))
        if not own.pairs:
            return every, chosen
        named = marks_named(kb).named(first.names)
        best, other = own.pairs[0], chosen.pairs[0].sign
        apart = best.sign != other and not was_tightened(kb, other, best)
        if best.sign in named and own.signs[0][1] >= SURE and apart:
            return first, own
    return every, chosen


def most(one: Mapping[str, float], other: Mapping[str, float]) -> dict[str, float]:
    """For each place the more that either says of it."""
    return {zone: max(one.get(zone, 0.0), other.get(zone, 0.0)) for zone in {**one, **other}}


def is_guess(kb: KnowledgeBase, mark: Found, names: Sequence[str], *, sized: bool) -> bool:
    """Whether the words of a mark hardly speak for it: they name its place alone, and no mark there is likely."""
    if not marks_named(kb).named(names, sized=sized).keys().isdisjoint(one.sign for one in mark.choices):
        return False
    placed = not places_named(kb).named(names).keys().isdisjoint(one.zone for one in mark.choices)
    return placed and mark.sure < _GUESSED


def _is_another(kb: KnowledgeBase, group: Part, own: Chosen, heard: set[str]) -> bool:
    """Whether a clause is sure of a mark of its own, or names marks of which none was heard."""
    named = marks_named(kb).named(group.names)
    return own.signs[0][1] >= _ANOTHER or (bool(named) and heard.isdisjoint(named))


def _is_passed(kb: KnowledgeBase, chosen: Chosen, passed: frozenset[str], part: Part) -> bool:
    """Whether the likeliest mark is one that the sentence passes, and that it does not name beside that."""
    first = chosen.pairs[0]
    named = first.sign in marks_named(kb).named(part.names)
    return not named and not passed.isdisjoint(kb.about(first.zone, first.sign))


def _candidates(kb: KnowledgeBase, part: Part, chosen: Chosen, around: Mapping[str, float]) -> tuple[Choice, ...]:
    """Those that are asked: the likeliest, and among them a mark at the place that the words, or those beside, name,
    and the mark that they name.
    """
    named = places_named(kb).named(part.names)
    likely = dict(chosen.zones)
    asked = list(chosen.pairs[:MOST_ASKED])
    places = [max(named, key=lambda zone: (likely.get(zone, 0.0), zone))] if named else []
    places = places or sorted(around, key=lambda zone: -around[zone])[:_BESIDE_ASKED]
    missing = [chosen.at[zone] for zone in places if zone in chosen.at and all(one.zone != zone for one in asked)]
    marks = marks_named(kb).named(part.names)
    called = {sign for sign, words in marks.items() if words == max(marks.values())}
    if called and called.isdisjoint(one.sign for one in (*asked, *missing)):
        least = _WORTH_ASKING * asked[: MOST_ASKED - len(missing)][-1].sure
        missing += [one for one in chosen.pairs if one.sign in called and one.sure >= least][:1]
    return (*asked[: MOST_ASKED - len(missing)], *missing)


def _found(kb: KnowledgeBase, part: Part, chosen: Chosen, text: str, around: Mapping[str, float]) -> Found:
    first = chosen.pairs[0]
    outright, at_all = (places_named(kb).named(part.names, sized=any_word) for any_word in (False, True))
    names_place = first.zone in outright if outright else bool(at_all) and chosen.zones[0][1] > _CERTAIN
    names_mark = first.sign in marks_named(kb).named(part.names, sized=part.sized)
    clear = (
        names_place and names_mark and first.sure >= SURE and not _has_rival(kb, part, first.sign, dict(chosen.signs))
    )
    start, end = part.tokens[0].start, part.tokens[-1].end
    return Found(
        start,
        end,
        first.sure,
        _candidates(kb, part, chosen, around),
        side_of(kb, without_the_other_side(kb, text[start:end])) if kb.zones[first.zone].sided else "",
        sense_of(kb, [token.word for token in part.tokens]),
        clear,
    )


def _has_rival(kb: KnowledgeBase, part: Part, sign: str, signs: Mapping[str, float]) -> bool:
    """Whether the words name another mark outright, which may be the one that is meant."""
    named = marks_named(kb).named(part.names, sized=part.sized)
    longest = named.get(sign, 0)
    return any(signs.get(one, 0.0) >= _RIVAL and words >= longest for one, words in named.items() if one != sign)
