"""What a professional's look is worth, against going through every state and report, and against scipy's integrals."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

import pytest
from scipy import integrate, stats

from triage.buying.amounts import Spread, ThreePoint, total
from triage.buying.offer import Offer
from triage.buying.price import Sums
from triage.buying.price_lines import PriceLine
from triage.buying.professional import Professional, professional_for
from triage.knowledge.model import KnowledgeBase

SOUND, FINDS = 3000.0, 0.8
Risk = tuple[float, float, str]
"""An amount, the chance that it is to pay, and the cause that it shares."""


def professional(kb: KnowledgeBase, lines: Sequence[PriceLine], asking: float) -> Professional:
    sums = Sums(tuple(lines), (), (), total([]), *[None] * 8)
    told = professional_for(kb, Offer("EUR", 1.0, sound=ThreePoint.single(SOUND), asking=asking), sums)
    assert told is not None
    assert FINDS == told.finds
    return told


def line(amount: ThreePoint, chance: float, cause: str = "") -> PriceLine:
    return PriceLine("risk", "a mark", ("a",), amount, chance, cause=cause)


def reports(group: Sequence[Risk]) -> Iterator[tuple[float, float]]:
    """Every report about the risks of one cause: how likely it is, and what is then to be expected to pay."""
    ends = sorted({0.0, 1.0, *(chance for _, chance, _ in group)})
    states = [
        (high - low, sum(amount for amount, chance, _ in group if chance >= high))
        for low, high in itertools.pairwise(ends)
    ]
    yield from ((FINDS * chance, pay) for chance, pay in states if pay)
    silent = sum(chance * (1 - FINDS if pay else 1) for chance, pay in states)
    yield silent, sum(chance * (1 - FINDS) * pay for chance, pay in states) / silent


def by_enumeration(risks: Sequence[Risk], asking: float) -> float:
    groups = [
        [risk for risk in risks if risk[2] == cause] if cause else [risk]
        for cause, risk in {(risk[2], "" if risk[2] else n): (risk[2], risk) for n, risk in enumerate(risks)}.values()
    ]
    price = min(asking, SOUND - sum(amount * chance for amount, chance, _ in risks))
    knowing = 0.0
    for report in itertools.product(*(reports(group) for group in groups)):
        likely = 1.0
        for chance, _ in report:
            likely *= chance
        knowing += likely * max(0.0, SOUND - price - sum(pay for _, pay in report))
    return knowing - max(0.0, SOUND - price - sum(amount * chance for amount, chance, _ in risks))


def by_two_states(risks: Sequence[Risk], asking: float) -> float:
    """Something is hidden, at what it costs on average, or nothing is: all risks as a single one."""
    none = 1.0
    for _, chance, _ in risks:
        none *= 1 - chance
    expected = sum(amount * chance for amount, chance, _ in risks)
    return by_enumeration([(expected / (1 - none), 1 - none, "")], asking)


APART: list[Risk] = [(300.0, 0.35, ""), (900.0, 0.35, ""), (1500.0, 0.25, ""), (250.0, 0.06, "")]
SHARED: list[Risk] = [(300.0, 0.35, "grounding"), (900.0, 0.25, "grounding"), (1500.0, 0.2, ""), (400.0, 0.2, "frost")]


@pytest.mark.parametrize("risks", [APART, SHARED, APART[:1], SHARED[:2]])
@pytest.mark.parametrize("asking", [1000.0, 1500.0, 1900.0, 2300.0, 2900.0, 4000.0])
def test_it_is_what_going_through_every_report_comes_to(kb: KnowledgeBase, risks: list[Risk], asking: float) -> None:
    lines = [line(ThreePoint.single(amount), chance, cause) for amount, chance, cause in risks]
    told = professional(kb, lines, asking)

    assert by_enumeration(risks, asking) == pytest.approx(told.to_leave, abs=2)
    assert told.off_the_price >= told.to_leave


def test_an_amount_that_nobody_knows_is_gone_through_by_its_chances(kb: KnowledgeBase) -> None:
    """Scipy integrates over the beta of 200, 500, 2000: only what costs more than she gains sends anybody away."""
    pert, chance, asking = ThreePoint(200, 500, 2000), 0.35, 2500.0
    beta = stats.beta(1 + 4 * 300 / 1800, 1 + 4 * 1500 / 1800, 200, 1800)
    gain = SOUND - asking
    found, _ = integrate.quad(lambda pay: max(0.0, gain - pay) * beta.pdf(pay), 200, 2000, points=[gain])
    seen = FINDS * chance
    left = (1 - FINDS) * chance * pert.mean / (1 - seen)
    knowing = seen * found + (1 - seen) * max(0.0, gain - left)

    assert knowing - (gain - chance * pert.mean) == pytest.approx(
        professional(kb, [line(pert, chance)], asking).to_leave, abs=1
    )


def test_all_risks_as_a_single_one_of_average_cost_read_low(kb: KnowledgeBase) -> None:
    """Asked 1800 of 3000: the average of what may be hidden sends nobody away, and the dear one does."""
    lines = [line(ThreePoint.single(amount), chance, cause) for amount, chance, cause in APART]

    assert 0 == pytest.approx(by_two_states(APART, 1800.0))
    assert professional(kb, lines, 1800.0).to_leave > 100


def test_what_comes_off_the_price_is_worth_what_is_found_where_she_is_bought_anyhow(kb: KnowledgeBase) -> None:
    """The rule of thumb of the trade: the chance of a fault times what it costs, as far as it is found."""
    told = professional(kb, [line(ThreePoint.single(1500), 0.25)], 1000.0)

    assert 0 == pytest.approx(told.to_leave, abs=1)
    assert FINDS * 0.25 * 1500 == pytest.approx(told.off_the_price, abs=1)


def test_oil_wildcatters_test_is_worth_12_and_a_half() -> None:
    """Raiffa's oil wildcatter with the figures of the manuals of Hugin and SAS/OR (PROC DTREE): drill or leave."""
    chances, gains = (0.5, 0.3, 0.2), (-70, 50, 200)
    test = ((0.6, 0.3, 0.1), (0.3, 0.4, 0.4), (0.1, 0.3, 0.5))
    perfect = known_after(chances, gains, ((1, 0, 0), (0, 1, 0), (0, 0, 1)))
    tested = known_after(chances, gains, test)

    assert [20, 20] == pytest.approx([perfect.mean, tested.mean])
    assert 35 == pytest.approx(perfect.excess(0) - 20)
    assert 12.5 == pytest.approx(tested.excess(0) - 20)
    assert 22.5 == pytest.approx(tested.excess(0) - 10)  # the test costs 10


def known_after(chances: Sequence[float], gains: Sequence[float], test: Sequence[Sequence[float]]) -> Spread:
    """What drilling brings on average after each result, with the chance of that result."""
    step, weights, first = 1.0, [0.0] * 300, -80
    for result in test:
        joint = [p * given for p, given in zip(chances, result, strict=True)]
        mean = sum(p * gain for p, gain in zip(joint, gains, strict=True)) / sum(joint)
        spread = ThreePoint.single(mean).on_grid(step)
        for k, weight in enumerate(spread.weights, start=spread.first - first):
            weights[k] += sum(joint) * weight
    return Spread(step, first, tuple(weights))
