"""A promise is proved over every survey, or broken by one that can be read and judged like anybody's."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.inference.small import ALWAYS, presumption, rule
from tests.proof.asking import breaches, failing, promise, promised, proved
from tests.strategies import boats_with_findings
from triage.concluding.assess import assess_survey
from triage.errors import Place
from triage.inference.evaluate import evaluate
from triage.knowledge.model import Advice, Basis, KnowledgeBase, Rule, Suspect
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Elsewhere, Is
from triage.knowledge.model.event import EventRule, Happenings
from triage.proof.run import Outcome
from triage.survey.read import survey_from_text

SOFT = rule("soft", AtLeast("give", 2), {"glass": 2})
BROKEN_GLASS = rule("broken-glass", AtLeast("glass", 2), {"verdict": 2})


def only_example(outcome: Outcome) -> str:
    """The example of a claim broken at one place alone."""
    (answer,) = outcome.found
    (example,) = answer.examples
    assert answer.confirmed
    return example


def test_what_the_rules_say_is_proved_everywhere_it_can_come_up() -> None:
    kb = promised(SOFT, BROKEN_GLASS, promise("p/soft", AtLeast("give", 2), at_least={"verdict": 2}))

    outcome = proved(kb, "promise")["promise", "p/soft"]

    assert outcome.holds
    passed_by_give = 3  # the step is passed by its play, and a scuff is judged by its depth alone
    assert 3 * len(kb.zones) + passed_by_give == outcome.asked


def test_a_promise_that_asks_for_more_is_broken_by_the_mildest_survey() -> None:
    kb = promised(
        SOFT,
        BROKEN_GLASS,
        promise(
            "p/soft", All((Is("zone", ("rim",)), Is("sign", ("line",)), AtLeast("give", 1))), at_least={"verdict": 2}
        ),
    )

    example = only_example(proved(kb, "promise")["promise", "p/soft"])

    assert (
        "survey: 1\nboat:\n  name: Example\nfindings:\n- zone: rim\n  sign: line\n  readings:\n    give: give 1\n"
        == example
    )


def test_the_example_can_be_assessed_like_any_survey() -> None:
    kb = promised(promise("p/rim", All((Is("zone", ("rim",)), Is("sign", ("line",)))), at_least={"verdict": 1}))

    example = only_example(proved(kb, "promise")["promise", "p/rim"])

    assert "cosmetic" not in assess_survey(survey_from_text(example, kb), kb).findings[0].verdict.best


@pytest.mark.parametrize("fact", ["single", "cored"])
def test_what_holds_of_one_build_is_no_promise_for_an_unknown_one(fact: str) -> None:
    dented = AtLeast("depth", 2)
    rules = rule("cored", All((Is("build", ("cored",)), dented)), {"verdict": 1})
    kb = promised(
        rules,
        promise("p/build", All((Is("build", (fact,)), dented)), at_least={"verdict": 1}),
        promise("p/any", dented, at_least={"verdict": 1}),
    )

    assert {"single": {"p/build", "p/any"}, "cored": {"p/any"}}[fact] == failing(kb)


def test_an_unanswered_scale_is_at_its_worst_until_somebody_presumes() -> None:
    deep = rule("deep", AtLeast("depth", 1), {"verdict": 1})
    never = promise(
        "p/open",
        All((Is("sign", ("line",)), Is("zone", ("rim",)))),
        not_answered=("depth",),
        worst_at_least={"verdict": 1},
    )
    firm = presumption("firm", AtMost("give", 0), {"depth": 0})

    assert set() == failing(promised(deep, never))
    example = only_example(proved(promised(deep, never, firm), "promise")["promise", "p/open"])
    assert "readings:\n    give: give 0\n" in example


def test_named_checks_come_first_wherever_some_rule_hears_them() -> None:
    heard = rule("loose", AtLeast("play", 1), {"verdict": 1})
    first = promise("p/first", ALWAYS, named_checks_missing=True, worst_at_least={"verdict": 1})

    assert set() == failing(promised(heard, first))
    assert {"p/first"} == failing(promised(first))


def test_passing_checks_are_the_ways_in_which_a_part_is_passed() -> None:
    rules = [rule("soft", AtLeast("give", 1), {"verdict": 1}), rule("loose", AtLeast("play", 1), {"verdict": 1})]
    firm = presumption("firm", AtMost("sound", 0), {"play": 0})
    rim, step = (All((Is("zone", (zone,)), Is("sign", ("line",)))) for zone in ("rim", "step"))
    until_passed = {"passing_checks_missing": True, "worst_at_least": {"verdict": 1}}
    promises = [promise("p/rim", rim, **until_passed), promise("p/step", step, **until_passed)]

    assert set() == failing(promised(*rules, *promises))
    assert {"p/rim"} == failing(promised(rules[1], *promises, firm))


def test_at_most_speaks_of_the_best_end_of_a_finding_by_itself() -> None:
    line = All((Is("zone", ("rim",)), Is("sign", ("line",))))
    mild = promise("p/mild", line, answered_well=True, at_most={"verdict": 0, "hands": 1})
    beside = rule("beside", Elsewhere(AtLeast("play", 1)), {"verdict": 2})

    assert set() == failing(promised(SOFT, BROKEN_GLASS, beside, rule("plain", line, {"hands": 1}), mild))
    assert {"p/mild"} == failing(promised(rule("skilled", line, {"hands": 2}), mild))
    assert {"p/mild"} == failing(promised(rule("cored", Is("build", ("cored",)), {"verdict": 1}), mild))


def test_what_is_answered_well_is_no_worse_than_its_picture() -> None:
    deep = All((Is("zone", ("rim",)), Is("sign", ("gouge",))))
    as_it_looks = promise("p/as-it-looks", deep, answered_well=True, at_most={"verdict": 1})

    assert set() == failing(promised(rule("deep", AtLeast("depth", 2), {"verdict": 1}), as_it_looks))
    assert set() == failing(promised(rule("deeper", AtLeast("depth", 3), {"verdict": 2}), as_it_looks))
    assert {"p/as-it-looks"} == failing(promised(rule("deep", AtLeast("depth", 2), {"verdict": 2}), as_it_looks))


@pytest.mark.parametrize("by", ["a rule", "an event"])
def test_a_promise_of_suspicions_speaks_of_what_rules_send_people_to_look_for(by: str) -> None:
    open_ = promise("p/open", ALWAYS, of_suspicions=True, worst_at_least={"verdict": 2})

    def sent(*rules: Rule) -> KnowledgeBase:
        suspects = (Suspect("rim", "line"),)
        if by == "a rule":
            return promised(*rules, replace(rule("send", AtLeast("play", 1), {}), suspects=suspects), open_)
        told = (("rammed",), frozenset({"hard"}), frozenset({"today"}), "because", Basis("estimate"), Place("a test"))
        event = EventRule("send", *told, suspects=suspects)
        return replace(promised(*rules, open_), happenings=Happenings(rules=(event,)))

    assert set() == failing(sent(SOFT, BROKEN_GLASS))
    example = only_example(proved(sent(SOFT), "promise")["promise", "p/open"])
    assert "readings" not in example
    assert "zone: rim" in example


def test_a_promise_of_suspicions_where_nobody_is_sent_anywhere_promises_nothing() -> None:
    kb = promised(promise("p/open", ALWAYS, of_suspicions=True, worst_at_least={"verdict": 2}))

    assert not proved(kb, "nonvacuity")["nonvacuity", "p/open"].holds


def test_a_promise_about_two_findings_is_asked_of_both_together() -> None:
    slot_opens, root_weeps = (
        All((Is("zone", ("rim",)), AtLeast("give", 1))),
        All((Is("zone", ("tank",)), AtLeast("sound", 1))),
    )
    both = All((slot_opens, Elsewhere(root_weeps)))
    kb = promised(
        rule("joint", both, {"verdict": 2}),
        promise("p/joint", both, at_least={"verdict": 2}),
        promise("p/alone", slot_opens, at_least={"verdict": 2}),
    )

    assert {"p/alone"} == failing(kb)


def test_the_sides_decide_who_is_a_twin() -> None:
    line = All((Is("zone", ("deck",)), Is("sign", ("line",))))
    twins = All((line, Elsewhere(line, where="twin")))
    kb = promised(
        rule("twins", twins, {"verdict": 1}),
        promise("p/twins", twins, at_least={"verdict": 1}),
        promise("p/two", All((line, Elsewhere(line))), at_least={"verdict": 1}),
    )

    outcomes = proved(kb, "promise")

    assert outcomes["promise", "p/twins"].holds
    assert 2 == only_example(outcomes["promise", "p/two"]).count("zone: deck")


def test_two_others_are_more_than_one() -> None:
    line = All((Is("zone", ("rim",)), Is("sign", ("line",))))
    three = All((line, Elsewhere(line, count=2)))
    kb = promised(
        rule("three", three, {"verdict": 1}),
        promise("p/three", three, at_least={"verdict": 1}),
        promise("p/two", All((line, Elsewhere(line))), at_least={"verdict": 1}),
    )

    assert {"p/two"} == failing(kb)


def test_two_others_may_be_of_different_kinds() -> None:
    line, loose = Is("sign", ("line",)), Is("sign", ("line", "loose"))
    rim = All((Is("zone", ("rim",)), line))
    alike = [
        rule(sign, All((rim, Elsewhere(Is("sign", (sign,)), count=2))), {"verdict": 1}) for sign in ("line", "loose")
    ]
    kb = promised(*alike, promise("p/two", All((rim, Elsewhere(loose, count=2))), at_least={"verdict": 1}))

    assert {"p/two"} == failing(kb)


@pytest.mark.slow
def test_one_other_may_answer_both_questions() -> None:
    rim, loud, soft = All((Is("zone", ("rim",)), Is("sign", ("line",)))), AtLeast("sound", 1), AtLeast("give", 1)
    kb = promised(
        rule("two-others", All((rim, Elsewhere(Any((loud, soft)), count=2))), {"verdict": 1}),
        promise("p/both", All((rim, Elsewhere(loud), Elsewhere(soft))), at_least={"verdict": 1}),
    )

    outcome = proved(kb, "promise")["promise", "p/both"]

    assert 2 in {answer.examples[0].count("zone:") for answer in outcome.found}


def test_a_promised_sentence_must_be_said_and_be_of_its_kind() -> None:
    bent, warned = AtLeast("play", 1), Advice("never", "Do not bend it back.")
    kb = promised(
        replace(rule("bent", bent, {"hold": 1}), advises=(warned,)),
        promise("p/never", bent, advises=("never",)),
        promise("p/recheck", bent, advises=("never", "recheck")),
    )

    assert {"p/recheck"} == failing(kb)


def test_a_promise_that_never_comes_up_is_told() -> None:
    kb = promised(promise("p/nowhere", All((Is("sign", ("scuff",)), AtLeast("give", 1))), at_least={"verdict": 1}))

    outcomes = proved(kb)

    assert outcomes["promise", "p/nowhere"].holds
    assert not outcomes["nonvacuity", "p/nowhere"].holds


@given(data=st.data())
def test_no_survey_breaks_a_shipped_promise(kb: KnowledgeBase, data: st.DataObject) -> None:
    boat, found = data.draw(boats_with_findings(kb))

    assert [] == breaches(kb, boat, evaluate(kb, boat, found))
