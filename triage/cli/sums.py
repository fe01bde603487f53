"""``triage sums``: numbers that change a decision, with their working."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from triage.cli.printing import tell

if TYPE_CHECKING:
    from triage.mechanics.worked import Worked


@click.command()
@click.argument("name", required=False)
@click.argument("values", nargs=-1, metavar="[WHAT=VALUE…]")
@click.option(
    "--output", "-o", type=click.Path(dir_okay=False, path_type=Path), help="A page, with its curve (.html, .pdf)."
)
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="The sums of the rules here."
)
def sums(name: str | None, values: tuple[str, ...], output: Path | None, rules: Path | None) -> None:
    """Do the sum NAME with what was measured, and show the working.

    Without values it tells what to measure, and without a name which sums there are. A value has its unit ("14 mm"); it
    may be a range ("12 to 16 mm") or "about 14 mm"; where it is neither, the usual error of such a reading is added.
    """
    from triage import load_knowledge
    from triage.mechanics.worked import work
    from triage.phrases import sums as phrases

    kb = load_knowledge(rules)
    if output is not None:
        if name is None or output.suffix not in (".html", ".pdf"):
            raise click.UsageError("A page is of one sum, and its name ends in .html or .pdf.")
        _write(work(kb, name, _said(values)), output)
    elif name is None:
        tell("\n".join(phrases.catalogue(kb.sums.values())))
    elif not values and name in kb.sums:
        tell("\n".join(phrases.asks(kb.sums[name])))
    else:
        tell("\n".join(phrases.worked(work(kb, name, _said(values)))))


def _write(done: Worked, output: Path) -> None:
    from triage.files import write_whole
    from triage.views.pdf import as_pdf
    from triage.views.sum_page import sum_page

    page = sum_page(done)
    write_whole(output, as_pdf(page) if output.suffix == ".pdf" else page)
    tell(f"{done.sum.name}. Written to {output}")


def _said(values: tuple[str, ...]) -> dict[str, str]:
    """By name what was said. Raises BadParameter for a value without a name."""
    for value in values:
        if "=" not in value:
            raise click.BadParameter(f'"{value}" has no name: write it as WHAT=VALUE, such as "dip=6 mm".')
    return {name.strip(): said.strip() for name, _, said in (value.partition("=") for value in values)}
