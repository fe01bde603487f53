"""Views of an assessment: text for a terminal, one self-contained HTML page, JSON. The templates hold the words."""

from __future__ import annotations

import json
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from triage.conclusions.assessment import Assessment, Range, Repair
from triage.parsing.text import fold, plain
from triage.resources import data_dir

if TYPE_CHECKING:
    import jinja2

Format = Literal["text", "html", "json"]
FORMATS: tuple[Format, ...] = ("text", "html", "json")

SHAPES = {"cosmetic": "○", "monitor": "◇", "structural": "■", "open": "?"}
"""Gravity by shape, so that it reads without colour."""

TAKES_OFF = {"none": "", "partial": ", a cover or hatch has to come off", "off": ", something has to come off"}
"""What has to be taken apart for a check, as the end of a phrase."""

_ANSI = {"cosmetic": "36", "monitor": "33", "structural": "1;35", "open": "1", "strong": "1"}


def render(assessment: Assessment, format: Format = "text", *, colour: bool = False) -> str:  # noqa: A002
    """The assessment as text (with terminal colours when asked for), HTML or JSON."""
    if format == "json":
        return json.dumps(as_json(assessment), ensure_ascii=False, indent=2) + "\n"
    if format == "html":
        return _pages().get_template("report.html").render(a=assessment)
    return _texts(colour).get_template("report.txt").render(a=assessment)


def as_json(assessment: Assessment) -> dict[str, Any]:
    """The assessment as plain values, of the shape that `assessment_schema` publishes."""
    from pydantic import TypeAdapter

    plain: dict[str, Any] = TypeAdapter(Assessment).dump_python(assessment, mode="json")
    return plain


def assessment_schema() -> dict[str, Any]:
    """The JSON Schema of the JSON report."""
    from pydantic import TypeAdapter

    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **TypeAdapter(Assessment).json_schema(mode="serialization"),
        "title": "Assessment",
    }


def shape(verdict: Range) -> str:
    """The sign for a range of verdicts: its shape, or a question mark while it is open."""
    return SHAPES[kind(verdict)]


def kind(verdict: Range) -> str:
    """What a range of verdicts is shown as: its word when settled, else "open"."""
    return verdict.worst if verdict.settled else "open"


def cost(repair: Repair) -> str:
    """Hours and money of a repair, always as ranges with their year and unit."""
    parts = []
    if repair.hours:
        parts.append(f"{_span(repair.hours)} hours of work{', and ' + repair.wait if repair.wait else ''}")
    if repair.materials:
        parts.append(f"materials {_span(repair.materials)}")
    if repair.repairer:
        parts.append(f"at a repairer {_span(repair.repairer)} in all")
    each = f" for each {repair.per}" if repair.per else ""
    told = f"{'; '.join(parts)}{each} ({repair.year}, in {repair.unit})."
    return told[:1].upper() + told[1:]


def _span(span: tuple[float, float]) -> str:
    least, most = span
    return f"{least:g}" if least == most else f"{least:g} to {most:g}"


def _environment(**options: Any) -> jinja2.Environment:
    import jinja2

    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(data_dir("templates")),
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        **options,
    )
    environment.filters["shape"] = shape
    environment.filters["kind"] = kind
    environment.filters["uncapital"] = lambda text: text[:1].lower() + text[1:]
    environment.filters["takes_off"] = TAKES_OFF.__getitem__
    environment.filters["cost"] = cost
    environment.filters["plain"] = plain
    return environment


@cache
def _pages() -> jinja2.Environment:
    return _environment(autoescape=True)


@cache
def _texts(colour: bool) -> jinja2.Environment:
    environment = _environment(autoescape=False)  # plain text: nothing is interpreted, control characters are removed

    def shade(text: str, kind: str) -> str:
        return f"\033[{_ANSI[kind]}m{text}\033[0m" if colour else text

    environment.filters["shade"] = shade
    environment.filters["fold"] = fold
    return environment
