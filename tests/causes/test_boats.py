"""Whole boats: the right cause comes first, the right checks come soon, and nothing in the plan is made up.

Each file in boats/ is a boat with what is known to have happened to her (common practice; the boats are invented):

    expect:
      first, word   the likeliest cause, and how likely it is said to be
      alike         causes that are said to be as likely
      soon          checks among the five most worthwhile, as zone/check
      in_plan       checks further down
      never         checks that must not be asked for
      sides         on which side a check is asked for
      story         the findings that the first story tells together
      at_work       the likely causes that are shown to go on, all of them
      little        causes for which little speaks, or nothing
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import networkx as nx
import pytest

from triage.causes.graph import graph_of
from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.conclusions.diagnosis import PlanLine
from triage.knowledge.model import KnowledgeBase
from triage.parsing.documents import read_document
from triage.survey.read import survey_from_text

BOATS = sorted((Path(__file__).parent / "boats").glob("*.yaml"))
EXPECTED = {"first", "word", "alike", "soon", "in_plan", "never", "sides", "story", "at_work", "little"}


def read(file: Path) -> Mapping[str, Any]:
    document = read_document(file.read_bytes(), file.name)
    assert document.problems == []
    assert set(document.value) == {"says", "survey", "expect"}
    assert set(document.value["expect"]) <= EXPECTED
    value: Mapping[str, Any] = document.value
    return value


def lines(assessment: Assessment) -> list[PlanLine]:
    """The lines of the plan, most worthwhile first."""
    return sorted((line for stop in assessment.plan for line in stop.lines), key=lambda line: line.rank)


def test_there_are_at_least_fifteen_boats() -> None:
    assert len(BOATS) >= 15


@pytest.mark.parametrize("file", BOATS, ids=lambda file: file.stem)
def test_a_boat_tells_her_story(file: Path, kb: KnowledgeBase) -> None:
    boat = read(file)
    expect = boat["expect"]

    assessment = assess_survey(survey_from_text(json.dumps(boat["survey"]), kb), kb)

    first, plan = assessment.causes[0], lines(assessment)
    asked = [f"{line.zone}/{line.check}" for line in plan]
    assert (expect["first"], expect["word"]) == (first.id, first.likelihood)
    assert [kb.causation.causes[cause].name for cause in expect.get("alike", [])] == list(first.alike)
    assert set(expect["soon"]) <= set(asked[:5]), asked
    assert set(expect.get("in_plan", [])) <= set(asked)
    assert set(expect.get("never", [])).isdisjoint(asked)
    assert expect.get("sides", {}).items() <= {f"{line.zone}/{line.check}": line.side for line in plan}.items()
    assert expect.get("story", []) == list(assessment.stories[0].findings if assessment.stories else ())
    likely = [cause for cause in assessment.causes if cause.likelihood in ("very likely", "likely")]
    shown = [cause.id for cause in likely if cause.still_at_work and cause.still_at_work.shown_by]
    assert expect.get("at_work", []) == shown
    words = {cause.id: cause.likelihood for cause in assessment.causes}
    little = "little speaks for it"
    assert {words.get(cause, little) for cause in expect.get("little", [])} <= {little}


@pytest.mark.parametrize("file", BOATS, ids=lambda file: file.stem)
def test_every_line_of_a_plan_can_be_traced(file: Path, kb: KnowledgeBase) -> None:
    """From a mark on this boat, or from the owner's word on a cause, link by link through the graph."""
    survey = survey_from_text(json.dumps(read(file)["survey"]), kb)
    graph = graph_of(kb)
    links: nx.Graph[str] = nx.Graph()
    links.add_edges_from((one, other) for one, other, data in graph.edges(data=True) if data["kind"] != "beside")
    known = {f"mark:{finding.zone}/{finding.sign}" for finding in survey.findings}
    known |= {f"mark:anywhere/{finding.sign}" for finding in survey.findings}
    known |= {f"zone:{finding.zone}" for finding in survey.findings}
    known |= {f"cause:{cause}" for cause, answer in survey.history.items() if answer == "yes"}

    for line in lines(assess_survey(survey, kb)):
        assert line.reasons
        for reason in line.reasons:
            assert reason.nodes[0] in known
            assert all(links.has_edge(one, other) for one, other in nx.utils.pairwise(reason.nodes)), reason.nodes
            assert line.name == reason.path[-1]
