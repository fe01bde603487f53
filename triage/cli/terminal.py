"""Plain lines of at most 80 columns and numbered choices: no colour, no moving cursor, all of it speakable."""

from __future__ import annotations

from collections.abc import Sequence

import click

from triage.cli.printing import tell
from triage.parsing.text import fold, plain


def say(text: str = "", indent: int = 0, first: str | None = None) -> None:
    """A paragraph; ``first`` stands in the indent of its first line."""
    tell(fold(text, indent, first) if text else "")


def listen(prompt: str = "Answer") -> str:
    """A line from the person, without the spaces round it. Raises click.Abort at the end of input or on Ctrl-C."""
    said: str = click.prompt(prompt, default="", show_default=False, prompt_suffix=": ")
    return plain(said).strip()


def show_choices(choices: Sequence[str]) -> None:
    for number, choice in enumerate(choices, start=1):
        say(choice, 6, f"  {number:>2}  ")


def number_of(said: str, choices: Sequence[object]) -> int | None:
    """The place of the choice that a number stands for, from 0."""
    return int(said) - 1 if said.isdecimal() and 1 <= int(said) <= len(choices) else None


def choose(question: str, choices: Sequence[str]) -> int:
    """Ask until one of the choices is given by its number; its place, from 0."""
    say(question)
    show_choices(choices)
    while (number := number_of(listen(), choices)) is None:
        say(f"Please give a number from 1 to {len(choices)}.")
    return number
