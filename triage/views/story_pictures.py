"""What mending may cost, and each story of a cause, as pictures of an assessment."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from triage.conclusions.assessment import Assessment, Job
from triage.conclusions.diagnosis import Story
from triage.conclusions.repairs import RepairAdvice
from triage.drawing.bands import Sum, draw_sums
from triage.drawing.story import StoryMark, draw_story
from triage.phrases import findings, pictures


@dataclass(frozen=True)
class CostPicture:
    """The sums of all jobs on one scale, and what has to be known of them."""

    svg: Markup
    note: str
    title: str = pictures.COSTS


def costs_of(assessment: Assessment) -> CostPicture | None:
    """What mending may cost, job by job, from the least of what is known to the most of the worst that it may be.

    None when there is no figure for any job.
    """
    sums = list(_sums(assessment))
    if not sums:
        return None
    repairs = [repair for job in assessment.jobs if (repair := _repair(job))]
    note = pictures.costs_note(repairs[0], without=len(assessment.jobs) - len(sums))
    return CostPicture(
        draw_sums(
            sums, pictures.all_of_it(repairs), pictures.costs_in_words((one.says, one.least, one.most) for one in sums)
        ),
        note,
    )


def _sums(assessment: Assessment) -> Iterator[Sum]:
    for number, job in enumerate(assessment.jobs, start=1):
        repair = _repair(job)
        if repair is None:
            continue
        told = [asked for one in (repair, job.mending_at_worst) if one and (asked := _asked(one))]
        says = pictures.sum_of(number, job, repair, paid=_is_paid(repair))
        yield Sum(says, told[0][0], max(most for _, most in told))


def _repair(job: Job) -> RepairAdvice | None:
    """How the job is mended, where there is a figure for it."""
    return next((one for one in (job.mending, job.mending_at_worst) if one and _asked(one)), None)


def _is_paid(repair: RepairAdvice) -> bool:
    """Whether somebody is paid for the work; else its owner buys the materials."""
    return repair.who_role == "professional" or repair.materials is None


def _asked(repair: RepairAdvice) -> tuple[float, float] | None:
    return repair.repairer if _is_paid(repair) else repair.materials


def story_picture(story: Story, assessment: Assessment) -> Markup:
    """The story as a small graph: the cause, its marks, and what followed from them."""
    marks = [
        StoryMark(part.finding, findings.title(assessment.finding(part.finding)), part.follows_from)
        for part in story.parts
    ]
    return draw_story(story.name, marks, pictures.story_in_words(story, assessment))
