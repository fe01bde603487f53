"""Every hypothesis strategy: random surveys of a given knowledge base, and random small knowledge bases."""

from __future__ import annotations

from typing import Any as Anything

from hypothesis import strategies as st

from triage.errors import Place
from triage.knowledge.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is, Where
from triage.knowledge.model import (
    NOTHING_SEEN,
    OUTCOMES,
    Basis,
    Cap,
    Fact,
    Group,
    KnowledgeBase,
    Leg,
    Level,
    Presumption,
    Rule,
    Scale,
    Sign,
    Zone,
)
from triage.survey.model import Boat, Finding, Reading

NOWHERE = Place("a test")
BASIS = Basis("estimate")


def boats(kb: KnowledgeBase) -> st.SearchStrategy[Boat]:
    """A boat of which some facts are known."""
    facts = st.fixed_dictionaries({}, optional={f.id: st.sampled_from(list(f.values)) for f in kb.facts.values()})
    varying = [zone.id for zone in kb.zones.values() if zone.encloses_buoyancy == "varies"]
    buoyant = st.dictionaries(st.sampled_from(varying), st.sampled_from(["yes", "no"])) if varying else st.just({})
    return st.builds(Boat, name=st.just("Wagtail"), facts=facts, encloses_buoyancy=buoyant)


@st.composite
def findings(draw: st.DrawFn, kb: KnowledgeBase, *, complete: bool = False, id: str = "f") -> Finding:  # noqa: A002
    """One finding that can be met, with some of its scales answered (all of them when ``complete``)."""
    zone = draw(st.sampled_from([zone for zone in kb.zones if kb.offers[zone]]))
    sign = draw(st.sampled_from(kb.offers[zone]))
    readings = {}
    for scale in kb.applicable(zone, sign):
        answers: list[Anything] = list(range(kb.worst(sign, scale) + 1))
        level = draw(st.sampled_from(answers if complete else [None, "tried", *answers]))
        if level == "tried":
            readings[scale] = Reading(None, "could not tell")
        elif level is not None:
            readings[scale] = Reading(level, str(level))
    side = draw(st.sampled_from([None, "port", "starboard"])) if kb.zones[zone].sided else None
    return Finding(id, zone, sign, side, readings)


@st.composite
def boats_with_findings(
    draw: st.DrawFn, kb: KnowledgeBase, *, most: int = 5, complete: bool = False
) -> tuple[Boat, tuple[Finding, ...]]:
    """A boat and one to ``most`` findings on it."""
    count = draw(st.integers(1, most))
    found = tuple(draw(findings(kb, complete=complete, id=f"f{number}")) for number in range(count))
    return draw(boats(kb)), found


ZONES = ("bow", "deck", "step", "tank")
SIGNS = ("line", "web", "loose")
OBSERVED = ("gap", "give", "sound", "play")
RAISED = ("glass", "hold", "water")


@st.composite
def knowledge_bases(draw: st.DrawFn) -> KnowledgeBase:
    """A small base with every construct of the rule language."""
    scales = {name: _scale(name, draw(st.integers(2, 4)), observed=True) for name in OBSERVED}
    scales |= {name: _scale(name, 4, observed=False) for name in (*RAISED, *OUTCOMES)}
    groups = {"wet": Group("wet", "wet", tuple(draw(st.sets(st.sampled_from(ZONES))))), "all": Group("all", "", ZONES)}
    zones = {name: draw(_zones(name, order, groups)) for order, name in enumerate(ZONES)}
    signs = {name: draw(_signs(name, scales)) for name in (*SIGNS, NOTHING_SEEN)}
    facts = {"deck": Fact("deck", "How?", {"single": "", "cored": ""}, "")}
    rules = tuple(draw(_rules(scales, order)) for order in range(draw(st.integers(0, 12))))
    presumptions = tuple(draw(_presumptions(scales, 100 + order)) for order in range(draw(st.integers(0, 5))))
    return KnowledgeBase(
        facts=facts,
        groups=groups,
        walk=(Leg("round", "Round", "", ZONES),),
        zones=zones,
        signs=signs,
        scales=scales,
        checks={},
        rules=rules,
        presumptions=presumptions,
        sources={},
        offers=dict.fromkeys(ZONES, (*SIGNS, NOTHING_SEEN)),
    )


