"""Repairs in other hands than the rules ask for."""

from __future__ import annotations

import itertools
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.inference.small import ALWAYS, knowledge, rule
from triage.concluding.mending import repair_of
from triage.errors import Place
from triage.inference.evaluate import evaluate
from triage.knowledge.model import HANDS, VERDICT, Basis, KnowledgeBase, Rule
from triage.knowledge.model.conditions import All, Any, AtLeast, Condition, Elsewhere, Is
from triage.knowledge.model.repair import Mending, Repair
from triage.lint.hands import disagreements, hands_problems
from triage.survey.model import Boat, Finding, Reading

OWNER, HANDY, REPAIRER = 1, 2, 3

SOFT = rule("soft", AtLeast("give", 2), {"verdict": 2})
SKILLED = rule("skilled", AtLeast("give", 3), {HANDS: REPAIRER})


def mended(rules: list[Rule], *repairs: tuple[str, Condition, int]) -> KnowledgeBase:
    """The small boat with these rules, and repairs by name, condition and hands."""
    made = (
        Repair(id_, number, id_, when, who, ("Mend it.",), "No.", Basis("estimate"), Place("repairs.yaml", number))
        for number, (id_, when, who) in enumerate(repairs)
    )
    return replace(knowledge(*rules), mending=Mending(tuple(made)))


def pairs(kb: KnowledgeBase) -> set[tuple[str, str]]:
    return {(one.repair.id, one.rule.id) for one in disagreements(kb)}


def test_an_owners_repair_where_a_rule_asks_for_a_repairer_is_told_with_both_and_what_to_do() -> None:
    kb = mended([SOFT, SKILLED], ("mend", AtLeast(VERDICT, 1), OWNER))

    (problem,) = hands_problems(kb)

    assert Place("repairs.yaml", 0) == problem.place
    assert "mend is written for: hands 1; for line at deck skilled asks for: hands 3" == problem.what
    assert "of that trade" in problem.hint


def test_a_repairers_repair_anywhere_in_the_list_is_told_instead() -> None:
    trade = ("by-the-trade", AtLeast(HANDS, REPAIRER), REPAIRER)

    assert set() == pairs(mended([SOFT, SKILLED], ("mend", AtLeast(VERDICT, 1), OWNER), trade))


def test_a_repair_of_the_trade_before_it_ends_the_disagreement() -> None:
    trade = ("by-the-trade", AtLeast(HANDS, REPAIRER), REPAIRER)

    assert set() == pairs(mended([SOFT, SKILLED], trade, ("mend", AtLeast(VERDICT, 1), OWNER)))


def test_a_rule_that_never_meets_the_repair_does_not_disagree_with_it() -> None:
    on_a_line = rule("on-a-line", All((Is("sign", ("line",)), AtLeast("give", 2))), {HANDS: REPAIRER})
    cored = rule("cored", All((Is("build", ("cored",)), AtLeast("give", 2))), {HANDS: REPAIRER})
    loose = ("mend", All((Is("sign", ("loose",)), AtLeast(VERDICT, 1))), OWNER)
    single = ("mend", All((Is("build", ("single",)), AtLeast(VERDICT, 1))), OWNER)

    assert set() == pairs(mended([SOFT, on_a_line], loose))
    assert set() == pairs(mended([SOFT, cored], single))


def test_what_the_picture_shows_counts() -> None:
    deep = rule("deep", All((Is("sign", ("gouge",)), AtLeast("depth", 2))), {HANDS: REPAIRER, VERDICT: 1})
    by_its_looks = ("gouge", Is("sign", ("gouge",)), REPAIRER)

    assert set() == pairs(mended([deep], by_its_looks))


def test_what_is_asked_of_other_findings_can_be_so() -> None:
    beside = rule("beside", Elsewhere(AtLeast("play", 1)), {HANDS: REPAIRER})

    assert {("mend", "beside")} == pairs(mended([SOFT, beside], ("mend", AtLeast(VERDICT, 1), OWNER)))


@st.composite
def conditions(draw: st.DrawFn, *, derived: bool) -> Condition:
    """Something about one finding, in one way or in two."""
    scales = ("give", "sound", *(("glass", VERDICT) if derived else ()))
    tests: list[Condition] = [AtLeast(scale, level) for scale in scales for level in (1, 2, 3)]
    tests += [Is("build", ("cored",)), Is("build", ("single",)), Is("build", ("cored", "single"))]
    tests += [Is("sign", ("line", "loose")), Is("sign", ("gouge",)), Is("zone", ("rim",)), AtLeast("depth", 2)]
    ways = st.lists(st.sampled_from(tests), min_size=1, max_size=2).map(lambda chosen: All(tuple(chosen)))
    return Any(tuple(draw(st.lists(ways, min_size=1, max_size=2))))


@st.composite
def bases(draw: st.DrawFn) -> KnowledgeBase:
    raised = ("glass", VERDICT, HANDS, HANDS)
    rules = [
        rule(f"{scale}-{n}", draw(conditions(derived=scale == HANDS)), {scale: draw(st.integers(1, 3))})
        for n, scale in enumerate(raised)
    ]
    repairs = [(f"mend-{n}", draw(conditions(derived=True)), draw(st.integers(1, 3))) for n in range(3)]
    return mended(rules, *repairs, ("mend-rest", ALWAYS, draw(st.integers(1, 3))))


@settings(max_examples=25)
@given(kb=bases())
def test_it_is_what_trying_every_answer_finds(kb: KnowledgeBase) -> None:
    at_the_rim = {zone: ("line", "gouge", "loose") if zone == "rim" else () for zone in kb.zones}

    assert _by_trying(kb) == pairs(replace(kb, offers=at_the_rim))


def _by_trying(kb: KnowledgeBase) -> set[tuple[str, str]]:
    found: set[tuple[str, str]] = set()
    for sign, facts in itertools.product(("line", "gouge", "loose"), ({}, {"build": "cored"}, {"build": "single"})):
        boat = Boat("Wagtail", facts)
        for give, sound, depth in itertools.product(range(4), repeat=3):
            if depth < kb.best(sign, "depth"):
                continue
            levels = {"give": give, "sound": sound, "depth": depth, "play": 0}
            readings = {scale: Reading.at(level) for scale, level in levels.items()}
            (judged,) = evaluate(kb, boat, [Finding("mark", "rim", sign, None, readings)])
            repair, asked = repair_of(kb, boat, judged, "lower"), judged.lower.level(HANDS)
            if repair is not None and repair.who < REPAIRER <= asked:
                raising = {one.rule.id for one in judged.lower.firings if (HANDS, asked) in one.rule.raises}
                found |= {(repair.id, id_) for id_ in raising}
    return found


def test_whatever_somebody_has_to_do_has_its_price_in_either_hands(kb: KnowledgeBase) -> None:
    unpriced = [one.id for one in kb.mending.repairs if one.who and not (one.materials and one.repairer)]

    assert ["mend/papers"] == unpriced  # proof is asked for and not bought
