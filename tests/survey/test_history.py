"""What the owner answers when asked for a cause: by its name or its id, kept in the order of the knowledge."""

from __future__ import annotations

from tests.mistakes import small_base
from triage.knowledge.model import KnowledgeBase
from triage.survey.read import survey_from_text
from triage.survey.write import survey_text


def test_a_cause_is_answered_by_its_name_or_its_id() -> None:
    by_name, by_id = (
        survey_from_text(f"boat: {{name: Wagtail}}\nhistory: {{{name}: yes}}", small_base())
        for name in ("Hard landing", "hard_landing")
    )

    assert {"hard_landing": "yes"} == by_name.history == by_id.history


def test_a_survey_without_history_has_none() -> None:
    assert {} == survey_from_text("boat: {name: Wagtail}", small_base()).history


def test_answers_stand_in_the_order_of_the_causes_and_are_written_as_they_were_read(kb: KnowledgeBase) -> None:
    text = "boat: {name: Wagtail}\nhistory: {frost: unknown, ram: no, grounding: yes}"

    survey = survey_from_text(text, kb)

    assert [cause for cause in kb.causation.causes if cause in survey.history] == list(survey.history)
    assert survey.history == survey_from_text(survey_text(survey), kb).history
