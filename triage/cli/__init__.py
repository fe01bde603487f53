"""The command line: thin, parse → library → print. Everything heavy is imported inside the commands that need it."""

from __future__ import annotations

import atexit
import gc

import click

from triage.cli.ask import ask
from triage.cli.assess import assess
from triage.cli.buy import buy
from triage.cli.causes import causes
from triage.cli.completion import completion
from triage.cli.entry import Entry
from triage.cli.hear import hear
from triage.cli.number import number
from triage.cli.page import page
from triage.cli.plan import plan
from triage.cli.rules import rules
from triage.cli.schema import schema
from triage.cli.serve import serve
from triage.cli.share import share
from triage.cli.sums import sums
from triage.cli.teach import teach
from triage.version import __version__

MADE_BETWEEN_LOOKS = 100_000
"""Objects; Python's own 700 has it look nearly 200 times while a survey is assessed."""


@click.group(cls=Entry, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="%(version)s")
def main() -> None:
    """Tell which marks on a small glass-fibre sailing dinghy matter, and why."""
    _collect_seldom()


def _collect_seldom() -> None:
    """A run keeps nearly all that it makes: looking for garbage, and once more at the end, finds next to nothing."""
    gc.set_threshold(MADE_BETWEEN_LOOKS)
    atexit.register(gc.freeze)


for command in (
    ask,
    assess,
    buy,
    causes,
    completion,
    hear,
    number,
    page,
    plan,
    rules,
    schema,
    serve,
    share,
    sums,
    teach,
):
    main.add_command(command)
