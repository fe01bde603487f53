"""``triage share``: what was found, as a text to send to somebody."""

from __future__ import annotations

from pathlib import Path

import click

from triage.cli.printing import tell

TO = ("anyone", "repairer", "seller")


@click.command()
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path))
@click.option(
    "--to",
    type=click.Choice(TO),
    default="anyone",
    help="A message for anyone, a brief for a repairer, or a note to a seller.",
)
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)
def share(file: Path, to: str, rules: Path | None) -> None:
    """Make a text of the survey FILE to send.

    To anyone it is a message of at most 700 letters; to a repairer what was found, tried and not tried, without advice;
    to a seller what was seen and what you would like to try, without a verdict or a price.
    """
    from triage import assess_survey, load_knowledge, read_survey
    from triage.phrases import sharing

    kb = load_knowledge(rules)
    assessment = assess_survey(read_survey(file, kb), kb)
    if to == "anyone":
        tell(sharing.message(assessment))
    else:
        tell("\n".join((sharing.brief if to == "repairer" else sharing.note)(assessment)))
