"""What a rule means, one small case at a time, for every engine.

`judge` judges a boat with one engine and tells of its first finding the pair (best, worst) for a scale.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from tests.engines import ENGINES
from tests.inference.small import ALWAYS, boat, finding, knowledge, presumption, rule
from triage.knowledge.model import NOTHING_SEEN, Cap, Fact, KnowledgeBase
from triage.knowledge.model.conditions import All, AtLeast, AtMost, Elsewhere, Is
from triage.knowledge.model.conditions import Any as AnyOf
from triage.survey.model import Boat, Finding

Judge = Callable[..., tuple[int, int]]
UNKNOWN_BOAT = boat()


@pytest.fixture(params=ENGINES)
def judge(request: pytest.FixtureRequest) -> Judge:
    engine = ENGINES[request.param]

    def judge_first(kb: KnowledgeBase, scale: str, *findings: Finding, on: Boat = UNKNOWN_BOAT) -> tuple[int, int]:
        first = engine(kb, on, findings)[0]
        return first["lower"].levels.get(scale, 0), first["upper"].levels.get(scale, 0)

    return judge_first


# Answers, and what is not answered


def test_an_answer_counts_at_both_ends(judge: Judge) -> None:
    kb = knowledge(rule("soft", AtLeast("give", 2), {"glass": 1}))

    assert judge(kb, "glass", finding("deck", "line", give=2)) == (1, 1)
    assert judge(kb, "glass", finding("deck", "line", give=1)) == (0, 0)


def test_a_scale_nobody_answered_is_at_its_best_for_the_floor_and_at_its_worst_for_the_ceiling(judge: Judge) -> None:
    kb = knowledge(rule("soft", AtLeast("give", 3), {"glass": 2}))

    assert judge(kb, "glass", finding("deck", "line")) == (0, 2)
    assert judge(kb, "give", finding("deck", "line")) == (0, 3)


def test_the_ceiling_goes_no_further_than_the_sign_allows(judge: Judge) -> None:
    kb = knowledge(rule("coat", AtLeast("depth", 1), {"glass": 1}), rule("fibre", AtLeast("depth", 2), {"glass": 3}))

    assert judge(kb, "glass", finding("deck", "scuff")) == (0, 1)
    assert judge(kb, "glass", finding("deck", "line")) == (0, 3)


def test_a_scale_that_does_not_apply_to_the_sign_is_never_open(judge: Judge) -> None:
    kb = knowledge(rule("soft", AtLeast("give", 1), {"glass": 1}))

    assert judge(kb, "glass", finding("deck", "scuff")) == (0, 0)


def test_what_passes_the_place_is_open_under_nothing_seen(judge: Judge) -> None:
    kb = knowledge(rule("soft", AtLeast("give", 1), {"glass": 1}))

    assert judge(kb, "glass", finding("deck", NOTHING_SEEN)) == (0, 1)
    assert judge(kb, "glass", finding("deck", NOTHING_SEEN, give=0)) == (0, 0)


# Words


def test_a_word_nobody_knows_matches_nothing_at_the_floor_and_anything_at_the_ceiling(judge: Judge) -> None:
    kb = knowledge(rule("cored", Is("build", ("cored",)), {"glass": 1}))

    assert judge(kb, "glass", finding("deck", "line")) == (0, 1)
    assert judge(kb, "glass", finding("deck", "line"), on=boat(build="cored")) == (1, 1)
    assert judge(kb, "glass", finding("deck", "line"), on=boat(build="single")) == (0, 0)


def test_an_unknown_word_may_be_one_thing_here_and_another_there(judge: Judge) -> None:
    both = All((Is("build", ("cored",)), Is("build", ("single",))))
    kb = knowledge(rule("both", both, {"glass": 1}))

    assert judge(kb, "glass", finding("deck", "line")) == (0, 1)
    assert judge(kb, "glass", finding("deck", "line"), on=boat(build="single")) == (0, 0)


def test_zone_and_sign_are_always_known(judge: Judge) -> None:
    kb = knowledge(rule("here", All((Is("zone", ("deck", "rim")), Is("sign", ("line",)))), {"glass": 1}))

    assert judge(kb, "glass", finding("rim", "line")) == (1, 1)
    assert judge(kb, "glass", finding("tank", "line")) == (0, 0)
    assert judge(kb, "glass", finding("rim", "scuff")) == (0, 0)


# Rules upon rules


def test_a_rule_reads_what_another_raised_whichever_is_written_first(judge: Judge) -> None:
    raises_glass = rule("glass", AtLeast("give", 1), {"glass": 2})
    reads_glass = rule("grave", AtLeast("glass", 2), {"verdict": 2})

    assert judge(knowledge(raises_glass, reads_glass), "verdict", finding("deck", "line", give=1)) == (2, 2)
    assert judge(knowledge(reads_glass, raises_glass), "verdict", finding("deck", "line", give=1)) == (2, 2)


def test_the_worst_of_several_rules_stands(judge: Judge) -> None:
    kb = knowledge(rule("worse", AtLeast("give", 1), {"glass": 3}), rule("mild", AtLeast("give", 1), {"glass": 1}))

    assert judge(kb, "glass", finding("deck", "line", give=1)) == (3, 3)


def test_one_rule_can_raise_two_scales(judge: Judge) -> None:
    kb = knowledge(rule("both", AtLeast("give", 1), {"glass": 1, "hold": 2}))

    assert judge(kb, "glass", finding("deck", "line", give=1)) == (1, 1)
    assert judge(kb, "hold", finding("deck", "line", give=1)) == (2, 2)


def test_any_one_branch_is_enough(judge: Judge) -> None:
    kb = knowledge(rule("either", AnyOf((AtLeast("give", 2), AtLeast("sound", 2))), {"glass": 1}))

    assert judge(kb, "glass", finding("deck", "line", give=0, sound=2)) == (1, 1)
    assert judge(kb, "glass", finding("deck", "line", give=1, sound=1)) == (0, 0)


def test_a_fact_that_is_told_counts_whatever_nobody_told_of_another(judge: Judge) -> None:
    kb = knowledge(
        rule("built", Is("build", ("cored",)), {"glass": 1}), rule("pole", Is("bow_pole", ("yes",)), {"verdict": 1})
    )
    pole = Fact("bow_pole", "Has she a pole?", {"yes": "a pole", "no": "none"}, "")
    kb = replace(kb, facts={**kb.facts, "bow_pole": pole})

    assert judge(kb, "glass", finding("deck", "line"), on=boat(build="single")) == (0, 0)
    assert judge(kb, "verdict", finding("deck", "line"), on=boat(build="single")) == (0, 1)


# Other findings


WET_TANK = Elsewhere(All((Is("zone", ("tank",)), AtLeast("depth", 2))))


def test_elsewhere_reads_the_floors_of_others_at_the_floor_and_their_ceilings_at_the_ceiling(judge: Judge) -> None:
    kb = knowledge(rule("tank", WET_TANK, {"glass": 1}))
    here = finding("deck", "line")

    assert judge(kb, "glass", here, finding("tank", "line", depth=2)) == (1, 1)
    assert judge(kb, "glass", here, finding("tank", "line", depth=1)) == (0, 0)
    assert judge(kb, "glass", here, finding("tank", "line")) == (0, 1)


def test_a_finding_is_never_its_own_elsewhere(judge: Judge) -> None:
    kb = knowledge(rule("tank", WET_TANK, {"glass": 1}))

    assert judge(kb, "glass", finding("tank", "line", depth=3)) == (0, 0)
    assert judge(kb, "glass", finding("tank", "line", depth=3), finding("tank", "loose", depth=3)) == (1, 1)


def test_elsewhere_reads_what_rules_raised_on_the_others(judge: Judge) -> None:
    kb = knowledge(
        rule("soft", AtLeast("give", 2), {"glass": 2}), rule("spreads", Elsewhere(AtLeast("glass", 2)), {"verdict": 1})
    )

    assert judge(kb, "verdict", finding("rim", "scuff", depth=0), finding("deck", "line", give=2)) == (1, 1)


def test_a_fact_that_nobody_told_is_no_match_for_another_finding_at_the_floor(judge: Judge) -> None:
    kb = knowledge(rule("tank", Elsewhere(All((Is("build", ("cored",)), Is("zone", ("tank",))))), {"glass": 1}))
    here, other = finding("deck", "line"), finding("tank", "line")

    assert judge(kb, "glass", here, other) == (0, 1)
    assert judge(kb, "glass", here, other, on=boat(build="cored")) == (1, 1)
    assert judge(kb, "glass", here, other, on=boat(build="single")) == (0, 0)


def test_one_other_finding_may_satisfy_several_rules(judge: Judge) -> None:
    kb = knowledge(rule("gives", Elsewhere(AtLeast("give", 1)), {"glass": 1}), rule("tank", WET_TANK, {"verdict": 1}))
    here, other = finding("deck", "line"), finding("tank", "line", give=1, depth=2)

    assert judge(kb, "glass", here, other) == (1, 1)
    assert judge(kb, "verdict", here, other) == (1, 1)


def test_a_count_of_two_needs_two_others(judge: Judge) -> None:
    kb = knowledge(rule("several", Elsewhere(AtLeast("give", 1), count=2), {"glass": 1}))
    here, one, two = (finding(zone, "line", give=1) for zone in ("deck", "rim", "tank"))

    assert judge(kb, "glass", here, one) == (0, 0)
    assert judge(kb, "glass", here, one, two) == (1, 1)


def test_a_twin_is_the_same_place_on_the_other_side(judge: Judge) -> None:
    kb = knowledge(rule("pair", Elsewhere(Is("sign", ("line",)), where="twin"), {"glass": 1}))
    port, starboard = finding("deck", "line", "port"), finding("deck", "line", "starboard")

    assert judge(kb, "glass", port, starboard) == (1, 1)
    assert judge(kb, "glass", port, finding("deck", "line", "port")) == (0, 0)
    assert judge(kb, "glass", finding("rim", "line"), finding("rim", "line")) == (0, 0)


def test_where_a_side_is_unknown_it_may_be_the_twin(judge: Judge) -> None:
    kb = knowledge(rule("pair", Elsewhere(Is("sign", ("line",)), where="twin"), {"glass": 1}))

    assert judge(kb, "glass", finding("deck", "line", "port"), finding("deck", "line")) == (0, 1)


def test_same_side_means_not_across_the_boat(judge: Judge) -> None:
    kb = knowledge(rule("beside", Elsewhere(Is("sign", ("loose",)), where="same side"), {"glass": 1}))
    port = finding("deck", "line", "port")

    assert judge(kb, "glass", port, finding("deck", "loose", "port")) == (1, 1)
    assert judge(kb, "glass", port, finding("deck", "loose", "starboard")) == (0, 0)
    assert judge(kb, "glass", port, finding("deck", "loose")) == (0, 1)
    assert judge(kb, "glass", port, finding("rim", "loose")) == (1, 1)  # one part, on neither side


# Presumptions

SOFT_OR_DULL = rule("soft or dull", AnyOf((AtLeast("give", 1), AtLeast("sound", 1))), {"glass": 2})
FIRM_RINGS = presumption("firm rings", AtMost("give", 0), {"sound": 0})


def test_a_presumption_lowers_the_worst_that_an_unanswered_scale_can_be(judge: Judge) -> None:
    kb = knowledge(SOFT_OR_DULL, FIRM_RINGS)

    assert judge(kb, "glass", finding("deck", "line", give=0)) == (0, 0)
    assert judge(kb, "glass", finding("deck", "line")) == (0, 2)


def test_a_presumption_never_lowers_what_was_answered_and_is_then_withdrawn_whole(judge: Judge) -> None:
    kb = knowledge(SOFT_OR_DULL, presumption("firm rings and is shallow", AtMost("give", 0), {"sound": 0, "depth": 1}))

    assert judge(kb, "sound", finding("deck", "line", give=0, sound=1)) == (1, 1)
    assert judge(kb, "depth", finding("deck", "line", give=0, sound=0)) == (0, 1)
    assert judge(kb, "depth", finding("deck", "line", give=0, sound=1)) == (0, 3)


def test_a_presumed_level_is_no_answer_for_another_presumption(judge: Judge) -> None:
    kb = knowledge(FIRM_RINGS, presumption("ringing is shallow", AtMost("sound", 0), {"depth": 0}))

    assert judge(kb, "depth", finding("deck", "line", give=0)) == (0, 3)
    assert judge(kb, "depth", finding("deck", "line", sound=0)) == (0, 0)


def test_a_presumption_is_not_made_on_a_fact_that_nobody_knows(judge: Judge) -> None:
    when = All((AtMost("give", 0), Is("build", ("single",))))
    kb = knowledge(presumption("firm single skin rings", when, {"sound": 0}))

    assert judge(kb, "sound", finding("deck", "line", give=0)) == (0, 3)
    assert judge(kb, "sound", finding("deck", "line", give=0), on=boat(build="single")) == (0, 0)


def test_named_checks_must_be_answered_before_anything_is_presumed_of_them(judge: Judge) -> None:
    kb = knowledge(presumption("firm is still and rings", AtMost("give", 0), {"play": 0, "sound": 0}))

    assert judge(kb, "play", finding("step", "line", give=0)) == (0, 3)  # play is what passes the step
    assert judge(kb, "sound", finding("step", "line", give=0)) == (0, 0)
    assert judge(kb, "play", finding("rim", "line", give=0)) == (0, 0)  # the rim names no checks


def test_nothing_is_presumed_of_what_the_sign_itself_is_a_reading_of(judge: Judge) -> None:
    kb = knowledge(presumption("firm is still and rings", AtMost("give", 0), {"play": 0, "sound": 0}))

    assert judge(kb, "play", finding("rim", "loose", give=0)) == (0, 3)
    assert judge(kb, "sound", finding("rim", "loose", give=0, play=2)) == (0, 0)  # nor is it defeated because of it


def test_the_milder_of_two_presumptions_stands(judge: Judge) -> None:
    kb = knowledge(presumption("dull at most", ALWAYS, {"sound": 1}), FIRM_RINGS)

    assert judge(kb, "sound", finding("deck", "line")) == (0, 1)
    assert judge(kb, "sound", finding("deck", "line", give=0)) == (0, 0)


def line_that(kb: KnowledgeBase, **is_: Any) -> KnowledgeBase:
    """The same boat with another kind of line."""
    return replace(kb, signs={**kb.signs, "line": replace(kb.signs["line"], **is_)})


def test_no_answer_contradicts_a_presumption_of_the_worst_that_the_mark_can_be(judge: Judge) -> None:
    shallow = presumption("shallow", AtMost("sound", 0), {"depth": 1, "give": 0})
    kb = line_that(knowledge(shallow, rule("soft", AtLeast("give", 1), {"glass": 1})), caps={"depth": Cap(1, "gouge")})

    assert judge(kb, "glass", finding("rim", "line", sound=0, depth=1)) == (0, 0)


def test_what_asks_for_no_worse_than_the_mark_can_be_asks_only_for_an_answer(judge: Judge) -> None:
    firm = presumption("firm", AtMost("depth", 1), {"give": 0})
    kb = line_that(knowledge(firm, rule("soft", AtLeast("give", 1), {"glass": 1})), caps={"depth": Cap(1, "gouge")})

    assert judge(kb, "glass", finding("rim", "line", depth=1)) == (0, 0)
    assert judge(kb, "glass", finding("rim", "line")) == (0, 1)


def test_what_the_sign_is_a_reading_of_in_one_place_alone_is_neither_presumed_nor_contradicts_there(
    judge: Judge,
) -> None:
    quiet = presumption("quiet", AtMost("sound", 0), {"depth": 0, "give": 0})
    rules = (rule("deep", AtLeast("depth", 1), {"glass": 1}), rule("soft", AtLeast("give", 1), {"hold": 1}))
    kb = line_that(knowledge(quiet, *rules), about_in={"rim": ("depth",)})

    assert judge(kb, "glass", finding("rim", "line", sound=0)) == (0, 1)
    assert judge(kb, "glass", finding("tank", "line", sound=0)) == (0, 0)
    assert judge(kb, "hold", finding("rim", "line", sound=0, depth=1)) == (0, 0)
    assert judge(kb, "hold", finding("tank", "line", sound=0, depth=1)) == (0, 1)
