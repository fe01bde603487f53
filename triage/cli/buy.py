"""``triage buy``: what to do about a boat that is for sale."""

from __future__ import annotations

from pathlib import Path

import click

from triage.cli.codes import SAYS_OTHERWISE, SETTLED_AND_FIT
from triage.cli.printing import tell, tell_json


@click.command()
@click.argument("file", metavar="SURVEY", type=click.Path(path_type=Path))
@click.option(
    "--offer",
    "offer_file",
    metavar="FILE",
    required=True,
    type=click.Path(path_type=Path),
    help="What is yours: prices, budget, quotes, what is missing, what you noticed about the sale.",
)
@click.option("--format", "-f", "form", type=click.Choice(["text", "json"]), default="text", help="Default: text.")
@click.option("--note", is_flag=True, help="Print a note to the seller instead.")
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)
def buy(file: Path, offer_file: Path, form: str, note: bool, rules: Path | None) -> None:
    """Tell on one screen whether to buy, on which terms, to wait or to leave, and the sums behind the price.

    What you do not name is not judged, and what nobody looked at is said. Exit code 0: nothing speaks against buying;
    1: there are terms, something to wait for, or a reason to leave; 2: a file cannot be used.
    """
    from triage import assess_survey, load_knowledge, read_survey
    from triage.buying.advice import advise_purchase
    from triage.buying.read_offer import read_offer
    from triage.phrases import buying
    from triage.views.purchase import render_purchase

    kb = load_knowledge(rules)
    offer = read_offer(offer_file, kb)
    advice = advise_purchase(assess_survey(read_survey(file, kb), kb), offer, kb)
    if note:
        tell("\n".join(buying.note(advice)))
    elif form == "json":
        tell_json(render_purchase(advice, "json"))
    else:
        tell(render_purchase(advice))
    raise SystemExit(SAYS_OTHERWISE if advice.level else SETTLED_AND_FIT)
