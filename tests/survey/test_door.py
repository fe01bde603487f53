"""One door: whatever makes a survey, what cannot be is refused there, in the same words, and reaches no engine."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from typing import Any

import pytest
import yaml
from hypothesis import given, settings

from tests.strategies import boats_with_findings
from triage import assess_survey, survey_from
from triage.errors import BadSurvey
from triage.inference.evaluate import evaluate
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Boat, Finding, Reading, Survey
from triage.survey.read import checked, survey_from_text
from triage.survey.write import survey_text

KB = load_knowledge()

MARK = {"zone": "chainplate", "sign": "spare_hole", "side": "port"}


def mark(id: str = "a", **readings: Reading) -> Finding:  # noqa: A002
    return Finding(id, "chainplate", "spare_hole", "port", readings)


def said(boat: Mapping[str, Any] | None = None, **finding: Any) -> dict[str, Any]:
    return {"boat": {"name": "Ruff", **(boat or {})}, "findings": [{**MARK, **finding}]}


CANNOT_BE = {
    "a fact that is spelt with a capital": (said({"facts": {"deck": "Kored"}}), 'deck cannot be "Kored"'),
    "a fact that there is not": (said({"facts": {"decc": "cored"}}), 'no boat fact is called "decc"'),
    "a side that there is not": (said(side="left"), '"side" cannot be "left"'),
    "a side of a part that is one": (said(zone="stem", sign="hairline"), "is one part, not one on each side"),
    "a zone that there is not": (said(zone="chain plate 9"), 'no zone is called "chain plate 9"'),
    "a sign that there is not": (said(sign="hole of doom"), 'no sign is called "hole of doom"'),
    "a sign that is not met there": (said(sign="tyre_old"), "is not a sign that is met at"),
    "a scale that there is not": (said(readings={"wobble": 1}), 'no reading is called "wobble"'),
    "a reading of another sign": (said(readings={"tyre_tread": 1, "growth": 1}), 'no reading is called "tyre_tread"'),
    "a level that there is not": (said(readings={"growth": "grew wings"}), "cannot be"),
    "two findings with one id": (
        {"boat": {"name": "Ruff"}, "findings": [{**MARK, "id": "a"}, {**MARK, "side": "starboard", "id": "a"}]},
        'the id "a" is already that of the finding',
    ),
    "a name that drives the terminal": (said({"name": "Ruff\x1b[31m"}), "a character that cannot stand in text"),
    "a name without an end": (said({"name": "R" * 201}), "this is too long"),
    "a boat as long as a street": (said({"length": "90 m"}), "a boat of 90 m?"),
    "a date that has not come": (said(on="2999-01-01"), "has not come yet"),
}


@pytest.mark.parametrize("case", CANNOT_BE)
def test_a_mapping_is_refused_in_words(case: str) -> None:
    mapping, words = CANNOT_BE[case]

    with pytest.raises(BadSurvey) as refused:
        survey_from(mapping, KB)

    assert words in str(refused.value)


@pytest.mark.parametrize("case", [case for case in CANNOT_BE if "drives" not in case])
def test_a_file_is_refused_in_the_same_words(case: str) -> None:
    mapping, _ = CANNOT_BE[case]

    def told(read: Callable[[], object]) -> list[str]:
        with pytest.raises(BadSurvey) as refused:
            read()
        return sorted(problem.what.split(" in line ")[0].split(" at ")[0] for problem in refused.value.problems)

    as_text = told(lambda: survey_from_text(yaml.safe_dump(mapping, allow_unicode=True), KB))
    assert as_text == told(lambda: survey_from(mapping, KB))


MADE = {
    "a fact that is misspelt": Survey(Boat("Ruff", {"deck": "Cored"}), (mark(),)),
    "a fact that there is not": Survey(Boat("Ruff", {"decc": "cored"}), (mark(),)),
    "a side that there is not": Survey(Boat("Ruff"), (Finding("a", "chainplate", "spare_hole", "left"),)),
    "a zone that there is not": Survey(Boat("Ruff"), (Finding("a", "nowhere", "spare_hole"),)),
    "a sign that is not met there": Survey(Boat("Ruff"), (Finding("a", "chainplate", "tyre_old"),)),
    "a scale that there is not": Survey(Boat("Ruff"), (mark(wobble=Reading.at(1)),)),
    "a level that there is not": Survey(Boat("Ruff"), (mark(fitting_play=Reading.at(9)),)),
    "half a reading": Survey(Boat("Ruff"), (mark(fitting_play=Reading(1, None, "1")),)),
}


@pytest.mark.parametrize("case", MADE)
def test_a_survey_made_in_python_is_refused_before_it_is_judged(case: str) -> None:
    with pytest.raises(BadSurvey, match="the survey: "):
        assess_survey(MADE[case], KB)


@pytest.mark.parametrize("case", [case for case in MADE if case != "half a reading"])
@pytest.mark.parametrize("engine", [evaluate, forward], ids=lambda engine: engine.__name__)
def test_no_engine_admits_it_either(case: str, engine: Callable[..., object]) -> None:
    survey = MADE[case]

    with pytest.raises(BadSurvey):
        engine(KB, survey.boat, survey.findings)


def test_findings_without_ids_get_their_own_and_two_with_one_are_refused() -> None:
    twice = Survey(Boat("Ruff"), (mark(""), mark("")))

    ids = [finding.id for finding in checked(twice, KB).findings]

    assert ["chainplate.port.spare_hole", "chainplate.port.spare_hole.2"] == ids
    with pytest.raises(BadSurvey, match='the id "a" is already that of the finding at findings\\[0\\]'):
        checked(Survey(Boat("Ruff"), (mark(), mark())), KB)


def test_a_problem_in_a_mapping_says_where_by_its_path() -> None:
    with pytest.raises(BadSurvey) as refused:
        survey_from(said(readings={"wobble": 1}), KB, source="the form")

    assert "the form: findings[0].readings.wobble" == str(refused.value.problems[0].place)


def test_a_mapping_may_hold_what_python_has_for_it() -> None:
    survey = survey_from(said({"facts": {"bow_pole": True}}, on=datetime.date(2026, 5, 1), photos=("a.jpg",)), KB)

    (finding,) = survey.findings
    assert ("yes", datetime.date(2026, 5, 1), ("a.jpg",)) == (
        survey.boat.facts["bow_pole"],
        finding.seen_on,
        finding.photos,
    )


def test_what_no_survey_can_hold_is_said() -> None:
    with pytest.raises(BadSurvey, match="which no survey can hold"):
        survey_from(said(note=object()), KB)
    with pytest.raises(BadSurvey, match="this number is too large"):
        survey_from(said(note=10**5000), KB)


@pytest.mark.parametrize(
    ("answer", "low", "high"),
    [
        ("1 to 2", 1, 2),
        ("felt not seen to seen", 1, 2),
        ("2 to 1", 1, 2),
        ("0.1 to 2 mm", 0, 2),
        ("0.1 mm to 1 cm", 0, 2),
    ],
)
def test_an_answer_may_have_two_ends(kb: KnowledgeBase, answer: str, low: int, high: int) -> None:
    (finding,) = survey_from(said(sign="play", readings={"fitting_play": answer}), kb).findings

    reading = finding.readings["fitting_play"]
    assert low == reading.low
    assert reading.high is not None
    assert high <= reading.high


@settings(max_examples=30)
@given(boats_with_findings(KB, most=4))
def test_every_random_boat_passes_the_door_and_comes_back_through_its_file(
    drawn: tuple[Boat, tuple[Finding, ...]],
) -> None:
    survey = checked(Survey(*drawn), KB)

    back = survey_from_text(survey_text(survey), KB)

    assert survey.in_walk_order(KB).findings == back.findings
    assert survey.boat == back.boat
