"""Views of an assessment: text for a terminal, one self-contained HTML page, JSON. The templates hold the layout."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Literal

from markupsafe import Markup

from triage.conclusions.assessment import Assessment
from triage.conclusions.short import ShortAnswer
from triage.conclusions.values import Range
from triage.drawing.checks import draw_check
from triage.drawing.marks import draw_mark
from triage.drawing.svg import drawn
from triage.knowledge.model import NOTHING_SEEN
from triage.parsing.text import fold, plain
from triage.phrases import answers, boat, findings, headings, jobs, next_steps, short, words, working
from triage.resources import template_environment
from triage.views.boat_picture import picture_of
from triage.views.short_answer import short_answer
from triage.views.story_pictures import costs_of, story_picture

if TYPE_CHECKING:
    import jinja2

Format = Literal["text", "full", "html", "json"]
FORMATS: tuple[Format, ...] = ("text", "full", "html", "json")

SHAPES = {"looks": "○", "watch": "◇", "weakened": "■", "open": "?"}
"""Gravity by shape, so that it reads without colour."""

_ANSI = {"looks": "36", "watch": "33", "weakened": "1;35", "open": "1", "strong": "1"}


def render(
    assessment: Assessment,
    format: Format = "text",  # noqa: A002
    *,
    colour: bool = False,
    photos: Mapping[str, str] = MappingProxyType({}),
) -> str:
    """The assessment as HTML, JSON or text (with terminal colours when asked for).

    As text it is the short answer alone, or, in full, every reason after it. A page shows the ``photos`` that are given
    as data URIs by name (see `triage.views.photos`), and names the others.
    """
    if format == "json":
        return json.dumps(as_json(assessment), ensure_ascii=False, indent=2) + "\n"
    told = {"a": assessment, "s": short_answer(assessment), "full": format == "full", "photos": photos}
    if format == "html":
        pictures = {"picture": picture_of(assessment), "costs": costs_of(assessment)}
        return _pages().get_template("report.html").render(told | pictures)
    return _texts(colour).get_template("report.txt" if format == "full" else "short.txt").render(told)


def as_json(assessment: Assessment) -> dict[str, Any]:
    """The assessment as plain values, of the shape that `assessment_schema` publishes: the data, and with it the
    headline of the boat, of each finding and of each job, and the short answer.
    """
    from pydantic import TypeAdapter

    plain_values: dict[str, Any] = TypeAdapter(Assessment).dump_python(assessment, mode="json")
    plain_values["headline"] = boat.headline(assessment)
    plain_values["short"] = TypeAdapter(ShortAnswer).dump_python(short_answer(assessment), mode="json")
    for told, finding in zip(plain_values["findings"], assessment.findings, strict=True):
        told |= {"headline": findings.headline(finding), "summary": findings.summary(finding)}
    for told, job in zip(plain_values["jobs"], assessment.jobs, strict=True):
        told |= {"headline": jobs.headline(job, assessment), "summary": jobs.summary(job, assessment)}
    return plain_values


def assessment_schema() -> dict[str, Any]:
    """The JSON Schema of the JSON report."""
    from pydantic import TypeAdapter

    schema = TypeAdapter(Assessment).json_schema(mode="serialization")
    both = ("headline", "summary")
    told = ((schema, ("headline",)), *((schema["$defs"][name], both) for name in ("FindingAssessment", "Job")))
    for shape, sentences in told:
        shape["properties"] |= {name: {"type": "string", "title": name.capitalize()} for name in sentences}
        shape["required"] += sentences
    short_schema = TypeAdapter(ShortAnswer).json_schema(mode="serialization")
    schema["$defs"] |= short_schema.pop("$defs")
    schema["properties"]["short"] = short_schema
    schema["required"].append("short")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema, "title": "Assessment"}


def looks_so(number: int, assessment: Assessment) -> Markup:
    """What the gravest mark of a job looks like; empty for one that is not drawn, or was measured and not seen."""
    mark = assessment.finding(assessment.jobs[number - 1].findings[0])
    if mark.sign == NOTHING_SEEN or mark.sign not in drawn("marks"):
        return Markup()
    return draw_mark(mark.sign, mark.mark, thumb=True, name=f"glance-{number}").svg


def kind(verdict: Range) -> str:
    """What a range of verdicts is shown as: the role of its level when settled, else "open"."""
    return verdict.roles[1] if verdict.settled else "open"


def shape(verdict: Range) -> str:
    """The sign for a range of verdicts: its shape, or a question mark while it is open."""
    return SHAPES[kind(verdict)]


def _environment(*, autoescape: bool) -> jinja2.Environment:
    environment = template_environment(autoescape=autoescape)
    environment.filters |= {"shape": shape, "kind": kind, "plain": plain}
    environment.globals |= {"story_picture": story_picture, "draw_check": draw_check, "looks_so": looks_so}
    environment.globals |= {"boat": boat, "finding": findings, "jobs": jobs, "answers": answers}
    environment.globals |= {"short": short, "words": words}
    environment.globals["next_steps"] = next_steps
    environment.globals["working"] = working
    environment.globals["head"] = headings
    return environment


@cache
def _pages() -> jinja2.Environment:
    return _environment(autoescape=True)


@cache
def _texts(colour: bool) -> jinja2.Environment:
    environment = _environment(autoescape=False)  # plain text: nothing is interpreted, control characters are removed

    def shade(text: str, kind: str) -> str:
        return f"\033[{_ANSI[kind]}m{text}\033[0m" if colour else text

    environment.filters |= {"shade": shade, "fold": fold}
    return environment
