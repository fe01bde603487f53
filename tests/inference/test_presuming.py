"""What is presumed, what is not, and what is told of it, one ground rule at a time."""

from __future__ import annotations

from dataclasses import replace

from tests.inference.small import boat, finding, knowledge, presumption
from triage.inference.bounds import initial_state
from triage.inference.evaluation import InitialState
from triage.knowledge.model import KnowledgeBase, Presumption
from triage.knowledge.model.conditions import All, AtMost, Is
from triage.survey.model import Finding

UNKNOWN_BOAT = boat()
QUIET = presumption("quiet", AtMost("sound", 0), {"give": 1})


def begun(found: Finding, *presumptions: Presumption, kb: KnowledgeBase | None = None) -> InitialState:
    return initial_state(kb or knowledge(*presumptions), UNKNOWN_BOAT, found)


def told(found: InitialState) -> dict[str, tuple[tuple[str, int], ...]]:
    """The presumptions in use with what they hold."""
    return {one.presumption.id: one.levels for one in found.presumed}


def test_a_presumption_in_use_is_told_with_what_it_holds() -> None:
    found = begun(finding("rim", "line", sound=0), QUIET)

    assert {"quiet": (("give", 1),)} == told(found)
    assert 1 == found.upper["give"]


def test_what_it_says_of_a_scale_that_does_not_apply_is_neither_told_nor_counted() -> None:
    deep = presumption("deep", AtMost("depth", 0), {"give": 0})

    found = begun(finding("rim", "scuff", depth=0), deep)

    assert {} == told(found)
    assert "give" not in found.upper


def test_one_that_lowers_nothing_is_not_told() -> None:
    lower = presumption("lower", AtMost("sound", 0), {"give": 1})

    found = begun(finding("rim", "line", sound=0), QUIET, lower)

    assert {"quiet"} == told(found).keys()


def test_of_two_the_milder_counts_whichever_comes_first() -> None:
    milder = presumption("milder", AtMost("sound", 0), {"give": 0})

    for order in ((QUIET, milder), (milder, QUIET)):
        assert 0 == begun(finding("rim", "line", sound=0), *order).upper["give"]


def test_one_that_an_answer_contradicts_leaves_the_others_alone() -> None:
    firm = presumption("firm", AtMost("sound", 0), {"depth": 0, "play": 0})

    found = begun(finding("rim", "line", sound=0, depth=1), firm, QUIET)

    assert [("firm", ("depth",))] == [(one.presumption.id, one.against) for one in found.defeated]
    assert {"quiet"} == told(found).keys()
    assert 3 == found.upper["play"]


def test_it_needs_the_side_it_asks_for() -> None:
    port = presumption("port", All((Is("side", ("port",)), AtMost("sound", 0))), {"give": 0})

    assert {"port"} == told(begun(finding("deck", "line", "port", sound=0), port)).keys()
    assert {} == told(begun(finding("deck", "line", "starboard", sound=0), port))
    assert {} == told(begun(finding("deck", "line", sound=0), port))


def test_one_whole_set_of_named_checks_is_enough_and_nothing_more_need_be_answered() -> None:
    kb = knowledge(presumption("held", AtMost("play", 0), {"sound": 0}))
    step = replace(kb.zones["step"], passed_by=(("play",), ("sound",)))
    two_ways = replace(kb, zones={**kb.zones, "step": step})

    assert {"held": (("sound", 0),)} == told(begun(finding("step", "line", play=0), kb=two_ways))


def test_it_never_speaks_about_what_the_sign_is_about_in_this_place() -> None:
    kb = knowledge(presumption("quiet", AtMost("sound", 0), {"depth": 0}))
    line = replace(kb.signs["line"], about_in={"rim": ("depth",)})
    about_depth = replace(kb, signs={**kb.signs, "line": line})

    assert {} == told(begun(finding("rim", "line", sound=0), kb=about_depth))
    assert {"quiet"} == told(begun(finding("deck", "line", sound=0), kb=about_depth)).keys()


def test_what_the_mark_itself_shows_is_certain_though_nobody_answered() -> None:
    found = begun(finding("rim", "gouge"))

    assert {"depth": 2} == found.lower
    assert 3 == found.upper["depth"]


def test_a_worse_answer_than_the_mark_shows_counts_instead() -> None:
    assert {"depth": 3} == begun(finding("rim", "gouge", depth=3)).lower


def test_a_mark_that_shows_worse_than_is_presumed_contradicts_it_like_an_answer() -> None:
    shallow = presumption("shallow", AtMost("sound", 0), {"depth": 1, "give": 0})

    found = begun(finding("rim", "gouge", sound=0), shallow)

    assert {} == told(found)
    assert [("shallow", ("depth",))] == [(one.presumption.id, one.against) for one in found.defeated]
    assert 3 == found.upper["give"]


def test_a_mark_that_shows_what_is_presumed_leaves_it_in_force() -> None:
    shallow = presumption("shallow", AtMost("sound", 0), {"depth": 2, "give": 0})

    assert {"shallow": (("depth", 2), ("give", 0))} == told(begun(finding("rim", "gouge", sound=0), shallow))
