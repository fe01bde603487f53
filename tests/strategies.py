"""Every hypothesis strategy: random surveys of a given knowledge base, and random small knowledge bases."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import combinations
from typing import Any as Anything

from hypothesis import strategies as st

from triage.causes.noisy_or import Effect, Network, Posterior
from triage.errors import Place
from triage.knowledge.model import (
    BUOYANCY,
    NOTHING_SEEN,
    OUTCOMES,
    ROLES,
    Advice,
    Basis,
    Cap,
    Fact,
    Group,
    KnowledgeBase,
    Leg,
    Level,
    Observation,
    Presumption,
    Rule,
    Scale,
    Sign,
    Suspect,
    Zone,
)
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is, Where
from triage.survey.model import Boat, Finding, Reading

NOWHERE = Place("a test")
BASIS = Basis("estimate")


def boats(kb: KnowledgeBase) -> st.SearchStrategy[Boat]:
    """A boat of which some facts are known, and some were sought in vain."""
    asked = {(fact.id, ""): list(fact.values) for fact in kb.facts.values()}
    asked |= {(BUOYANCY, zone.id): ["yes", "no"] for zone in kb.zones.values() if zone.encloses_buoyancy == "varies"}
    answers = {key: st.sampled_from([*values, IN_VAIN]) for key, values in asked.items()}
    return st.fixed_dictionaries({}, optional=answers).map(_boat)


IN_VAIN = "in vain"


def _boat(answers: Mapping[tuple[str, str], str]) -> Boat:
    """A boat of which these facts were told, or tried to be."""
    told = {key: value for key, value in answers.items() if value != IN_VAIN}
    return Boat(
        "Wagtail",
        {fact: value for (fact, zone), value in told.items() if not zone},
        encloses_buoyancy={zone: value for (_, zone), value in told.items() if zone},
        attempted=frozenset(key for key, value in answers.items() if value == IN_VAIN),
    )


@st.composite
def findings(
    draw: st.DrawFn,
    kb: KnowledgeBase,
    *,
    complete: bool = False,
    id: str = "f",  # noqa: A002
    zones: Sequence[str] = (),
) -> Finding:
    """One finding as a survey may tell it, with some of its scales answered (all of them when ``complete``).

    In one of these ``zones``, or anywhere.
    """
    zone = draw(st.sampled_from([zone for zone in zones or kb.zones if kb.offers[zone]]))
    sign = draw(st.sampled_from(kb.offers[zone]))
    readings = {}
    for scale in kb.applicable(zone, sign):
        answers: list[Anything] = list(range(kb.best(sign, scale), kb.worst(sign, scale) + 1))
        level = draw(st.sampled_from(answers if complete else [None, "tried", *answers]))
        if level == "tried":
            readings[scale] = Reading.attempted()
        elif level is not None:
            most = level if complete else draw(st.sampled_from([level, level, *answers[answers.index(level) :]]))
            readings[scale] = Reading.at(level) if most == level else Reading(level, most, f"{level} to {most}")
    side = draw(st.sampled_from([None, "port", "starboard"])) if kb.zones[zone].sided else None
    return Finding(id, zone, sign, side, readings)


@st.composite
def passed_findings(draw: st.DrawFn, kb: KnowledgeBase, *, id: str = "passed") -> Finding:  # noqa: A002
    """One finding of which every scale was answered as mildly as its sign allows."""
    zone = draw(st.sampled_from([zone for zone in kb.zones if kb.offers[zone]]))
    sign = draw(st.sampled_from(kb.offers[zone]))
    mildest = {scale: kb.best(sign, scale) for scale in kb.applicable(zone, sign)}
    side = draw(st.sampled_from([None, "port", "starboard"])) if kb.zones[zone].sided else None
    return Finding(id, zone, sign, side, {scale: Reading.at(level) for scale, level in mildest.items()})


@st.composite
def boats_with_findings(
    draw: st.DrawFn, kb: KnowledgeBase, *, most: int = 5, complete: bool = False
) -> tuple[Boat, tuple[Finding, ...]]:
    """A boat and one to ``most`` findings on it."""
    count = draw(st.integers(1, most))
    found = _on_one_boat(kb, [draw(findings(kb, complete=complete, id=f"f{number}")) for number in range(count)])
    return _fitting(kb, draw(boats(kb)), found), found


@st.composite
def boats_with_marks_together(draw: st.DrawFn, kb: KnowledgeBase, *, most: int = 5) -> tuple[Boat, tuple[Finding, ...]]:
    """A boat and two to ``most`` findings at one place and the places beside it, where they may be one damage."""
    zone = draw(st.sampled_from([zone for zone in kb.zones if kb.offers[zone]]))
    around = (zone, zone, *kb.zones[zone].neighbours)
    count = draw(st.integers(2, most))
    found = _on_one_boat(kb, [draw(findings(kb, id=f"f{number}", zones=around)) for number in range(count)])
    return _fitting(kb, draw(boats(kb)), found), found


def _on_one_boat(kb: KnowledgeBase, found: Sequence[Finding]) -> tuple[Finding, ...]:
    """Those that one boat can have together: where two places rule each other out, what was drawn first stays."""
    built: dict[str, str] = {}
    kept = []
    for one in found:
        needed = kb.zones[one.zone].only_if
        if all(built.get(fact, value) == value for fact, value in needed.items()):
            built |= needed
            kept.append(one)
    return tuple(kept)


def _fitting(kb: KnowledgeBase, boat: Boat, found: Sequence[Finding]) -> Boat:
    """The boat without the facts by which she could not have the places of these findings."""
    needed = {fact: value for one in found for fact, value in kb.zones[one.zone].only_if.items()}
    facts = {fact: value for fact, value in boat.facts.items() if needed.get(fact, value) == value}
    return replace(boat, facts=facts)


ZONES = ("bow", "deck", "step", "tank")
SIGNS = ("line", "web", "loose")
OBSERVED = ("gap", "give", "sound", "play")
RAISED = ("glass", "hold", "water")
WHERES: tuple[Where, ...] = ("anywhere", "twin", "same side")
WORDS: list[list[Condition]] = [
    [Is(word, some) for size in range(1, len(values) + 1) for some in combinations(values, size)]
    for word, values in {
        "zone": ZONES,
        "sign": SIGNS,
        "criticality": ("primary", "secondary", "none"),
        "load": ("rig", "crew", "none"),
        "group": ("wet", "all"),
        "below_water": ("no", "yes"),
        "encloses_buoyancy": ("no", "yes"),
        "side": ("port", "starboard"),
        "deck": ("single", "cored"),
    }.items()
]


@st.composite
def knowledge_bases(draw: st.DrawFn, *, rules: int = 12, presumptions: int = 5) -> KnowledgeBase:
    """A small base with every construct of the rule language, and at most so many rules and presumptions.

    What fails with few of them is shrunk in seconds; with many it takes minutes.
    """
    scales = {name: _scale(name, draw(st.integers(2, 4)), observed=True) for name in OBSERVED}
    scales |= {name: _scale(name, 4, observed=False) for name in (*RAISED, *OUTCOMES)}
    groups = {"wet": Group("wet", "wet", tuple(draw(st.sets(st.sampled_from(ZONES))))), "all": Group("all", "", ZONES)}
    zones = {name: draw(_zones(name, order, groups)) for order, name in enumerate(ZONES)}
    signs = {name: draw(_signs(name, scales)) for name in (*SIGNS, NOTHING_SEEN)}
    facts = {"deck": Fact("deck", "How?", {"single": "", "cored": ""}, "")}
    some = tuple(draw(_rules(scales, order)) for order in range(draw(st.integers(0, rules))))
    presuming = tuple(draw(_presumptions(scales, 100 + order)) for order in range(draw(st.integers(0, presumptions))))
    return KnowledgeBase(
        facts=facts,
        groups=groups,
        walk=(Leg("round", "Round", "", ZONES),),
        zones=zones,
        signs=signs,
        scales=scales,
        checks={},
        rules=some,
        presumptions=presuming,
        sources={},
        offers=dict.fromkeys(ZONES, (*SIGNS, NOTHING_SEEN)),
    )


def _scale(name: str, levels: int, *, observed: bool) -> Scale:
    roles = dict(enumerate(ROLES.get(name, ())[: levels - 1]))
    roles |= {levels - 1: ROLES[name][-1]} if name in ROLES else {}
    return Scale(
        name,
        name,
        observed,
        tuple(_level(name, n, roles.get(n, ""), observed=observed) for n in range(levels)),
    )


def _level(scale: str, number: int, role: str, *, observed: bool) -> Level:
    words = f"{scale} is {number}"
    if observed:
        return Level(f"l{number}", role=role, observations=(Observation(words),))
    return Level(f"l{number}", words, role=role)


@st.composite
def _zones(draw: st.DrawFn, name: str, order: int, groups: dict[str, Group]) -> Zone:
    ways = draw(st.lists(st.lists(st.sampled_from(OBSERVED), min_size=1, max_size=2), min_size=1, max_size=2))
    return Zone(
        id=name,
        name=name,
        trade=name,
        leg="round",
        order=order,
        load=draw(st.sampled_from(["rig", "crew", "none"])),
        criticality=draw(st.sampled_from(["primary", "secondary", "none"])),
        below_water=draw(st.sampled_from(["no", "yes"])),
        encloses_buoyancy=draw(st.sampled_from(["no", "varies", "yes"])),
        sided=draw(st.booleans()),
        neighbours=(),
        groups=tuple(group.id for group in groups.values() if name in group.zones),
        reached="",
        trouble="",
        compare="",
        passed_by=tuple(tuple(way) for way in ways),
        how_passed="",
        also_open=tuple(draw(st.sets(st.sampled_from(OBSERVED), max_size=2))),
        named_checks=draw(st.booleans()),
    )


@st.composite
def _signs(draw: st.DrawFn, name: str, scales: dict[str, Scale]) -> Sign:
    own = tuple(draw(st.sets(st.sampled_from(OBSERVED))))
    capped = draw(st.sets(st.sampled_from(own))) if own else set()
    caps = {scale: Cap(draw(st.integers(0, scales[scale].top)), "web") for scale in sorted(capped)}
    shown = draw(st.sets(st.sampled_from(own), max_size=1)) if own else set()
    worst = {scale: caps[scale].level if scale in caps else scales[scale].top for scale in shown}
    return Sign(
        id=name,
        name=name,
        picture="",
        not_this="",
        scales=own,
        about=tuple(draw(st.sets(st.sampled_from(OBSERVED), max_size=1))),
        about_in={},
        scales_in={},
        caps=caps,
        least={scale: draw(st.integers(0, most)) for scale, most in worst.items()},
        above_zero=(),
        named_checks=draw(st.sampled_from(["all", "first", "none"])),
        also_named=tuple(draw(st.sets(st.sampled_from(OBSERVED), max_size=1))),
        harmless="",
    )


def _condition(draw: st.DrawFn, levels: Sequence[Condition], *, elsewhere: bool, depth: int = 2) -> Condition:
    """A condition over ``levels`` and words, drawn branch by branch: far quicker than a strategy of all conditions."""
    kinds = ["word", "level", "level", *(["elsewhere"] if elsewhere else []), *(["all", "any"] if depth else [])]
    match draw(st.sampled_from(kinds)):
        case "word":
            return draw(st.sampled_from(draw(st.sampled_from(WORDS))))
        case "level":
            return draw(st.sampled_from(levels))
        case "elsewhere":
            inner = _condition(draw, levels, elsewhere=False, depth=1)
            return Elsewhere(inner, draw(st.integers(1, 2)), draw(st.sampled_from(WHERES)))
        case joined:
            some = [
                _condition(draw, levels, elsewhere=elsewhere, depth=depth - 1) for _ in range(draw(st.integers(1, 3)))
            ]
            return All(tuple(some)) if joined == "all" else Any(tuple(some))


@st.composite
def _rules(draw: st.DrawFn, scales: dict[str, Scale], order: int) -> Rule:
    """A rule that raises one scale or two, only because of scales before them, so that no scale_cycle can arise."""
    ladder = (*OBSERVED, *RAISED, *OUTCOMES)
    raised = draw(st.lists(st.sampled_from((*RAISED, *OUTCOMES)), min_size=1, max_size=2, unique=True))
    readable = ladder[: min(map(ladder.index, raised))]
    levels = [AtLeast(scale, level) for scale in readable for level in range(1, scales[scale].top + 1)]
    when = _condition(draw, levels, elsewhere=True)
    effects = tuple((scale, draw(st.integers(1, scales[scale].top))) for scale in raised)
    suspects: tuple[Suspect, ...] = ()
    advises = tuple(draw(st.lists(st.sampled_from(ADVICE), max_size=1)))
    if draw(st.integers(0, 3)) == 3:  # only towards later places, so that no suspicion can lead back to itself
        first = draw(st.integers(1, len(ZONES) - 1))
        when = All((Is("zone", ZONES[:first]), when))
        suspects = (Suspect(draw(st.sampled_from(ZONES[first:])), draw(st.sampled_from(SIGNS))),)
    return Rule(f"r/{order}", order, when, "because", BASIS, NOWHERE, effects, suspects, advises)


ADVICE = (Advice("caution", "Mind your fingers."), Advice("recheck", "Look again in spring."))


def shown(kb: KnowledgeBase) -> str:
    """The rules and presumptions of a small base, each in a line; for a failing example, whose places are as ever."""
    raising = [f"{rule.id}: {rule.when} raises {dict(rule.raises)}" for rule in kb.rules]
    return "\n".join([*raising, *(f"{one.id}: {one.when} presumes {dict(one.presumes)}" for one in kb.presumptions)])


@st.composite
def _presumptions(draw: st.DrawFn, scales: dict[str, Scale], order: int) -> Presumption:
    levels = [AtMost(scale, level) for scale in OBSERVED for level in range(scales[scale].top)]
    when = _condition(draw, levels, elsewhere=False)
    some = draw(st.sets(st.sampled_from(OBSERVED), min_size=1, max_size=3))
    presumes = tuple((scale, draw(st.integers(0, scales[scale].top - 1))) for scale in sorted(some))
    return Presumption(f"p/{order}", order, when, "because", BASIS, NOWHERE, presumes)


def texts(most: int = 20) -> st.SearchStrategy[str]:
    """Any characters that can stand in a text file, line ends left out."""
    letters = st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp"], exclude_characters="\ufeff\ufffe\uffff")
    return st.text(letters, max_size=most)


def plain_values() -> st.SearchStrategy[Anything]:
    """What JSON can say, truth and falsehood left out: here they are words."""
    whole = st.integers(-(10**14), 10**14)
    halves = whole.map(lambda number: number % 10**6 / 2)
    inside = st.recursive(
        st.one_of(st.none(), whole, halves, texts()),
        lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(texts(), inner, max_size=4)),
        max_leaves=8,
    )
    return st.one_of(st.lists(inside), st.dictionaries(texts(), inside))


@st.composite
def spoilt(draw: st.DrawFn, valid: Anything) -> Anything:
    """A valid JSON-like value after a few things went wrong with it: a value, a key, a stratum, a line."""
    value = valid
    for _ in range(draw(st.integers(1, 4))):
        value = _spoil(draw, value)
    return value


def _spoil(draw: st.DrawFn, value: Anything) -> Anything:
    """Go down to a random place and spoil what stands there."""
    if isinstance(value, dict) and value and draw(st.integers(0, 4)):
        key = draw(st.sampled_from(sorted(value)))
        if not draw(st.integers(0, 5)):
            name = draw(st.one_of(st.sampled_from(WEIRD_WORDS), texts()))
            return {name if key == k else k: v for k, v in value.items()}
        return value | {key: _spoil(draw, value[key])}
    if isinstance(value, list) and value and draw(st.integers(0, 4)):
        place = draw(st.integers(0, len(value) - 1))
        return [_spoil(draw, one) if place == index else one for index, one in enumerate(value)]
    kind = draw(st.sampled_from(["weird", "plain", "wrapped", "doubled", "gone"]))
    if kind == "wrapped":
        return draw(st.sampled_from([[value], {"zone": value}, [[[[value]]]]]))
    if kind == "doubled" and isinstance(value, list):
        return value + value
    if kind == "gone":
        return None
    return draw(plain_values()) if kind == "plain" else draw(st.sampled_from(WEIRD_WORDS))


WEIRD_WORDS = (
    *("", " ", "?", "unknown", "could not tell", "no", "yes", "port", "stem", "hairline", "on", "<<", "&a", "*a"),
    *("0", "-1", "99", "1e999", "1" * 400, "-0 mm", "999999999 m", "1/999 inch", "1/0 mm", "½ ft", "٣ mm", "5 mm/h/h"),
    *("0000-00-00", "9999-12-31", "2026-02-30", "٢٠٢٦-٠٤-١١", "!!x", "---", "nothing_seen", "\u202e", "ﬁrm", "İ"),
)
"""What people, phones and programs have been seen to write where something else was meant."""


@st.composite
def noisy_or_networks(draw: st.DrawFn) -> Posterior[str]:
    """A small network in the light of evidence that can be."""
    fractions = st.floats(0.01, 0.99)
    causes = [f"c{number}" for number in range(draw(st.integers(1, 6)))]
    effects = {}
    for number in range(draw(st.integers(1, 7))):
        parents = draw(st.lists(st.sampled_from(causes), min_size=1, max_size=4, unique=True))
        effects[f"e{number}"] = Effect({cause: draw(fractions) for cause in parents}, draw(st.floats(0.01, 0.5)))
    seen = {name: draw(st.sampled_from(["found", "missing", "not looked for"])) for name in effects}
    found = [name for name, how in seen.items() if how == "found"]
    return Posterior(
        network=Network({cause: draw(fractions) for cause in causes}, effects),
        found=found,
        missing=[name for name, how in seen.items() if how == "missing"],
        ratios=draw(st.dictionaries(st.sampled_from(causes), st.floats(0.0, 20.0))),
        otherwise=draw(st.dictionaries(st.sampled_from(found), st.floats(0.0, 0.9))) if found else {},
    )
