"""``triage plan``: what to try at a viewing, and what to ask for before."""

from __future__ import annotations

import datetime
from pathlib import Path

import click

from triage.cli.advert import keep_advert
from triage.cli.printing import tell


@click.command()
@click.argument("offer_file", metavar="OFFER", type=click.Path(path_type=Path))
@click.option("--minutes", type=click.FloatRange(5, 600), default=40, show_default=True, help="How long you will have.")
@click.option(
    "--seen",
    metavar="SURVEY",
    type=click.Path(path_type=Path),
    help="What is known already, such as marks in the photographs, as a survey.",
)
@click.option(
    "--advert",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="The words of an advert: what they tell is shown, and kept in OFFER once you say so.",
)
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)
def plan(offer_file: Path, minutes: float, seen: Path | None, advert: Path | None, rules: Path | None) -> None:
    """Plan a viewing of the boat in OFFER, the file that triage buy takes: bow to stern, what tells most first.

    It tells what to bring, at most eight things to ask the seller for beforehand, and what photographs cannot show.
    """
    from triage import Boat, Survey, assess_survey, load_knowledge, read_survey
    from triage.buying.read_offer import read_offer
    from triage.buying.viewing import plan_viewing
    from triage.views.purchase import render_viewing

    kb, year = load_knowledge(rules), datetime.date.today().year
    if advert and not keep_advert(kb, advert, offer_file, year):
        return
    offer = read_offer(offer_file, kb)
    survey = read_survey(seen, kb) if seen else Survey(Boat(offer.boat or "The boat"), ())
    tell(render_viewing(plan_viewing(assess_survey(survey, kb), offer, kb, minutes, year)))
