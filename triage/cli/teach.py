"""``triage teach``: lessons, cards, drawn cases, and what a class made of them."""

from __future__ import annotations

import click


@click.group()
def teach() -> None:
    """Teach damage recognition: lessons and cards to print, cases to try, and marking."""


for command in ():
    teach.add_command(command)
