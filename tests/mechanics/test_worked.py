"""Sums as people do them: read with their units, refused with a reason, monotone, no finer than they are known."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from triage.cli import main
from triage.errors import BadInput, BadRules
from triage.knowledge.model.sums import Asked, Sum
from triage.knowledge.store.load import knowledge_from_texts, rule_texts
from triage.mechanics.catalogue import FORMULAS
from triage.mechanics.interval import Interval, spanning
from triage.mechanics.units import IN_SI
from triage.mechanics.worked import curve, work

SUMS = sorted((one for one in shipped().sums.values() if one.id != "photo"), key=lambda one: one.id)
"""Those of which every number may be anything; the corners of a photographed card have to be those of a card."""

TAPS = dict(zip(("x1", "y1", "x2", "y2", "x3", "y3", "x4", "y4", "x5", "y5", "x6", "y6"),
    (100, 100, 956, 104, 950, 640, 96, 644, 120, 700, 720, 705), strict=True))  # fmt: skip
"""On a card, and at the ends of a line of some 60 mm beside it."""


LEAST = {"edge": 10}
"""Hundredths of the way from the least to the most, below which a sum may be refused: a taper needs room."""


def said(asked: Asked, share: float) -> str:
    """A measurement between the least and the most."""
    return f"{asked.least + share * (asked.most - asked.least):.6f} {asked.unit}"


def test_every_sum_of_the_rules_has_its_formulas_and_units() -> None:
    kb = shipped()

    assert set(kb.sums) == set(FORMULAS)
    for one in kb.sums.values():
        assert {part.unit for parts in (one.asks, one.given, one.tells) for part in parts.values()} <= set(IN_SI)


@pytest.mark.parametrize("one", SUMS, ids=lambda one: one.id)
@settings(max_examples=20, deadline=None)
@given(data=st.data())
def test_a_sum_tells_what_it_says_it_tells_for_all_that_can_be_measured(one: Sum, data: st.DataObject) -> None:
    shares = {name: data.draw(st.floats(LEAST.get(name, 0) / 100, 1), label=name) for name in one.asks}

    done = work(shipped(), one.id, {name: said(asked, shares[name]) for name, asked in one.asks.items()})

    assert set(done.told) == set(one.tells)
    assert all(value.low <= value.high for value in done.told.values())


@pytest.mark.parametrize("one", SUMS, ids=lambda one: one.id)
@settings(max_examples=10, deadline=None)
@given(data=st.data())
def test_a_wider_measurement_never_narrows_a_result(one: Sum, data: st.DataObject) -> None:
    def shares(name: str) -> st.SearchStrategy[list[int]]:
        return st.lists(st.integers(LEAST.get(name, 5), 95), min_size=4, max_size=4, unique=True)

    ends = {name: [share / 100 for share in sorted(data.draw(shares(name), label=name))] for name in one.asks}

    def told(outer: int) -> dict[str, Interval]:
        lows_highs = {
            name: (said(asked, ends[name][outer]).split()[0], said(asked, ends[name][3 - outer]))
            for name, asked in one.asks.items()
        }
        return dict(
            work(shipped(), one.id, {name: f"{low} to {high}" for name, (low, high) in lows_highs.items()}).told
        )

    narrow, wide = told(1), told(0)

    for name in one.tells:
        assert wide[name].low <= narrow[name].low * (1 + 1e-9) + 1e-12
        assert narrow[name].high <= wide[name].high * (1 + 1e-9) + 1e-12


def test_a_length_from_a_photograph() -> None:
    def found(off: float) -> Interval:
        return work(shipped(), "photo", {name: f"{at - off} to {at + off}" for name, at in TAPS.items()}).told["length"]

    assert found(2).low < 60 < found(2).high
    assert found(8).low < found(2).low < found(2).high < found(8).high


def test_four_taps_that_are_no_card_are_refused_in_words() -> None:
    with pytest.raises(BadInput, match="not the corners of a card"):
        work(shipped(), "photo", dict.fromkeys(TAPS, "100"))


def test_everything_that_cannot_be_used_is_told_at_once() -> None:
    with pytest.raises(BadInput) as refused:
        work(shipped(), "press", {"dip": "900 mm", "twinn": "3 mm"})

    told = str(refused.value)
    assert 'Did you mean "twin"' in told
    assert '"900 mm" cannot be' in told
    assert "it is missing" in told


def test_a_sum_that_is_not_there_is_guessed_at() -> None:
    with pytest.raises(BadInput, match="crack"):
        work(shipped(), "crak", {})


def test_the_command_lists_asks_and_works() -> None:
    def run(*args: str) -> str:
        return CliRunner().invoke(main, ["sums", *args]).output

    assert "Press test against the twin" in run()
    assert "how far the doubtful place dips" in run("press")
    shown = run("press", "dip=6 mm", "twin=3 mm")
    assert "stiffness lost against the twin: 42 to 57 %" in shown
    assert "never takes any away" in shown


def test_a_range_is_exact_at_the_corners() -> None:
    assert Interval(-1, 2) == spanning(lambda a, b: a - b, a=Interval(1, 3), b=Interval(1, 2))
    with pytest.raises(ValueError, match="no interval"):
        Interval(2, 1)


@pytest.mark.parametrize("one", [one for one in SUMS if one.plot], ids=lambda one: one.id)
def test_a_curve_runs_through_what_was_reckoned(one: Sum) -> None:
    assert one.plot is not None
    done = work(shipped(), one.id, {name: said(asked, 0.1) for name, asked in one.asks.items()})
    here, found = done.took[one.plot.against], done.told[one.plot.shows]

    band = curve(done)
    inside = [value for at, value in band if here.low <= at <= here.high]

    assert len(band) > 40
    assert inside
    assert all(found.low - 1e-9 <= value.low and value.high <= found.high + 1e-9 for value in inside)


def test_a_cut_list_has_a_piece_for_each_layer_each_larger_than_the_last() -> None:
    """Worked: 60 mm, 4 mm, 12 to 1, four layers: 72, 96, 120, 144 mm; the gentlest taper is 20 to 1."""
    done = work(shipped(), "patch", {"hole": "60 mm", "thickness": "4 mm", "edge": "300 mm"})

    assert [72, 96, 120, 144] == pytest.approx([piece.low for piece in done.pieces])
    assert [80, 120, 160, 200] == pytest.approx([piece.high for piece in done.pieces])


def test_a_page_of_a_sum_shows_its_curve_in_words_too(tmp_path: Path) -> None:
    page = tmp_path / "crack.html"
    asked = ["length=100 mm", "gap=0.3 mm", "wall=4 mm", "depth=100 mm"]

    run = CliRunner().invoke(main, ["sums", "crack", *asked, "-o", str(page)])

    assert run.exit_code == 0, run.output
    assert 'aria-label="water in an hour against how far it gapes' in page.read_text(encoding="utf-8")
    assert CliRunner().invoke(main, ["sums", "-o", str(page)]).exit_code == 2


def test_a_plot_names_what_its_sum_has() -> None:
    texts = rule_texts()
    texts["sums/water.yaml"] = texts["sums/water.yaml"].replace(b"against: gap", b"against: gape")

    with pytest.raises(BadRules, match='Did you mean "gap"'):
        knowledge_from_texts(texts)
