"""Writing surveys: what is written is read back as the same survey."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.strategies import boats_with_findings
from triage.dialogue.interview import answer
from triage.errors import CannotWork
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.survey.model import Boat, Finding, Reading, Survey
from triage.survey.read import read_survey, survey_from_text
from triage.survey.write import survey_text, write_survey


def there_and_back(kb: KnowledgeBase, survey: Survey) -> Survey:
    return survey_from_text(survey_text(survey), kb, source=survey.source)


@settings(max_examples=30)
@given(data=st.data(), note=st.text(st.characters(exclude_categories=["C"]), max_size=80).map(str.strip))
def test_any_survey_comes_back_as_it_was(kb: KnowledgeBase, data: st.DataObject, note: str) -> None:
    boat, findings = data.draw(boats_with_findings(kb))
    length = data.draw(st.none() | st.floats(2.0, 8.0).map(lambda metres: round(metres, 9)))
    visit = data.draw(st.none() | st.dates(datetime.date(2000, 1, 1), datetime.date(2026, 1, 1)))
    noted = tuple(replace(finding, note=note, seen_on=visit) for finding in findings)
    survey = Survey(replace(boat, length=length), noted, visit, note, note).in_walk_order(kb)

    assert survey == there_and_back(kb, survey)


def test_what_was_sought_in_vain_is_not_forgotten(kb: KnowledgeBase) -> None:
    boat = Boat("Wagtail", {"hull": "single"}).knowing("deck", None, "").knowing(BUOYANCY, None, "foredeck")
    survey = Survey(boat, (Finding("f", "foredeck", "crazing", readings={"tap_dull": Reading.attempted()}),))

    back = there_and_back(kb, survey)

    assert {("deck", ""), (BUOYANCY, "foredeck")} == back.boat.attempted
    assert {"hull": "single"} == back.boat.facts
    assert back.findings[0].readings["tap_dull"].low is None


def test_measurements_stay_as_they_were_said(kb: KnowledgeBase) -> None:
    survey = Survey(Boat("Wagtail"), (Finding("f", "side_deck", "hairline"),))

    survey = answer(kb, survey, "f", "crack_length", "1 1/2 inch")

    assert "1 1/2 inch" in survey_text(survey)
    assert (38.1, 38.1) == there_and_back(kb, survey).findings[0].readings["crack_length"].measured


def test_a_file_is_written_whole_or_not_at_all(
    kb: KnowledgeBase, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "deep" / "wagtail.yaml"
    before = Survey(Boat("Wagtail"), ())
    write_survey(before, file)

    monkeypatch.setattr("os.replace", lambda *_: (_ for _ in ()).throw(OSError("no room")))
    with pytest.raises(CannotWork, match="no room"):
        write_survey(Survey(Boat("Dunlin"), ()), file)

    assert "Wagtail" == read_survey(file, kb).boat.name
    assert [file.name] == [left.name for left in file.parent.iterdir()]


def test_what_was_asked_comes_back(kb: KnowledgeBase) -> None:
    survey = Survey(Boat("Wagtail"), (), asked="Can I sail her?")

    assert survey == there_and_back(kb, survey)
