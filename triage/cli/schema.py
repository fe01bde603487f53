"""``triage schema``: the published shapes of what goes in and what comes out."""

from __future__ import annotations

import json

import click

from triage.cli.printing import tell_json


@click.command()
@click.argument("what", type=click.Choice(["assessment", "survey"]), default="assessment")
def schema(what: str) -> None:
    """Print the JSON Schema of the JSON report (assessment) or of a survey file."""
    if what == "survey":
        from triage.survey.form import SurveyForm

        shape = {"$schema": "https://json-schema.org/draft/2020-12/schema", **SurveyForm.model_json_schema()}
    else:
        from triage.views.report import assessment_schema

        shape = assessment_schema()
    tell_json(json.dumps(shape, indent=2, ensure_ascii=False) + "\n")
