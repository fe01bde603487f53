"""What if: judging again only what an answer changes gives the same as judging the whole boat again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import product
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.inference.small import boat, finding, knowledge, rule
from tests.strategies import boats_with_findings, knowledge_bases
from triage.inference.evaluate import evaluate
from triage.inference.whatif import WhatIf, what_ifs
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.knowledge.model.conditions import All, AtLeast, Elsewhere, Is, Where
from triage.knowledge.model.conditions import Any as AnyOf
from triage.survey.model import Boat, Finding, Reading

LINE = Is("sign", ("line",))


def with_answer(findings: Sequence[Finding], me: int, scale: str, level: int) -> list[Finding]:
    """The findings with one scale of one of them answered so."""
    readings = {**findings[me].readings, scale: Reading.at(level, "what if")}
    return [replace(one, readings=readings) if n == me else one for n, one in enumerate(findings)]


def check_one_answer(kb: KnowledgeBase, data: st.DataObject) -> None:
    wagtail, findings = data.draw(boats_with_findings(kb, most=6))
    me = data.draw(st.integers(0, len(findings) - 1))
    whatif = what_ifs(kb, wagtail, findings)[me]
    if not whatif.applicable:
        return
    scale = data.draw(st.sampled_from(whatif.applicable))
    level = data.draw(st.sampled_from(whatif.levels(scale)))

    expected = evaluate(kb, wagtail, with_answer(findings, me, scale, level))[me]

    assert expected == whatif.judged({scale: level})


def check_every_answer(kb: KnowledgeBase, wagtail: Boat, found: Sequence[Finding]) -> None:
    """Each finding with each level of give."""
    for me, whatif in enumerate(what_ifs(kb, wagtail, found)):
        for level in range(4):
            expected = evaluate(kb, wagtail, with_answer(found, me, "give", level))[me]

            assert expected == whatif.judged({"give": level})


@settings(max_examples=50)
@given(data=st.data())
def test_on_random_rules(data: st.DataObject) -> None:
    check_one_answer(data.draw(knowledge_bases()), data)


@settings(max_examples=30)
@given(data=st.data())
def test_on_the_shipped_rules(kb: KnowledgeBase, data: st.DataObject) -> None:
    check_one_answer(kb, data)


@pytest.mark.parametrize("where", get_args(Where))
@pytest.mark.parametrize("count", [1, 2])
def test_on_findings_that_move_each_other_back_and_forth(count: int, where: Where) -> None:
    """An answer here gives there a hold that this one is judged by in turn, if so many others give as well."""
    kb = knowledge(
        rule("asks", Elsewhere(AtLeast("give", 2), count, where), {"hold": 2}),
        rule("asks-back", Elsewhere(AtLeast("hold", 2), 1, "anywhere"), {"verdict": 2}),
    )
    places = (("deck", "port"), ("deck", "starboard"), ("rim", None), ("tank", None))
    for levels in product((None, 0, 2), repeat=len(places)):
        told = [{} if level is None else {"give": level} for level in levels]
        found = [finding(zone, "line", side, **some) for (zone, side), some in zip(places, told, strict=True)]

        check_every_answer(kb, boat(), found)


def test_a_fact_told_of_the_boat_moves_the_others_too() -> None:
    cored_step = All((Is("zone", ("step",)), Is("build", ("cored",))))
    kb = knowledge(
        rule("core", cored_step, {"glass": 2}),
        rule(
            "beside-the-step",
            All((Is("zone", ("rim",)), Elsewhere(AtLeast("glass", 2), 1, "anywhere"))),
            {"verdict": 2},
        ),
    )
    found = [finding("rim", "line"), finding("step", "line")]
    whatif = WhatIf(kb, boat(), found[0], found)

    assert [(2, 2), (0, 0)] == [whatif.judged({"build": built}).interval("verdict") for built in ("cored", "single")]


def test_an_answer_moves_what_it_is_asked_for_and_nothing_beside_it() -> None:
    """Two things are asked of the others at once, and an answer changes one of them, or another."""
    kb = knowledge(
        rule("asks-of-give", Elsewhere(AtLeast("give", 2)), {"glass": 2}),
        rule("asks-of-sound", Elsewhere(AtLeast("sound", 2)), {"hold": 2}),
        rule("asks-back", All((Elsewhere(AtLeast("hold", 2)), Elsewhere(AtLeast("glass", 2)))), {"verdict": 2}),
    )
    for told in product(({}, {"give": 2, "sound": 0}, {"give": 0, "sound": 2}), repeat=3):
        found = [finding(zone, "line", None, **some) for zone, some in zip(("rim", "tank", "step"), told, strict=True)]
        for me, whatif in enumerate(what_ifs(kb, boat(), found)):
            for give, sound in product((0, 2), repeat=2):
                answered = with_answer(with_answer(found, me, "give", give), me, "sound", sound)

                assert evaluate(kb, boat(), answered)[me] == whatif.judged({"give": give, "sound": sound})


def test_a_fact_told_stays_with_those_that_an_answer_then_moves() -> None:
    """The step is glass through the fact; together with an answer at the rim it gives way, and the deck without."""
    in_glass = All((Is("zone", ("step",)), AtLeast("glass", 2), Elsewhere(AtLeast("give", 2))))
    kb = knowledge(
        rule("core", All((Is("zone", ("step",)), Is("build", ("cored",)))), {"glass": 2}),
        rule("asks", in_glass, {"hold": 2}),
        rule("asks-too", All((Is("zone", ("deck",)), Elsewhere(AtLeast("give", 2)))), {"hold": 1}),
        rule("asks-back", All((Is("zone", ("rim",)), Elsewhere(AtLeast("hold", 1)))), {"verdict": 1}),
        rule("asks-back-more", All((Is("zone", ("rim",)), Elsewhere(AtLeast("hold", 2)))), {"verdict": 2}),
    )
    found = [finding("rim", "line"), finding("step", "line"), finding("deck", "line", "port")]
    for build, give in product(("cored", "single"), range(4)):
        (whatif, *_), expected = what_ifs(kb, boat(), found), with_answer(found, 0, "give", give)

        assert evaluate(kb, boat(build=build), expected)[0] == whatif.judged({"build": build, "give": give})


@pytest.mark.parametrize("where", ["twin", "same side"])
def test_what_is_on_a_side_that_nobody_told_may_be_the_one_that_is_moved(where: Where) -> None:
    kb = knowledge(
        rule("asks", Elsewhere(AtLeast("give", 2), 1, where), {"hold": 2}),
        rule("asks-back", Elsewhere(AtLeast("hold", 2), 1, where), {"verdict": 2}),
    )
    for levels in product((None, 0, 2), repeat=3):
        told = [{} if level is None else {"give": level} for level in levels]
        sides = zip(("port", None, "starboard"), told, strict=True)

        check_every_answer(kb, boat(), [finding("deck", "line", side, **some) for side, some in sides])


def test_one_more_is_enough_only_with_those_that_count_for_certain() -> None:
    """Whether the tank encloses buoyancy is unknown: for certain it is no second one, but it may be."""
    two_soft = Elsewhere(All((Is(BUOYANCY, ("yes",)), AtLeast("give", 2))), count=2)
    kb = knowledge(
        rule("asks", All((Is("sign", ("gouge",)), two_soft)), {"hold": 2}),
        rule("asks-back", All((Is("zone", ("rim",)), Elsewhere(AtLeast("hold", 2)))), {"verdict": 2}),
    )
    wagtail = boat().knowing(BUOYANCY, "yes", "rim").knowing(BUOYANCY, "yes", "step")
    soft = (finding("step", "line", give=2), finding("tank", "line", give=2))

    check_every_answer(kb, wagtail, [finding("rim", "line"), *soft, finding("deck", "gouge")])


@pytest.mark.parametrize("before", [0, 2])
def test_an_answer_moves_others_though_an_unknown_fact_might_have_moved_them_anyway(before: int) -> None:
    wet_or_soft = Elsewhere(AnyOf((Is(BUOYANCY, ("yes",)), AtLeast("give", 2))))
    kb = knowledge(
        rule("asks", All((Is("sign", ("gouge",)), wet_or_soft)), {"hold": 2}),
        rule("asks-back", All((Is("zone", ("rim",)), Elsewhere(AtLeast("hold", 2)))), {"verdict": 2}),
    )

    check_every_answer(kb, boat(), [finding("rim", "line", give=before), finding("deck", "gouge")])


def test_whether_a_place_encloses_buoyancy_is_told_of_that_place() -> None:
    kb = knowledge(rule("wet", Is(BUOYANCY, ("yes",)), {"verdict": 2}))
    line = finding("rim", "line")
    whatif = WhatIf(kb, boat(), line, [line])

    assert [(2, 2), (0, 0)] == [whatif.judged({BUOYANCY: said}).interval("verdict") for said in ("yes", "no")]


def check_a_fact(kb: KnowledgeBase, data: st.DataObject) -> None:
    wagtail, findings = data.draw(boats_with_findings(kb, most=6))
    me = data.draw(st.integers(0, len(findings) - 1))
    whatif = what_ifs(kb, wagtail, findings)[me]
    values = {fact.id: tuple(fact.values) for fact in kb.facts.values()} | {BUOYANCY: ("yes", "no")}
    fact = data.draw(st.sampled_from(sorted(values)))
    value = data.draw(st.sampled_from(values[fact]))
    answers: dict[str, int | str] = {fact: value}
    if whatif.applicable:
        scale = data.draw(st.sampled_from(whatif.applicable))
        answers[scale] = data.draw(st.sampled_from(whatif.levels(scale)))
        findings = tuple(with_answer(findings, me, scale, int(answers[scale])))

    expected = evaluate(kb, wagtail.knowing(fact, value, findings[me].zone), findings)[me]

    assert expected == whatif.judged(answers)


@settings(max_examples=30)
@given(data=st.data())
def test_a_fact_with_an_answer_on_random_rules(data: st.DataObject) -> None:
    check_a_fact(data.draw(knowledge_bases()), data)


@settings(max_examples=20)
@given(data=st.data())
def test_a_fact_with_an_answer_on_the_shipped_rules(kb: KnowledgeBase, data: st.DataObject) -> None:
    check_a_fact(kb, data)


def test_scales_are_unanswered_tried_in_vain_or_answered() -> None:
    readings = {"give": Reading.attempted(), "sound": Reading.at(1, "1")}
    line = replace(finding("rim", "line"), readings=readings)
    whatif = WhatIf(knowledge(), boat(), line, [line])

    assert ("give",) == whatif.attempted
    assert {"play", "depth"} == set(whatif.unanswered)


def test_an_answer_that_may_mean_several_levels_leaves_its_scale_open() -> None:
    line = replace(finding("rim", "line"), readings={"give": Reading(1, 2, "1 or 2"), "sound": Reading.at(1)})
    kb = knowledge(rule("soft", AtLeast("give", 1), {"verdict": 1}), rule("softer", AtLeast("give", 2), {"verdict": 2}))
    whatif = WhatIf(kb, boat(), line, [line])

    assert ("give",) == whatif.attempted
    assert [[1], [2]] == whatif.outlook.equivalence_classes("give")


def test_levels_to_ask_about_go_from_the_mildest_to_the_worst_that_the_mark_can_show() -> None:
    gouge, scuff = finding("rim", "gouge"), finding("rim", "scuff")

    assert [2, 3] == list(WhatIf(knowledge(), boat(), gouge, [gouge]).levels("depth"))
    assert [0, 1] == list(WhatIf(knowledge(), boat(), scuff, [scuff]).levels("depth"))
