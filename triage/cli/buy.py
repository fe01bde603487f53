"""``triage buy``: what to do about a boat that is for sale."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from triage.cli.assess import SUFFIX, refuse_overwriting
from triage.cli.codes import SAYS_OTHERWISE, SETTLED_AND_FIT
from triage.cli.printing import tell, tell_json, tell_markup

if TYPE_CHECKING:
    from triage.buying.advice import PurchaseAdvice


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
@click.option("--format", "-f", "form", type=click.Choice(list(SUFFIX)), help="Default: text, or what OUTPUT ends in.")
@click.option("--output", "-o", type=click.Path(path_type=Path), help="A file (.txt, .html, .pdf, .json).")
@click.option("--note", is_flag=True, help="Print a note to the seller instead.")
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)
def buy(file: Path, offer_file: Path, form: str | None, output: Path | None, note: bool, rules: Path | None) -> None:
    """Tell on one screen whether to buy, on which terms, to wait or to leave, and the sums behind the price.

    What you do not name is not judged, and what nobody looked at is said. Exit code 0: nothing speaks against buying;
    1: there are terms, something to wait for, or a reason to leave; 2: a file cannot be used.
    """
    from triage import advise_purchase, assess_survey, load_knowledge, read_offer, read_survey
    from triage.files import write_whole
    from triage.phrases import buying, seller

    form = form or next((name for name, suffix in SUFFIX.items() if output and output.suffix == suffix), "text")
    if form == "pdf" and output is None:
        raise click.UsageError("A PDF is written to a file: name one with -o.")
    refuse_overwriting((file, offer_file), (output, None))
    kb = load_knowledge(rules)
    offer = read_offer(offer_file, kb)
    advice = advise_purchase(assess_survey(read_survey(file, kb), kb), offer, kb)
    told = "\n".join(seller.note(advice)) + "\n" if note else _rendered(advice, form)
    if output is not None:
        write_whole(output, told)
        tell(f"{advice.assessment.boat}: {buying.headline(advice)}. Written to {output}")
    elif isinstance(told, str):
        (tell_json if form == "json" else tell_markup if form == "html" else _tell)(told)
    raise SystemExit(SAYS_OTHERWISE if advice.level else SETTLED_AND_FIT)


def _tell(text: str) -> None:
    tell(text, nl=False)


def _rendered(advice: PurchaseAdvice, form: str) -> str | bytes:
    from triage.views.pdf import as_pdf
    from triage.views.purchase import render_purchase

    if form == "pdf":
        return as_pdf(render_purchase(advice, "html"))
    return render_purchase(advice, form)  # type: ignore[arg-type]  # click has checked it
