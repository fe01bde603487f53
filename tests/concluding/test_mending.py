"""Repairs: every finding that matters has one, and none says more than the rules allow."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from tests.conftest import ROOT
from tests.marks import BOAT, judged_marks
from tests.mistakes import small_base
from triage.concluding.mending import mendings, repair_of
from triage.conclusions.assessment import Assessment
from triage.conclusions.repairs import RepairAdvice
from triage.errors import BadRules
from triage.knowledge.model import AFLOAT, HANDS, KnowledgeBase
from triage.knowledge.store.load import knowledge_from_texts
from triage.lint.repairs import repair_problems

Assess = Callable[[str], Assessment]


def repair(id: str, when: str) -> str:  # noqa: A002
    rest = "who: repairer, outline: [Mend it.], meanwhile: No., basis: estimate"
    return f"  - {{id: {id}, name: It, when: {when}, {rest}}}\n"


@pytest.mark.parametrize(
    ("repairs", "expected"),
    [
        ([repair("mend/all", "{verdict: {at_least: 1}}")], []),
        ([repair("mend/stem", "{zone: stem}"), repair("mend/rest", "{verdict: {at_least: 1}}")], []),
        (
            [repair("mend/rest", "{verdict: {at_least: 1}}"), repair("mend/grave", "{verdict: {at_least: 2}}")],
            ["mend/grave is never shown: nothing fits it, or an earlier repair always does"],
        ),
        (
            [
                repair("mend/grave", "{verdict: {at_least: 2}}"),
                repair("mend/tank", "{zone: [tank, chainplate, side_deck]}"),
            ],
            ["hairline at stem can be graver than cosmetic, and no repair fits it"],
        ),
    ],
    ids=["one for all", "special first", "special last", "none for some"],
)
def test_findings_without_a_repair_and_repairs_that_are_never_shown_are_told(
    repairs: list[str], expected: list[str]
) -> None:
    kb = small_base(repairs="repairs:\n" + "".join(repairs))

    assert set(expected) <= {problem.what for problem in repair_problems(kb)}
    assert expected or [] == list(repair_problems(kb))


def test_the_shipped_repairs_cover_what_the_trade_mends(kb: KnowledgeBase) -> None:
    assert len(kb.mending.repairs) >= 45
    assert len(kb.mending.hazards) >= 14


def test_no_repair_says_that_she_may_sail_where_the_rules_keep_her_ashore(
    kb: KnowledgeBase,
) -> None:
    kept_back = [
        (repair.id, repair.meanwhile)
        for judged in judged_marks(kb)
        if judged.lower.level(AFLOAT) == kb.level_of(AFLOAT, "barred")
        and (repair := repair_of(kb, BOAT, judged, "lower")) is not None
    ]

    assert len(kept_back) > 50
    assert [] == [
        one for one in kept_back if re.search(r"\b(yes|may (be )?sail(ed)?|sail as usual)\b", one[1], re.IGNORECASE)
    ]


def test_a_repair_is_never_in_milder_hands_than_the_rules_say(kb: KnowledgeBase) -> None:
    names = [level.name for level in kb.scales[HANDS].levels]

    for judged in judged_marks(kb):
        repair = mendings(kb, BOAT, judged)[0]
        assert repair is None or names.index(repair.who) >= judged.lower.level(HANDS)


def test_money_is_a_range_with_its_year_and_unit_and_a_word_to_get_a_quote(kb: KnowledgeBase) -> None:
    prices = kb.mending.prices

    assert prices is not None
    assert 2026 == prices.year
    assert "Get a quote" in prices.note
    for repair in kb.mending.repairs:
        for span in (repair.hours, repair.materials, repair.repairer):
            assert span is None or span[0] <= span[1]
        assert (repair.repairer is None) == (repair.materials is None) == (repair.hours is None)
        assert repair.repairer is None or repair.basis.kind == "estimate"


def test_glass_repairs_name_the_dust_and_structural_ones_say_when_to_stop(kb: KnowledgeBase) -> None:
    glass = [repair for repair in kb.mending.repairs if "taper" in repair.workshop]

    assert len(glass) > 3
    for repair in glass:
        assert {"glass_dust", "bare_fibre"} <= set(repair.hazards), repair.id
        assert repair.stop_when, repair.id


def test_the_assessment_carries_the_repair_for_what_is_known_and_for_the_worst_it_may_be(assess_text: Assess) -> None:
    assessment = assess_text("""
        boat: {name: Wagtail}
        findings:
          - {zone: joint_stern, sign: joint_crack, readings: {joint_gap: 2}}
          - {zone: side_deck, side: port, sign: hairline}
        """)

    seam, line = assessment.findings
    assert isinstance(seam.mending, RepairAdvice)
    assert ("mend/parted-seam-at-an-end", "repairer", (150, 1100), 2026) == (
        seam.mending.id,
        seam.mending.who,
        seam.mending.repairer,
        seam.mending.year,
    )
    assert seam.mending_at_worst is None
    assert line.mending is not None
    assert line.mending_at_worst is not None
    assert ("mend/lines-in-the-coat", "mend/broken-glass") == (line.mending.id, line.mending_at_worst.id)


def test_mistakes_in_a_repair_are_all_told_with_what_to_do() -> None:
    small = {file.name: file.read_text(encoding="utf-8") for file in (ROOT / "tests/knowledge/small").glob("*.yaml")}
    wrong = """
hazards: {glass_dust: {name: Dust, where: sanding, say: Wear a mask.}}
repairs:
  - id: mend/it
    name: It
    when: {sgin: hairline, elsewhere: {zone: stem}}
    who: ownr
    outline: [It is mended.]
    hours: [4, 2]
    meanwhile: No.
    hazards: [glas_dust]
    basis: estimate
"""

    with pytest.raises(BadRules) as caught:
        knowledge_from_texts({**small, "repairs.yaml": wrong})

    told = str(caught.value)
    assert 'unknown word "sgin"' in told
    assert "one finding only" in told
    assert 'hands has no level "ownr"' in told
    assert "from the least to the most" in told
    assert 'Did you mean "glass_dust"?' in told
