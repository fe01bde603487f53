"""What happened, as a survey tells it: read, refused, written, and brought together."""

from __future__ import annotations

import pytest

from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.survey.merge import merge
from triage.survey.model import Happened
from triage.survey.read import checked, survey_from, survey_from_text
from triage.survey.write import survey_text


def said(*events: object) -> dict[str, object]:
    return {"boat": {"name": "Wagtail"}, "visit": {"on": "2026-06-01"}, "happened": list(events)}


def test_an_event_is_told_by_its_name_its_id_or_as_people_say_it(kb: KnowledgeBase) -> None:
    for name in ("hit_bottom", "She hit a rock or the ground under water", "hit a rock"):
        assert survey_from(said(name), kb).events == (Happened("hit_bottom"),)


def test_events_stand_in_one_order_and_are_written_as_they_were_read(kb: KnowledgeBase) -> None:
    survey = survey_from(said("tightened", {"event": "dropped", "force": "hard", "on": "2026-05-01"}), kb)

    assert [told.event for told in survey.events] == ["tightened", "dropped"]
    assert survey_from_text(survey_text(survey), kb).events == survey.events


@pytest.mark.parametrize(
    ("event", "what", "hint"),
    [
        ("hit_botom", 'no event is called "hit_botom"', 'Did you mean "hit_bottom"'),
        ({"event": "dropped", "on": "2026-05-01", "when": "today"}, "both a day and a time", 'Keep "on" or "when".'),
        ({"event": "dropped", "on": "2026-06-02"}, "is after the visit", "Check both dates."),
        ({"event": "dropped", "force": "hrd"}, '"force" cannot be "hrd"', 'Did you mean "hard"?'),
    ],
    ids=["unknown", "twice dated", "too late", "force"],
)
def test_what_cannot_be_is_asked_about(kb: KnowledgeBase, event: object, what: str, hint: str) -> None:
    with pytest.raises(BadSurvey) as raised:
        survey_from(said(event), kb)

    (problem,) = raised.value.problems
    assert what in problem.what
    assert problem.hint.startswith(hint)


def test_an_event_is_told_once(kb: KnowledgeBase) -> None:
    with pytest.raises(BadSurvey, match="dropped is told already"):
        survey_from(said("dropped", {"event": "dropped", "force": "hard"}), kb)


def test_a_survey_made_in_python_passes_the_same_tests(kb: KnowledgeBase) -> None:
    from dataclasses import replace

    with pytest.raises(BadSurvey, match='force cannot be "heavy"'):
        checked(replace(survey_from(said(), kb), events=(Happened("dropped", force="heavy"),)), kb)


def test_what_each_of_two_people_was_told_comes_together(kb: KnowledgeBase) -> None:
    base, mine, theirs = (survey_from(said(*events), kb) for events in ((), ("dropped",), ("capsized",)))

    both, clashes = merge(base, mine, theirs)

    assert {told.event for told in both.events} == {"dropped", "capsized"}
    assert not clashes
