"""The sums against published tables, worked examples and plate theory. The source stands beside each check."""

from __future__ import annotations

import math

import pytest
import scipy.stats

from triage.knowledge.model import KnowledgeBase
from triage.mechanics import floating, foils, laminate, leaks, mixing, plates, repair, rig, sampling
from triage.mechanics.lamination import Matrix, Ply, Stack
from triage.mechanics.linear import solve
from triage.mechanics.units import MM_OF_WATER
from triage.mechanics.worked import work

POISSON = 0.3


def hinged_by_series(aspect: float, terms: int = 301) -> float:
    """α of a hinged plate with a load in its middle: Navier's double series, for ν = 0.3."""
    total = sum(1 / ((m / aspect) ** 2 + n**2) ** 2 for m in range(1, terms, 2) for n in range(1, terms, 2))
    return 4 / (math.pi**4 * aspect) * total * 12 * (1 - POISSON**2)


@pytest.mark.parametrize(("aspect", "alpha"), list(zip(plates.ASPECTS, plates.HINGED, strict=True)))
def test_the_table_for_hinged_plates_is_plate_theory(aspect: float, alpha: float) -> None:
    """Roark's Formulas for Stress and Strain, table 11.4, case 1b, against Navier's series."""
    assert alpha == pytest.approx(hinged_by_series(aspect), rel=0.003)


def test_a_thumb_on_a_small_panel() -> None:
    """Worked: 300 × 300 × 3 mm, E 6.4 GPa, 50 N: 3.30 mm hinged, 1.59 mm held (closed form; two finite element
    programs gave 3.31 and 1.61).
    """
    dips = [plates.dip(50, 0.3, 0.003, 6.4e9, edges[0]) for edges in (plates.HINGED, plates.CLAMPED)]

    assert [0.0032995, 0.0015911] == pytest.approx(dips, rel=1e-3)


def test_a_split_skin_dips_four_times_as_far_and_half_a_skin_eight_times() -> None:
    """Stiffness goes with the cube of thickness: two sliding halves have a quarter of it (plate theory)."""
    assert 0.75 == plates.stiffness_lost(4, 1)
    assert 0.5 == pytest.approx(plates.thickness_lost(8, 1))


@pytest.mark.parametrize(
    ("content", "per_kg"), [(0.25, 2.8906), (0.30, 2.3351), (0.33, 2.0825), (0.36, 1.8721), (0.48, 1.2934)]
)
def test_thickness_of_layers(content: float, per_kg: float) -> None:
    """ISO 12215-5 has w/3.072 (2.56/ψ − 1.36), from memory; it is the rule of mixtures."""
    assert per_kg / 1000 == pytest.approx(laminate.thickness(1, content), rel=1e-4)
    assert (2.56 / content - 1.36) / 3.072 / 1000 == pytest.approx(laminate.thickness(1, content), rel=1e-12)


def test_a_design_sheet_gives_nearly_the_same_thickness() -> None:
    """A sheet for BS 4994:1987 gives 2.24 mm for each kg/m² at 33 % glass: within a tenth."""
    assert 2.24e-3 == pytest.approx(laminate.thickness(1, 0.33), rel=0.10)


@pytest.mark.parametrize(("content", "ratio"), [(0.33, 2.03), (0.45, 1.22)])
def test_resin_to_glass(content: float, ratio: float) -> None:
    """The same sheet: 2.03 to 1 at 33 %, 1.22 to 1 at 45 %."""
    assert ratio == pytest.approx(laminate.resin(1, content), abs=0.005)


def test_righting_moment_and_shroud() -> None:
    """Worked: 150 kg of crew 0.9 m out, no hull: 1324 N·m; over 0.75 m, 1765 N."""
    moment = rig.righting_moment(150, 0.9, 0, 0)

    assert 1323.9 == pytest.approx(moment, rel=1e-3)
    assert 1765.2 == pytest.approx(rig.shroud_pull(moment, 0.75, 0), rel=1e-3)


def test_a_washer_spreads_in_proportion_to_its_rim() -> None:
    """Worked: 2 bolts, 2648 N, 3 mm: 5.62 MPa under a 25 mm washer and 17.56 MPa under a bare 8 mm nut."""
    washer, nut = (rig.punching(2648, 2, across, 0.003) for across in (0.025, 0.008))

    assert [5.62e6, 17.56e6] == pytest.approx([washer, nut], rel=1e-3)


