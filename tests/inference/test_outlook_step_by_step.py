"""The outlook on the small boat, one thing at a time: what it comes to, what it hangs on, and whom it looks at."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.inference.small import boat, finding, knowledge, presumption, rule
from triage.inference.compiled import Judgement
from triage.inference.outlook import Outlook
from triage.inference.terms import Term, terms_of
from triage.knowledge.model import BUOYANCY, Presumption, Rule
from triage.knowledge.model.conditions import All, AtLeast, AtMost, Condition, Elsewhere, Is
from triage.survey.model import Boat, Finding

UNKNOWN_BOAT = boat()
SOFT = rule("soft", AtLeast("give", 2), {"verdict": 2})
LOUD = rule("loud", AtLeast("sound", 1), {"verdict": 1})
CORED = rule("cored", All((Is("build", ("cored",)), AtLeast("depth", 3))), {"verdict": 2})
LINE = Is("sign", ("line",))


def outlook(rules: list[Rule | Presumption], first: Finding, *others: Finding, on: Boat = UNKNOWN_BOAT) -> Outlook:
    return Outlook(Judgement.of(knowledge(*rules), on, (first, *others)), first)


def verdict(of: Outlook, **answers: int) -> tuple[int, int]:
    return of.answering(answers).ranges[0]


def test_each_answer_is_tried_for_itself() -> None:
    line = outlook([SOFT, LOUD], finding("rim", "line"))

    assert (0, 2) == verdict(line)
    assert (2, 2) == verdict(line, give=2)
    assert (0, 1) == verdict(line, give=1)
    assert (0, 0) == verdict(line, give=1, sound=0)


def test_it_hangs_on_the_scales_and_facts_that_could_still_make_it_worse() -> None:
    line = outlook([SOFT, LOUD, CORED], finding("rim", "line"))

    assert {"give", "sound", "depth", "build"} == line.answering({}).in_play
    assert {"sound"} == line.answering({"give": 1, "depth": 0}).in_play
    assert {"depth", "build"} == line.answering({"give": 0, "sound": 1}).in_play
    assert frozenset() == line.answering({"give": 3, "sound": 0}).in_play


def test_a_threat_is_what_is_not_yet_there_and_no_more() -> None:
    both = rule("both", All((AtLeast("give", 1), AtLeast("sound", 1))), {"verdict": 1})
    line = outlook([both], finding("rim", "line"))
    open_, half, settled = line.answering({}), line.answering({"give": 1}), line.answering({"give": 1, "sound": 1})

    assert {"give", "sound"} == open_.in_play
    assert {"sound"} == half.in_play
    assert frozenset() == settled.in_play
    ((all_of_it, no_facts),), ((rest, _),) = open_.threats, half.threats
    assert frozenset() == no_facts
    assert 0 < rest < all_of_it
    assert rest == rest & all_of_it
    assert frozenset() == settled.threats


def test_levels_that_nothing_tells_apart_are_one_run() -> None:
    firm = presumption("firm", AtMost("depth", 0), {"sound": 1})
    line = outlook([SOFT, LOUD, firm], finding("rim", "line"))
    scuff = outlook([rule("deep", AtLeast("depth", 2), {"verdict": 1})], finding("rim", "scuff"))

    assert [[0, 1], [2, 3]] == line.equivalence_classes("give")
    assert [[0], [1], [2, 3]] == line.equivalence_classes("sound")
    assert [[0], [1, 2, 3]] == line.equivalence_classes("depth")
    assert [[0, 1, 2, 3]] == line.equivalence_classes("play")
    assert [[0, 1]] == scuff.equivalence_classes("depth")


def test_runs_begin_at_the_mildest_that_the_picture_allows() -> None:
    kb = knowledge(SOFT)
    line = replace(kb.signs["line"], least={"give": 1})
    kb = replace(kb, signs={**kb.signs, "line": line})
    found = finding("rim", "line")

    assert [[1], [2, 3]] == Outlook(Judgement.of(kb, UNKNOWN_BOAT, (found,)), found).equivalence_classes("give")


def test_a_fact_that_gets_known_is_looked_at_from_then_on() -> None:
    line = outlook([CORED], finding("rim", "line", depth=3))

    assert {"build": ("single", "cored")} == line.unknown_facts
    assert (0, 2) == verdict(line)
    assert (2, 2) == verdict(line.knowing("build", "cored"))
    assert (0, 0) == verdict(line.knowing("build", "single"))
    assert line.knowing("build", "cored") is line.knowing("build", "cored")
    assert {} == line.knowing("build", "single").unknown_facts


def test_it_knows_on_which_side_the_mark_is() -> None:
    port = rule("port", Is("side", ("port",)), {"verdict": 1})

    assert (1, 1) == verdict(outlook([port], finding("deck", "line", "port")))
    assert (0, 0) == verdict(outlook([port], finding("deck", "line", "starboard")))
    assert (0, 1) == verdict(outlook([port], finding("deck", "line")))


def test_whether_a_place_encloses_buoyancy_is_a_fact_of_that_place_alone() -> None:
    wet = rule("wet", Is(BUOYANCY, ("yes",)), {"verdict": 1})
    line = outlook([wet], finding("rim", "line"))

    assert {BUOYANCY: ("yes", "no")} == line.unknown_facts
    assert (1, 1) == verdict(line.knowing(BUOYANCY, "yes"))
    assert (0, 0) == verdict(line.knowing(BUOYANCY, "no"))
    assert (0, 1) == verdict(outlook([wet], finding("tank", "line"), on=UNKNOWN_BOAT.knowing(BUOYANCY, "yes", "rim")))


def test_what_was_sought_in_vain_is_not_unknown_but_hopeless() -> None:
    wet = rule("wet", Is(BUOYANCY, ("yes",)), {"verdict": 1})
    attempted = UNKNOWN_BOAT.knowing("build", None, "rim").knowing(BUOYANCY, None, "rim")

    assert {} == outlook([CORED, wet], finding("rim", "line"), on=attempted).unknown_facts
    assert {BUOYANCY} == outlook([CORED, wet], finding("tank", "line"), on=attempted).unknown_facts.keys()


def test_a_presumption_waits_only_for_marks_of_which_it_may_speak() -> None:
    firm = presumption("firm", All((LINE, Is("zone", ("rim",)), AtMost("sound", 0))), {"give": 0})

    assert {"sound"} == outlook([firm], finding("rim", "line")).rests_on
    assert frozenset() == outlook([firm], finding("tank", "line")).rests_on
    assert frozenset() == outlook([firm], finding("rim", "loose")).rests_on


def test_another_finding_counts_as_it_stands() -> None:
    beside = rule("beside", All((LINE, AtLeast("give", 1), Elsewhere(AtLeast("play", 1)))), {"verdict": 2})
    mine = finding("rim", "line")

    assert (2, 2) == verdict(outlook([beside], mine, finding("tank", "loose", play=1)), give=1)
    assert (0, 0) == verdict(outlook([beside], mine, finding("tank", "loose", play=0)), give=1)
    assert (0, 2) == verdict(outlook([beside], mine, finding("tank", "loose")), give=1)
    assert (0, 0) == verdict(outlook([beside], mine), give=1)


def test_a_fact_nobody_knows_makes_another_finding_count_only_at_worst() -> None:
    cored = All((Is("build", ("cored",)), AtLeast("play", 1)))
    beside = rule("beside", All((LINE, Elsewhere(cored))), {"verdict": 1})
    two = (finding("rim", "line"), finding("tank", "loose", play=1))

    assert (0, 1) == verdict(outlook([beside], *two))
    assert (1, 1) == verdict(outlook([beside], *two, on=boat(build="cored")))


def test_the_sides_decide_who_is_the_twin() -> None:
    twins = rule("twins", All((LINE, Elsewhere(LINE, where="twin"))), {"verdict": 1})
    port = finding("deck", "line", "port")

    assert (1, 1) == verdict(outlook([twins], port, finding("deck", "line", "starboard")))
    assert (0, 1) == verdict(outlook([twins], port, finding("deck", "line")))
    assert (0, 0) == verdict(outlook([twins], port, replace(port, id="another")))


def test_terms_ask_for_the_worse_of_two_levels() -> None:
    kb = knowledge(
        rule("soft", AtLeast("give", 1), {"glass": 1}),
        rule("softer", All((AtLeast("glass", 1), AtLeast("give", 2))), {"verdict": 1}),
        rule("softest", All((AtLeast("give", 3), AtLeast("glass", 1))), {"verdict": 2}),
    )

    terms = terms_of(kb, "rim", "line")

    assert (Term({"give": 2}),) == terms["verdict", 1]
    assert (Term({"give": 3}),) == terms["verdict", 2]


@pytest.mark.parametrize("more", [AtLeast("sound", 1), Is("build", ("cored",)), Elsewhere(AtLeast("play", 1))])
def test_terms_that_ask_for_more_than_another_are_left_out(more: Condition) -> None:
    kb = knowledge(
        rule("much", All((AtLeast("give", 1), more)), {"verdict": 1}),
        rule("little", AtLeast("give", 1), {"verdict": 1}),
    )

    assert (Term({"give": 1}),) == terms_of(kb, "rim", "line")["verdict", 1]


def test_there_are_terms_for_each_level_of_each_outcome_and_for_nothing_else() -> None:
    terms = terms_of(knowledge(SOFT), "rim", "line")

    assert {(scale, level) for scale in ("verdict", "afloat", "tow") for level in (1, 2, 3)} == terms.keys()
    assert (Term({"give": 2}),) == terms["verdict", 1] == terms["verdict", 2]
    assert () == terms["verdict", 3] == terms["tow", 1]
