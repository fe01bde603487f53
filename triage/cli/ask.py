"""``triage ask``: a conversation in the terminal, one question at a time."""

from __future__ import annotations

import gc
from pathlib import Path

import click

from triage.cli.codes import STOPPED


@click.command()
@click.argument("text", nargs=-1)
@click.option(
    "--file",
    "-f",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Keep the conversation in this survey file, and carry on with it if it exists. Default: survey.yaml here.",
)
@click.option("--boat", help="What she is called.")
@click.option("--alone", is_flag=True, help="Nobody is there to help: checks that need a helper come later.")
@click.option("--without", multiple=True, metavar="TOOL", help="A tool that is not at hand; may be given again.")
@click.option("--brief", is_flag=True, help="Leave out how each check is done.")
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)
def ask(
    text: tuple[str, ...],
    file: Path | None,
    boat: str | None,
    alone: bool,
    without: tuple[str, ...],
    brief: bool,
    rules: Path | None,
) -> None:
    """Tell what you see, in your own words, and answer questions until it is clear what it means.

    \b
    triage ask "crack where the mast wires bolt on, about an inch"

    Every answer is kept at once. Leave whenever you like and carry on later, or turn what was kept into a report
    with "triage assess".
    """
    from triage import load_knowledge
    from triage.asking.effort import Resources
    from triage.cli.conversation import Conversation
    from triage.cli.kept import find_store, named, store_at

    kb = load_knowledge(rules)
    store = find_store(kb) if file is None else store_at(kb, file)
    survey = named(kb, store.survey, boat)
    gc.freeze()  # the knowledge stays until the end; looking through it for garbage makes people wait
    talk = Conversation(kb, store, survey, Resources(frozenset(without), alone), brief=brief)
    try:
        talk.run(" ".join(text))
    except (click.Abort, KeyboardInterrupt, EOFError):
        talk.part()
        raise SystemExit(STOPPED) from None
