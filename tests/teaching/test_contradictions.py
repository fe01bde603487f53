"""Laws of drawn boats, on many of them: nothing on one denies anything else on her, and her cause can have made it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

import pytest

from triage.inference.compiled import compiled
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.knowledge.model.cause import ANYWHERE
from triage.survey.model import Finding, Reading
from triage.teaching.cases import Case
from triage.teaching.contradictions import contradictions
from triage.teaching.drawn import case_named, draw_case
from triage.teaching.key import key_of

MANY = 150
"""Drawn boats on which the laws are tried."""


@pytest.fixture(scope="module")
def cases(kb: KnowledgeBase) -> list[Case]:
    return [draw_case(kb, seed) for seed in range(1, MANY + 1)]


def findings(cases: list[Case]) -> Iterator[tuple[str, Finding]]:
    return ((case.name, one) for case in cases for one in case.truth.findings)


def test_nothing_that_is_said_never_to_be_met_is_met(kb: KnowledgeBase, cases: list[Case]) -> None:
    met = [
        (case.name, one.because)
        for case in cases
        for finding in case.truth.findings
        for one in contradictions(kb, finding, case.cause, case.truth.boat.facts)
    ]

    assert not met


# Written down apart from the rules, so that a hole in them shows.
DENIED: dict[str, Callable[[str, dict[str, int], set[str]], bool]] = {
    "a soft panel does not give": lambda sign, read, _: sign == "soft_panel" and read["panel_give"] == 0,
    "a dull place rings": lambda sign, read, _: sign == "dull_tap" and read["tap_dull"] == 0,
    "one line is a net": lambda sign, read, _: sign == "hairline" and read["pattern_focus"] in (0, 2),
    "the back was not seen and is told of": lambda _, read, __: (
        read.get("extent_access", 0) > 1 and ("back_face" in read or "backing" in read)
    ),
    "a bent spar is straight": lambda sign, read, _: sign == "spar_bend" and read["spar_true"] == 0,
    "water passes and it stays dry": lambda _, read, said: (
        "water passes through it" in said and read.get("wet_weep") == 0
    ),
    "no pad, and it has gone soft": lambda sign, _, said: sign == "no_pad" and "its pad has gone soft" in said,
    "a pinhead is wet or soft": lambda sign, read, _: (
        sign == "blister"
        and read["blistering"] == 0
        and any(read[one] for one in ("panel_give", "tap_dull", "wet_weep"))
    ),
    "nothing is loose and a tip swings": lambda _, read, __: (
        read.get("slop", 0) > 1 and read.get("fitting_play", 9) < 2 and read.get("hole_wear", 9) == 0
    ),
    "a stain has gone": lambda sign, read, _: sign == "brown_weep" and read["wet_weep"] == 0,
    "a soft panel has a line": lambda sign, _, said: sign == "soft_panel" and "it is shorter than 15 mm" in said,
    "what is bent was eaten": lambda sign, _, said: (
        sign in ("bent_metal", "spar_bend")
        and bool(said & {"there is a hole in the metal", "its wall has pits of a tenth to a quarter of its thickness"})
    ),
    "a wheel has a tyre's fault": lambda sign, _, said: sign == "wheel_rough" and "a tyre is cracked" in said,
}


@pytest.mark.parametrize("what", DENIED)
def test_readings_agree_with_their_mark_and_with_each_other(cases: list[Case], what: str) -> None:
    for name, one in findings(cases):
        said = {reading.said for reading in one.readings.values()}
        assert not DENIED[what](one.sign, dict(one.upper), said), name


# What the trade does not read there, written down apart from the rules.
NOT_READ: dict[str, tuple[str, ...]] = {
    "backing": (
        *("mast_low", "mast_high", "spreaders", "boom", "bow_pole", "rudder_blade", "rudder_head", "tiller", "board"),
        *("joint_bow", "joint_side", "joint_stern", "keel_band", "hatch", "drains", "bailer", "pivot", "case_root"),
    ),
    "slop": ("deck_hardware", "toe_strap", "mast_step", "chainplate", "forestay_anchor", "mainsheet_base", "mast_low"),
    "support_fit": ("thwart", "seat_front", "cockpit_floor", "side_deck", "foredeck", "mast_gate", "transom"),
    "seal_state": ("toe_strap", "deck_hardware", "shrouds", "rig_pins", "halyards", "rudder_fittings", "case_root"),
    "extent_access": ("rudder_blade", "rudder_head", "tiller", "board", "bailer", "transom_inside"),
    "core_state": ("mast_low", "mast_high", "spreaders", "boom"),
}


def test_no_learner_is_told_what_the_trade_does_not_read_there(kb: KnowledgeBase, cases: list[Case]) -> None:
    for name, one in findings(cases):
        assert not [scale for scale, zones in NOT_READ.items() if one.zone in zones and scale in one.readings], name
    for scale, zones in NOT_READ.items():
        asked = [zone for zone in zones for sign in kb.offers[zone] if scale in kb.applicable(zone, sign)]
        assert not asked or scale == "core_state", (scale, asked)


def test_a_mark_is_drawn_only_where_its_picture_can_be_seen(cases: list[Case]) -> None:
    outside = {"stem", "forefoot", "bottom", "chine", "topside", "aft_run", "transom", "stern_corner", "keel_band"}

    assert not [name for name, one in findings(cases) if one.sign == "corner_crack" and one.zone in outside]
    assert not [
        name for name, one in findings(cases) if one.sign == "worn_bush" and one.zone in ("case_root", "mast_step")
    ]


def test_a_boat_weighs_the_same_wherever_it_is_asked_about(kb: KnowledgeBase) -> None:
    several = 0
    for seed in range(40):
        case = case_named(kb, f"{seed}:core_wet")
        weights = [one.readings["boat_weight"].said for one in case.truth.findings if "boat_weight" in one.readings]
        assert len(set(weights)) <= 1, seed
        several += len(weights) > 1
    assert several


def test_what_was_screwed_to_bare_skin_has_nothing_behind_it(kb: KnowledgeBase) -> None:
    cases = [case_named(kb, f"{seed}:{mark}") for mark in ("play", "fastener_cracks", "no_pad") for seed in range(30)]
    bare = [case for case in cases if case.cause == "no_backing"]

    assert bare
    assert all(one.upper.get("backing", 2) >= 2 for case in bare for one in case.truth.findings)


def test_what_is_missing_has_a_name_and_what_was_done_has_a_place(kb: KnowledgeBase, cases: list[Case]) -> None:
    missing = [case_named(kb, f"1:{zone}:missing_gear") for zone in ("drains", "hatch", "toe_strap", "rudder_fittings")]
    gone = [one for case in missing for one in case.truth.findings if one.sign == "missing_gear"]
    assert all(one.note.startswith("What is missing: ") for one in gone)
    assert all(one.note for _, one in findings(cases) if one.sign == "missing_gear")
    done = [case for case in cases for one in case.truth.events if kb.happenings.events[one.event].kind == "done"]
    assert done
    assert all(case.shown.note.startswith("It was done here: ") for case in done)


def test_every_place_where_a_part_may_be_missing_says_which(kb: KnowledgeBase) -> None:
    nameless = [zone for zone, signs in kb.offers.items() if "missing_gear" in signs]

    assert not [zone for zone in nameless if not kb.frequencies.absent.get((zone, "missing_gear"))]


def test_the_cause_can_have_made_every_mark_and_the_story_speaks_for_it(kb: KnowledgeBase, cases: list[Case]) -> None:
    for case in cases:
        if not case.cause:
            assert not case.truth.events
            continue
        cause = kb.causation.causes[case.cause]
        left = {one.mark for one in cause.leaves}
        assert all({(one.zone, one.sign), (ANYWHERE, one.sign)} & left for one in case.truth.findings), case.name
        assert all(case.truth.boat.facts.get(fact) == value for fact, value in cause.only_if.items()), case.name
        told = [kb.happenings.events[one.event] for one in case.truth.events]
        assert all(case.cause in one.speaks_for for one in told), case.name


def test_what_is_one_fitting_is_read_alike_wherever_it_is_seen_from(kb: KnowledgeBase) -> None:
    shared = 0
    for seed in range(12):
        case = case_named(kb, f"{seed}:transom:fastener_cracks")
        hinges = [one for one in case.truth.findings if one.zone in ("transom", "transom_inside", "rudder_fittings")]
        for scale in ("fitting_play", "fastener_grip", "backing"):
            read = [one.readings[scale] for one in hinges if scale in one.readings]
            assert len(set(read)) <= 1, (seed, scale)
            shared += len(read) > 1
    assert shared


def test_cases_in_a_row_are_of_many_kinds_and_of_every_verdict(kb: KnowledgeBase, cases: list[Case]) -> None:
    signs = Counter(case.mark.sign for case in cases)
    verdicts = Counter(one.interval(VERDICT)[1] for case in cases for one in judged(kb, case))

    assert max(signs.values()) <= MANY / 10
    assert len(signs) >= MANY / 4
    assert all(verdicts[level] >= MANY / 5 for level in range(3))
    assert sum(bool(case.truth.events) for case in cases if case.cause) >= sum(bool(case.cause) for case in cases) / 3
    assert all(case.mark.readings for case in cases), "there is something to try"


def judged(kb: KnowledgeBase, case: Case) -> Iterator[Evaluation]:
    return (one for one in compiled(kb, case.truth.boat, case.truth.marks) if one.finding.id == case.focus)


def test_what_made_it_is_an_answer_that_the_program_thinks_worth_telling(kb: KnowledgeBase, cases: list[Case]) -> None:
    made = [case for case in cases if case.cause][:40]

    assert all(case.cause in {one.id for one in key_of(kb, case).likely} for case in made)


def test_a_look_alike_without_its_fault_is_told_as_the_eye_sees_it(kb: KnowledgeBase) -> None:
    built = next(
        case
        for case in (case_named(kb, f"{seed}:springy_or_soft") for seed in range(20))
        if case.mark.upper["panel_give"] == 0
    )

    assert "The panel dips under a foot." == built.looks_like(built.mark)
    assert "more than its twin" in kb.signs[built.mark.sign].picture


def test_a_word_against_a_reading_is_heard_by_mark_place_level_and_observation(kb: KnowledgeBase) -> None:
    def denied(zone: str, sign: str, **readings: tuple[int, str]) -> list[str]:
        read = {scale: Reading.at(level, said) for scale, (level, said) in readings.items()}
        return [one.because for one in contradictions(kb, Finding("1", zone, sign, None, read))]

    assert denied("bottom", "soft_panel", panel_give=(0, "firm"))
    assert not denied("bottom", "soft_panel", panel_give=(1, "a little soft"))
    assert not denied("bottom", "crazing", panel_give=(0, "firm"))
    assert denied("trailer_run", "wheel_rough", road_gear=(2, "a tyre is cracked"))
    assert denied("stem", "corner_crack")
    assert not denied("seat_front", "corner_crack")
    assert not denied("trailer_run", "wheel_rough", road_gear=(2, "a bearing is worn"))


def test_a_word_against_a_reading_is_heard_of_its_cause_and_of_how_she_is_built(kb: KnowledgeBase) -> None:
    bare = Finding("1", "deck_hardware", "play", None, {"backing": Reading.at(0)})
    hole = Finding("1", "side_deck", "spare_hole", None, {"core_state": Reading.at(2)})

    assert list(contradictions(kb, bare, "no_backing"))
    assert not list(contradictions(kb, bare, "overtight"))
    assert not list(contradictions(kb, bare))
    assert list(contradictions(kb, hole, facts={"deck": "single"}))
    assert not list(contradictions(kb, hole, facts={"deck": "cored"}))
