"""``triage teach``: lessons, cards, drawn cases, and what a class made of them."""

from __future__ import annotations

import click

from triage.cli.teach_cases import cases, coverage, one_case
from triage.cli.teach_class import disagree, one_class
from triage.cli.teach_prints import cards, lesson, lessons, quiz, sheet
from triage.cli.teach_run import run


@click.group()
def teach() -> None:
    """Teach damage recognition: lessons and cards to print, cases to try, and marking."""


for command in (lessons, lesson, cards, quiz, sheet, one_case, cases, coverage, run, one_class, disagree):
    teach.add_command(command)
