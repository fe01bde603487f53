"""What mending may cost is drawn job by job, from what is known to the worst that it may be."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from triage.conclusions.assessment import Assessment
from triage.views.story_pictures import costs_of, story_picture

Assess = Callable[[str], Assessment]


def test_every_job_with_a_figure_has_its_band(assess_text: Assess, root: Path) -> None:
    assessment = assess_text((root / "examples/club-boat.yaml").read_text())

    picture = costs_of(assessment)

    assert picture is not None
    figured = [job for job in assessment.jobs if job.mending and (job.mending.repairer or job.mending.materials)]
    assert len(figured) == picture.svg.count('class="sum"')
    assert "Ask for a quote" in picture.note


def test_where_there_is_no_figure_nothing_is_drawn(assess_text: Assess) -> None:
    assert costs_of(assess_text("boat: {name: Wagtail}\nfindings: []\n")) is None


def test_a_story_is_drawn_with_all_its_marks(assess_text: Assess, root: Path) -> None:
    assessment = assess_text((root / "examples/club-boat.yaml").read_text())
    (story,) = assessment.stories

    assert len(story.parts) == story_picture(story, assessment).count('class="found"')
