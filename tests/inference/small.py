"""A boat of four places, four marks and a handful of scales, on which one rule at a time can be tried.

Places: the deck (one on each side), the step (primary: its play is a named check), the rim (secondary, one part) and
the tank. Marks: a line, a scuff (no deeper than the coat), a gouge (deep by its looks) and a loose fitting, which is
itself a reading of play.
Every observed scale has levels 0 to 3.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from triage.errors import Place
from triage.knowledge.model import (
    NOTHING_SEEN,
    OUTCOMES,
    ROLES,
    VERDICT,
    Basis,
    Cap,
    Fact,
    KnowledgeBase,
    Leg,
    Level,
    Observation,
    Presumption,
    Rule,
    Scale,
    Sign,
    Zone,
)
from triage.knowledge.model.conditions import All, Condition
from triage.survey.model import Boat, Finding, Reading

OBSERVED = ("give", "sound", "play", "depth")
DERIVED = ("glass", "hold", *OUTCOMES)
ALWAYS = All(())


def rule(id: str, when: Condition, raises: Mapping[str, int]) -> Rule:  # noqa: A002
    """A rule; its order is given by `knowledge`."""
    return Rule(id, 0, when, "because", Basis("estimate"), Place("a test"), tuple(raises.items()))


def presumption(id: str, when: Condition, presumes: Mapping[str, int]) -> Presumption:  # noqa: A002
    return Presumption(id, 0, when, "because", Basis("estimate"), Place("a test"), tuple(presumes.items()))


def knowledge(*rules: Rule | Presumption) -> KnowledgeBase:
    """The small boat with these rules, in this order."""
    zones = [
        _zone("deck", criticality="secondary", sided=True),
        _zone("step", criticality="primary", passed_by=(("play",),)),
        _zone("rim", criticality="secondary"),
        _zone("tank", criticality="none"),
    ]
    signs = [
        _sign("line", OBSERVED),
        _sign("scuff", ("depth",), caps={"depth": Cap(1, "line")}),
        _sign("gouge", OBSERVED, least={"depth": 2}),
        _sign("loose", OBSERVED, about=("play",)),
        _sign(NOTHING_SEEN, ()),
    ]
    scales = [_scale(name, observed=True) for name in OBSERVED] + [_scale(name, observed=False) for name in DERIVED]
    return KnowledgeBase(
        facts={"build": Fact("build", "How is she built?", {"single": "one skin", "cored": "foam between two"}, "")},
        groups={},
        walk=(Leg("round", "Round the boat", "", tuple(zone.id for zone in zones)),),
        zones={zone.id: zone for zone in zones},
        signs={sign.id: sign for sign in signs},
        scales={scale.id: scale for scale in scales},
        checks={},
        rules=tuple(one for one in rules if isinstance(one, Rule)),
        presumptions=tuple(one for one in rules if isinstance(one, Presumption)),
        sources={},
        offers={zone.id: tuple(sign.id for sign in signs) for zone in zones},
    )


def finding(zone: str, sign: str, side: str | None = None, **levels: int) -> Finding:
    """A finding with these readings."""
    readings = {scale: Reading.at(level) for scale, level in levels.items()}
    return Finding(".".join(filter(None, (zone, side, sign))), zone, sign, side, readings)


def boat(**facts: str) -> Boat:
    return Boat("Wagtail", facts)


def _scale(name: str, *, observed: bool) -> Scale:
    roles = ROLES.get(name, ())
    roles = (*roles[:-1], *[""] * (4 - len(roles)), *roles[-1:]) if name != VERDICT else (*roles, "")
    seen = [(Observation(f"{name} is {n}"),) if observed else () for n, _ in enumerate(roles)]
    phrases = ["" if observed else f"{name} is {n}" for n, _ in enumerate(roles)]
    levels = (Level(f"{name} {n}", phrases[n], role=role, observations=seen[n]) for n, role in enumerate(roles))
    return Scale(name, name, observed, tuple(levels))


def _sign(
    name: str,
    scales: Sequence[str],
    *,
    about: tuple[str, ...] = (),
    caps: Mapping[str, Cap] | None = None,
    least: Mapping[str, int] | None = None,
) -> Sign:
    return Sign(
        id=name,
        name=name,
        picture="",
        not_this="",
        scales=tuple(scales),
        about=about,
        about_in={},
        scales_in={},
        caps=caps or {},
        least=least or {},
        above_zero=(),
        named_checks="all",
        also_named=(),
        harmless="",
    )


def _zone(
    name: str, *, criticality: str, sided: bool = False, passed_by: tuple[tuple[str, ...], ...] = (("give",),)
) -> Zone:
    return Zone(
        id=name,
        name=name,
        trade=name,
        leg="round",
        order=0,
        load="none",
        criticality=criticality,
        below_water="no",
        encloses_buoyancy="varies",
        sided=sided,
        neighbours=(),
        groups=(),
        reached="",
        trouble="",
        compare="",
        passed_by=passed_by,
        how_passed="",
        also_open=(),
        named_checks=criticality == "primary",
    )
