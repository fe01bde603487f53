"""Laws of drawn boats, on many of them: nothing on one denies anything else on her, and her cause can have made it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

import pytest

from tests.teaching.conftest import MANY, findings
from triage.inference.compiled import compiled
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.knowledge.model.cause import ANYWHERE
from triage.survey.model import Finding, Reading
from triage.teaching.cases import Case
from triage.teaching.contradictions import contradictions
from triage.teaching.drawn import case_named
from triage.teaching.key import key_of


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
    "parts slide and the space holds its air": lambda _, read, __: (
        read.get("joint_gap") == 3 and read.get("tank_seal") == 0
    ),
    "a crack slides and nothing shows behind": lambda _, read, said: (
        read.get("crack_opening") == 3 and "its whole back was seen, and nothing shows there" in said
    ),
    "what is crushed rings": lambda _, read, said: "it dents and stays dented" in said and read.get("tap_dull") == 0,
    "a leak leaves the tissue dry": lambda sign, read, _: sign == "open_leak" and read.get("wet_weep", 2) < 2,
    "a wheel has a tyre's fault": lambda sign, _, said: sign == "wheel_rough" and "a tyre is cracked" in said,
}


@pytest.mark.parametrize("what", DENIED)
def test_readings_agree_with_their_mark_and_with_each_other(cases: list[Case], what: str) -> None:
    for name, one in findings(cases):
        said = {reading.said for reading in one.readings.values()}
        assert not DENIED[what](one.sign, dict(one.upper), said), name


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
