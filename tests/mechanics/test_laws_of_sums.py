"""What every sum obeys: each of its numbers pulls one way, as in nature, and what cannot be is refused."""

from __future__ import annotations

import random
from collections.abc import Mapping
from itertools import pairwise

import pytest

from tests.laws.ranges import shipped
from triage.errors import BadInput
from triage.knowledge.model.sums import Asked, Sum
from triage.mechanics import foils, laminate, lamination, leaks, mixing, plates
from triage.mechanics.catalogue.formula import Refused
from triage.mechanics.interval import Interval, exactly
from triage.mechanics.worked import reckoned, work

SUMS = [one for one in shipped().sums.values() if one.id != "photo"]
"""A photographed card is one shape: its corners do not move by themselves."""


def at(asked: Asked, share: float) -> Interval:
    return exactly(asked.least + share * (asked.most - asked.least))


def told(one: Sum, shares: Mapping[str, float]) -> Mapping[str, Interval] | None:
    """What comes out between the least and the most of everything; None where it is refused."""
    try:
        return reckoned(one, {name: at(asked, shares[name]) for name, asked in one.asks.items()}).told
    except Refused:
        return None


@pytest.mark.parametrize("one", SUMS, ids=lambda one: one.id)
def test_each_number_pulls_each_result_one_way(one: Sum) -> None:
    """A range is reckoned from the corners of what was measured, which is exact only for such formulas."""
    draw = random.Random(one.id)
    for varied in one.asks:
        for _ in range(3):
            others = {name: draw.uniform(0.1, 0.9) for name in one.asks}
            found = [told(one, {**others, varied: step / 8}) for step in range(9)]
            results = [each for each in found if each is not None]
            for name in one.tells:
                for end in ("low", "high"):
                    values = [getattr(each[name], end) for each in results]
                    near = 1e-9 * max(map(abs, values), default=0)
                    steps = [after - before for before, after in pairwise(values)]
                    assert all(s >= -near for s in steps) or all(s <= near for s in steps), (varied, name, values)


DIRECTIONS = [
    ("press", "dip", "stiffness_lost", +1),
    ("press", "twin", "stiffness_lost", -1),
    ("spring", "excess", "thickness_lost", +1),
    ("plate", "thickness", "dip", -1),
    ("plate", "mass", "dip", +1),
    ("plate", "short", "dip", +1),
    ("shroud", "base", "pull", -1),
    ("shroud", "crew", "pull", +1),
    ("bolts", "washer", "punching_used", -1),
    ("rudder", "apart", "lower", -1),
    ("swing", "angle", "play", +1),
    ("case", "out", "pull", +1),
    ("hole", "depth", "flow", +1),
    ("crack", "gap", "flow", +1),
    ("crack", "wall", "flow", -1),
    ("air_test", "end", "water", -1),
    ("seal", "left", "water", -1),
    ("bailing", "rate", "bucket", -1),
    ("tube", "sinks", "flow", +1),
    ("reserve", "water", "ratio", -1),
    ("wet_tank", "water", "lean", +1),
    ("patch", "hole", "patch", +1),
    ("cure", "temperature", "hold", -1),
    ("mix", "resin", "hardener", +1),
    ("sample", "dull", "share", +1),
    ("growth", "time", "season", -1),
    ("pace", "season", "later", +1),
    ("stack", "cloth", "pulled", +1),
]
"""Sum, what is measured, what it tells, and whether more of the one is more of the other."""


MIDDLE = {"edge": 0.9, "later": 0.9, "gap": 0.02, "length": 0.02, "hole": 0.02}
"""Where halfway between the least and the most is nothing that anybody meets."""


@pytest.mark.parametrize(("id_", "varied", "result", "sign"), DIRECTIONS, ids=lambda value: str(value))
def test_more_of_it_is_more_or_less_as_in_nature(id_: str, varied: str, result: str, sign: int) -> None:
    one = shipped().sums[id_]
    others = {
        name: 0.9 if name in {"edge", "later"} else 0.02 if name in {"gap", "length", "hole"} else 0.5
        for name in one.asks
    }
    low, high = (told(one, {**others, varied: share}) for share in (0.01, 0.6))

    assert low is not None
    assert high is not None
    assert sign * (high[result].middle - low[result].middle) > 0


def test_limits_behave() -> None:
    assert 0 == plates.stiffness_lost(3, 3) == plates.thickness_lost(3, 3) == plates.stiffness_lost(2, 3)
    assert plates.stretched(1e-6, 0.003) == pytest.approx(1e-6)
    assert plates.stretched(0.03, 0.003) < 0.012
    assert 0 == leaks.through_hole(1e-6, 0) == foils.play(0, 0.1) == foils.tip_travel(0, 0, 0.3, 0.6)
    assert leaks.through_crack(0.1, 0.005, 0.004, 0.1) == leaks.through_hole(0.1 * 0.005, 0.1)
    assert laminate.resin(1, 1) == 0
    assert mixing.cure(18, 48, 2) == mixing.cure(30, 48, 2) == 48
    assert mixing.cure(15, 48, 2) == pytest.approx(48 * 2**0.3)


def test_what_cannot_be_is_refused() -> None:
    for content in (0, -0.1, 1.2):
        with pytest.raises(ValueError, match="share of glass"):
            laminate.thickness(1, content)
    with pytest.raises(ValueError, match="longer"):
        plates.coefficient(0.8, plates.HINGED, plates.HINGED_LONG)
    with pytest.raises(ValueError, match="no single answer"):
        lamination.Stack([lamination.Ply(0.0, 7e9, 7e9, 0.3, 2e9)]).compliance(0)
    with pytest.raises(ValueError, match="does not cure"):
        mixing.cure(14, 48, 2)


@pytest.mark.parametrize(
    ("id_", "said", "because"),
    [
        ("press", {"dip": "6 kg", "twin": "3 mm"}, "kg"),
        ("press", {"dip": "-6 mm", "twin": "3 mm"}, "cannot be"),
        ("hole", {"diameter": "2 m", "depth": "100 mm"}, "cannot be"),
        ("cure", {"temperature": "12"}, "does not cure through: warm the place"),
        ("mix", {"resin": "300 g", "temperature": "10 to 20"}, "does not cure through"),
        ("patch", {"hole": "50 mm", "thickness": "4 mm", "edge": "20 mm"}, "runs into the edge"),
        ("bailing", {"rate": "nan"}, "rate"),
    ],
)
def test_a_wrong_unit_and_what_cannot_be_are_refused_with_a_reason(
    id_: str, said: dict[str, str], because: str
) -> None:
    with pytest.raises(BadInput, match=because):
        work(shipped(), id_, said)