def _scale(name: str, levels: int, *, observed: bool) -> Scale:
    return Scale(name, name, observed, tuple(Level(f"l{n}", f"{name} is {n}") for n in range(levels)))


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
    return Sign(
        id=name,
        name=name,
        picture="",
        not_this="",
        scales=own,
        about=tuple(draw(st.sets(st.sampled_from(OBSERVED), max_size=1))),
        about_in={},
        caps={scale: Cap(draw(st.integers(0, scales[scale].top)), "web") for scale in capped},
        least={},
        above_zero=(),
        named_checks=draw(st.sampled_from(["all", "first", "none"])),
        also_named=tuple(draw(st.sets(st.sampled_from(OBSERVED), max_size=1))),
        harmless="",
    )


def _words() -> st.SearchStrategy[Condition]:
    values = {
        "zone": ZONES,
        "sign": SIGNS,
        "criticality": ("primary", "secondary", "none"),
        "load": ("rig", "crew", "none"),
        "group": ("wet", "all"),
        "below_water": ("no", "yes"),
        "encloses_buoyancy": ("no", "yes"),
        "side": ("port", "starboard"),
        "deck": ("single", "cored"),
    }
    return st.sampled_from(list(values)).flatmap(
        lambda word: st.sets(st.sampled_from(values[word]), min_size=1).map(lambda some: Is(word, tuple(sorted(some))))
    )


def _conditions(levels: st.SearchStrategy[Condition], *, elsewhere: bool) -> st.SearchStrategy[Condition]:
    def joined(inner: st.SearchStrategy[Condition]) -> st.SearchStrategy[Condition]:
        some = st.lists(inner, min_size=1, max_size=3).map(tuple)
        return st.one_of(some.map(All), some.map(Any))

    leaves = st.one_of(_words(), levels)
    flat = st.recursive(leaves, joined, max_leaves=4)
    if not elsewhere:
        return flat
    wheres: st.SearchStrategy[Where] = st.sampled_from(["anywhere", "twin", "same side"])
    away: st.SearchStrategy[Condition] = st.builds(Elsewhere, flat, st.integers(1, 2), wheres)
    return st.recursive(st.one_of(_words(), levels, away), joined, max_leaves=4)


@st.composite
def _rules(draw: st.DrawFn, scales: dict[str, Scale], order: int) -> Rule:
    """A rule that raises a scale only because of scales before it, so that no circle can arise."""
    ladder = (*OBSERVED, *RAISED, *OUTCOMES)
    raised = draw(st.sampled_from((*RAISED, *OUTCOMES)))
    readable = ladder[: ladder.index(raised)]
    levels: st.SearchStrategy[Condition] = st.sampled_from(readable).flatmap(
        lambda scale: st.integers(1, scales[scale].top).map(lambda level: AtLeast(scale, level))
    )
    when = draw(_conditions(levels, elsewhere=True))
    effect = ((raised, draw(st.integers(1, scales[raised].top))),)
    return Rule(f"r/{order}", order, when, "because", BASIS, NOWHERE, raises=effect)


@st.composite
def _presumptions(draw: st.DrawFn, scales: dict[str, Scale], order: int) -> Presumption:
    levels: st.SearchStrategy[Condition] = st.sampled_from(OBSERVED).flatmap(
        lambda scale: st.integers(0, scales[scale].top - 1).map(lambda level: AtMost(scale, level))
    )
    when = draw(_conditions(levels, elsewhere=False))
    some = draw(st.sets(st.sampled_from(OBSERVED), min_size=1, max_size=3))
    presumes = tuple((scale, draw(st.integers(0, scales[scale].top - 1))) for scale in sorted(some))
    return Presumption(f"p/{order}", order, when, "because", BASIS, NOWHERE, presumes)