def test_rudder_hinges() -> None:
    """Worked by moments: 0.12 m², 4 m/s, C 1.2, 1025 kg/m³; 0.45 m below, 0.25 m apart: 1180.8, 3306.2, 2125.4 N."""
    force = foils.side_force(1025, 4, 0.12, 1.2)

    assert 1180.8 == pytest.approx(force)
    assert 3306.2 == pytest.approx(foils.lower_hinge(force, 0.45, 0.25), rel=1e-4)
    assert 2125.4 == pytest.approx(foils.upper_hinge(force, 0.45, 0.25), rel=1e-4)
    assert 5431.7 == pytest.approx(foils.lower_hinge(force, 0.45, 0.125), rel=1e-4)


def test_rudder_force_agrees_with_the_ship_rule_in_knots_and_not_in_metres() -> None:
    """IACS UR S10 (from memory): C = 132 A V² in knots is a coefficient of about 1; in m/s it would be 0.26."""
    in_knots = 132 * (4 / (1852 / 3600)) ** 2

    assert 0.8 < in_knots / foils.side_force(1025, 4, 1, 1) < 1.5
    assert not 0.8 < 132 * 4**2 / foils.side_force(1025, 4, 1, 1) < 1.5


def test_tip_travel_of_worn_bushes() -> None:
    """Worked: 0.4 mm in each of two hinges 0.3 m apart is 2.0 mm at a tip 0.6 m below."""
    assert 0.002 == pytest.approx(foils.tip_travel(0.0004, 0.0004, 0.3, 0.6))


def test_two_class_rules_for_air_tests_mean_the_same_hole() -> None:
    """127 to 51 mm in 30 s and 100 to 50 mm in 20 s: by an isothermal orifice of a 100 L space the same within 6 %."""

    def area(start: float, end: float, seconds: float) -> float:
        mean = (start + end) / 2 * 1000 * MM_OF_WATER / 1000
        speed = math.sqrt(2 * mean / 1.204)
        return leaks.air_lost(0.1, (start - end) * MM_OF_WATER) / seconds / (leaks.DISCHARGE * speed)

    assert area(127, 51, 30) == pytest.approx(area(100, 50, 20), rel=0.08)


def test_a_degree_of_warming_is_35_mm_of_water() -> None:
    """p/T at 20 °C is 346 Pa for each kelvin (gas law)."""
    assert 35 == pytest.approx(leaks.warming(1) / MM_OF_WATER, abs=0.5)


@pytest.mark.parametrize(("ratio", "across"), [(8, 98), (12, 122), (20, 170), (50, 350)])
def test_patch_sizes(ratio: float, across: float) -> None:
    """A 50 mm hole in 3 mm: 12 to 1 is what resin makers print, 50 to 1 what FAA AC 43.13-1B 3-2 asks of aircraft."""
    assert across / 1000 == pytest.approx(repair.patch(0.05, repair.taper(0.003, ratio)))


def test_layers_and_masses_of_a_patch() -> None:
    """3 mm of 450 g mat at 30 % glass takes 3 layers; half a square metre of them 0.675 kg of glass."""
    assert 3 == repair.layers(0.003, laminate.thickness(0.45, 0.30))
    side = (0.5 * 4 / math.pi) ** 0.5
    assert 0.675 == pytest.approx(repair.glass_mass((side,) * 3, 0.45))


@pytest.mark.parametrize(
    ("gap", "litres"), [("0.05 mm", 0.9), ("0.1 mm", 7), ("0.2 mm", 55), ("0.5 mm", 150), ("1 mm", 300)]
)
def test_flow_through_a_crack_as_the_knowledge_tells_it(kb: KnowledgeBase, gap: str, litres: float) -> None:
    """100 mm long, a 4 mm wall, 100 mm under water; common practice, our own table."""
    said = {"length": "100 mm", "gap": f"{gap} ± 0 mm", "wall": "4 mm ± 0 mm", "depth": "100 mm ± 0 mm"}

    flow = work(kb, "crack", said).told["flow"]

    assert flow.low * 0.9 <= litres <= flow.high * 1.1


