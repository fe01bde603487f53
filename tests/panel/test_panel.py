"""Two things that may never happen on the panel's stories, and that the scorer would notice them.

All else is a figure (``python -m tests.panel``): a measure that a test demands is soon written towards.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.panel.answers import Answer, Asked, Said, answer, gravest
from tests.panel.cases import AFLOAT, HANDS, NOT_YET, SETS, TOW, VERDICTS, Case, cases
from tests.panel.figures import figures, flagged, misses, share
from tests.panel.judging import Judged, judge
from triage.knowledge.model import AFLOAT as AFLOAT_SCALE
from triage.knowledge.model import HANDS as HANDS_SCALE
from triage.knowledge.model import TOW as TOW_SCALE
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.survey.read import survey_from

EVERY = [pytest.param(case, id=case.id) for which in SETS for case in cases(which)]
STORIES = cases("stories")


@pytest.fixture(scope="module")
def judged(kb: KnowledgeBase) -> list[Judged]:
    return [judge(case, answer(kb, case)) for case in STORIES]


def test_there_are_as_many_cases_as_were_written() -> None:
    assert (90, 120, 45, 40, 60, 30) == tuple(len({case.id for case in cases(which)}) for which in SETS)


@pytest.mark.parametrize("case", EVERY)
def test_a_case_is_a_survey_and_an_answer_in_the_panels_words(kb: KnowledgeBase, case: Case) -> None:
    for survey in case.surveys():
        assert survey_from(survey, kb).findings
    expected = case.expected
    assert case.carrying
    assert VERDICTS.index(expected.floor) <= VERDICTS.index(expected.verdict) <= VERDICTS.index(expected.ceiling)
    assert {expected.verdict, *expected.accept} <= {*VERDICTS}
    assert {expected.afloat, *expected.afloat_accept} <= {*AFLOAT, NOT_YET}
    assert {expected.hands, *expected.hands_accept} <= {*HANDS, None}
    assert expected.tow in {*TOW, None}
    assert {*expected.decisive} <= {id_ for id_, scale in kb.scales.items() if scale.observed}
    assert {*expected.decisive_at} <= kb.zones.keys()
    assert expected.settled != bool(expected.decisive)


ROLES = {
    VERDICT: dict(zip(VERDICTS, ("looks", "watch", "weakened"), strict=True)),
    AFLOAT_SCALE: dict(zip(AFLOAT, ("fit", "limited", "left_behind", "barred"), strict=True)),
    TOW_SCALE: dict(zip(TOW, ("fit", "barred"), strict=True)),
    HANDS_SCALE: dict(zip(HANDS, ("nobody", "owner", "handy", "professional"), strict=True)),
}


@pytest.mark.parametrize("scale", ROLES)
def test_the_panels_words_are_the_levels_of_the_rules(kb: KnowledgeBase, scale: str) -> None:
    assert [*ROLES[scale].values()] == [level.role for level in kb.scales[scale].levels]


def test_nothing_dangerous_is_said_to_a_story(judged: list[Judged]) -> None:
    assert [] == [*misses(flagged(judged, "DANGEROUS"))]


def test_nothing_is_invented_where_nothing_is_wrong(judged: list[Judged]) -> None:
    assert [] == [*misses(flagged(judged, "INVENTED"))]


def test_the_panels_own_answer_is_right_in_everything() -> None:
    perfect = [judge(case, _said_to_all(case, _expected(case))) for case in STORIES]
    assert [] == [one.case.id for one in perfect if one.flags or not all(one.right.values())]
    assert (90, 90) == share(perfect, "verdict") == share(perfect, "afloat") == share(perfect, "hands")


def test_who_calls_everything_looks_is_dangerous_wherever_it_is_grave() -> None:
    mild = Said("cosmetic", "cosmetic", "cosmetic", "sail", "sail", "tow", "nothing")
    said = [judge(case, _said_to_all(case, mild)) for case in STORIES]
    grave = [
        one.case for one in said if "structural" in one.case.expected.verdict or one.case.expected.afloat == "ashore"
    ]
    assert {case.id for case in grave} <= {one.case.id for one in flagged(said, "DANGEROUS")}
    assert len(grave) == 39
    assert any("DANGEROUS: sent down the road" in one.flags for one in said)


def test_who_keeps_everything_ashore_raises_false_alarms_and_invents() -> None:
    grave = Said("structural", "structural", "structural", "ashore", "ashore", "do_not_tow", "repairer")
    said = [judge(case, _said_to_all(case, grave)) for case in STORIES]
    harmless = {one.case.id for one in said if one.case.expected.ceiling == "cosmetic"}
    assert harmless == {one.case.id for one in flagged(said, "FALSE ALARM")}
    assert {one.case.id for one in said if one.case.expected.no_defect} == {
        one.case.id for one in flagged(said, "INVENTED")
    }
    assert [] == flagged(said, "DANGEROUS") + flagged(said, "SERIOUS")


def test_a_plain_buy_of_what_may_be_structural_is_noticed() -> None:
    said = [judge(case, replace(_said_to_all(case, _expected(case)), buying=0)) for case in STORIES]
    grave = {case.id for case in STORIES if case.expected.ceiling == "structural"}
    assert grave == {one.case.id for one in flagged(said, "BUYER")}


def test_ideas_are_counted_by_their_words(judged: list[Judged]) -> None:
    one = next(one for one in judged if one.case.expected.mentions)
    silent, full = (replace(one.answer, text=text) for text in ("", " ".join(one.case.expected.mentions)))
    assert (0, len(one.case.expected.mentions)) == tuple(judge(one.case, said).mentioned for said in (silent, full))


def test_a_miss_is_listed_with_what_was_told_and_what_both_say(judged: list[Judged]) -> None:
    case = next(one.case for one in judged if one.case.expected.afloat == "ashore")
    mild = Said("cosmetic", "cosmetic", "cosmetic", "sail", "sail", "tow", "nothing")
    told = "\n".join(misses([judge(case, _said_to_all(case, mild))]))
    for said in (case.id, case.story.split(".")[0][:40], "DANGEROUS: sent sailing", "the panel   ", "afloat ashore"):
        assert said in told


def test_figures_name_every_group_and_persona(judged: list[Judged]) -> None:
    told = "\n".join(figures("stories", judged))
    assert all(f"  {name} " in told for one in judged for name in (one.case.group, one.case.persona))


def _expected(case: Case) -> Said:
    expected = case.expected
    afloat = AFLOAT[-1] if expected.afloat == NOT_YET else expected.afloat
    return Said(
        expected.floor,
        expected.ceiling,
        expected.verdict,
        afloat,
        expected.afloat,
        expected.tow or "tow",
        expected.hands or "nothing",
    )


def _said_to_all(case: Case, said: Said) -> Answer:
    """The same of the boat and of every mark, but for marks that the panel judges one by one: those as it does."""
    own = {line.name: line for line in case.expected.lines}
    right = said == _expected(case)
    findings = {}
    for one in case.findings:
        line = own.get(one.get("line", ""))
        findings[one["id"]] = (
            replace(said, headline=line.verdict, afloat=line.afloat or said.afloat) if right and line else said
        )
    where = case.expected.decisive_at or (case.findings[0]["zone"],)
    asks = tuple(Asked(scale, zone) for scale in case.expected.decisive for zone in where) if right else ()
    return Answer(findings, said if right else gravest([*findings.values()]), said, asks)
