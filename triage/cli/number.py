"""``triage number``: what a hull number says, and whether it fits the rest."""

from __future__ import annotations

import datetime

import click

from triage.cli.codes import BAD_INPUT, SAYS_OTHERWISE, SETTLED_AND_FIT
from triage.cli.printing import tell

FIRST_BOAT = 1940
"""No glass-fibre boat is older."""


@click.command()
@click.argument("number", metavar="NUMBER")
@click.option("--other", metavar="NUMBER", help="The number at her second place, to compare.")
@click.option("--claimed", type=click.IntRange(FIRST_BOAT, 2100), metavar="YEAR", help="The year she is said to be of.")
def number(number: str, other: str | None, claimed: int | None) -> None:
    """Read a hull identification NUMBER, and tell what it says and what does not match.

    Characters that look alike are suggested and never changed. Exit code 0: it can be read and matches; 1: something
    does not match; 2: it is no hull number.
    """
    from triage.buying.hull_number import HullNumber, read_hull_number
    from triage.phrases import identity

    year = datetime.date.today().year
    read = [read_hull_number(text, year) for text in (number, other) if text is not None]
    numbers = [one for one in read if isinstance(one, HullNumber)]
    odd: list[str] = []
    for one in read:
        if isinstance(one, HullNumber):
            tell("\n".join(identity.told(one)))
            odd += identity.does_not_match(one, year, claimed)
        else:
            tell("\n".join(identity.unreadable(one)))
    if len(numbers) == 2 and (differing := identity.two_plates(*numbers)):
        odd.append(differing)
    if odd:
        tell("\n".join((*dict.fromkeys(odd), identity.ASK)))
    tell("\n".join(("", *identity.GOOD_TO_KNOW)))
    if len(numbers) < len(read):
        raise SystemExit(BAD_INPUT)
    raise SystemExit(SAYS_OTHERWISE if odd else SETTLED_AND_FIT)