def test_a_stack_of_turned_layers_by_classical_lamination() -> None:
    """Kaw, Mechanics of Composite Materials, example 4.2 (values from memory, reckoned again with another program):
    [0/30/−45], 5 mm each, E 181 and 10.3, ν 0.28, G 7.17 GPa.
    """
    stack = Stack([Ply(0.005, 181e9, 10.3e9, 0.28, 7.17e9, angle) for angle in (0, 30, -45)])

    a, b, d = (stack.moment(order) for order in range(3))

    assert [1.739e9, 3.884e8, 5.663e7, 4.533e8, -1.141e8, 4.525e8] == pytest.approx(upper(a), rel=5e-4)
    assert [-3.129e6, 9.855e5, -1.072e6, 1.158e6] == pytest.approx(upper(b)[:4], rel=5e-4)
    assert [3.343e4, 6.461e3, -5.240e3, 9.320e3, -5.596e3, 7.663e3] == pytest.approx(upper(d), rel=5e-4)


def upper(matrix: Matrix) -> list[float]:
    return [matrix[i][j] for i in range(3) for j in range(i, 3)]


def test_cloth_in_the_middle_stiffens_the_pull_and_hardly_the_bend() -> None:
    """Worked with a lamination program: mat 450, cloth 600, mat 450: A11 25,361 N/mm, D11 14,222 N·mm; as one material
    8,281 MPa pulled and 6,539 MPa bent.
    """
    mat = Ply(1.0508e-3, 6.4e9, 6.4e9, 0.30, 2.4615e9)
    stack = Stack([mat, Ply(0.7760e-3, 13.24e9, 13.24e9, 0.17, 3.056e9), mat])

    assert 25_360.8e3 == pytest.approx(stack.moment(0)[0][0], rel=1e-3)
    assert 14.2224 == pytest.approx(stack.moment(2)[0][0], rel=1e-3)
    assert 8_280.8e6 == pytest.approx(1 / (stack.compliance(0) * stack.thickness), rel=1e-3)
    assert 6_538.5e6 == pytest.approx(12 / (stack.compliance(3) * stack.thickness**3), rel=1e-3)


def test_equations_that_have_no_single_answer_are_refused() -> None:
    assert [1.0, 2.0] == pytest.approx(solve([[0, 2], [3, 1]], [4, 5]))
    with pytest.raises(ValueError, match="no single answer"):
        solve([[1, 2], [2, 4]], [1, 2])


@pytest.mark.parametrize(("found", "looked"), [(0, 30), (3, 20), (0, 29), (7, 7), (1, 1), (40, 500)])
def test_a_sample_says_what_clopper_and_pearson_say(found: int, looked: int) -> None:
    """Clopper and Pearson (1934), by scipy; the classic 0 of 29 leaves less than 10 % on one side."""
    low, high = sampling.share(found, looked)

    exact = scipy.stats.binomtest(found, looked).proportion_ci(confidence_level=0.95, method="exact")
    assert (exact.low, exact.high) == pytest.approx((low, high), abs=1e-9)


def test_a_boat_under_water_and_one_that_leans() -> None:
    """Worked: 80 and 30 kg weigh 29 and 22 kg under water; 15 L at 0.6 m in 275 kg, 0.5 m of height: 3.7°."""
    assert 51 == pytest.approx(floating.sunk_weight(80, 30), rel=0.01)
    assert 3.7 == pytest.approx(math.degrees(floating.lean(15, 0.6, 275, 0.5)), abs=0.1)


def test_hardener_follows_the_chart_of_the_trade_and_nothing_is_laid_in_the_cold() -> None:
    """A supplier's chart: 3 % from 13 to 16 °C, 2 % to 20, 1 % above; rules for glass ships lay nothing under 15 °C."""
    assert (0.006, 0.006) == pytest.approx(mixing.hardener(0.3, 18))
    assert (0.003, 0.006) == pytest.approx(mixing.hardener(0.3, 25))
    for temperature in (10, 40):
        with pytest.raises(ValueError, match=r"cure|set"):
            mixing.hardener(0.3, temperature)


def test_a_kilogram_of_coat_covers_what_its_seller_says() -> None:
    """A supplier's sheet: 0.4 to 0.6 mm, about 1 kg for 1.6 m²."""
    assert 1 == pytest.approx(mixing.coat(1.6, 0.5e-3, 1225, 0), rel=0.05)
