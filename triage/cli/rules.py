"""``triage rules``: checking and showing the knowledge."""

from __future__ import annotations

from pathlib import Path

import click

from triage.cli.printing import tell
from triage.cli.prove import prove


@click.group()
def rules() -> None:
    """Check and show the knowledge the program reasons with."""


@rules.command()
@click.argument("folder", required=False, type=click.Path(exists=True, file_okay=False, path_type=Path))
def check(folder: Path | None) -> None:
    """Check the shipped rules, or those in FOLDER: that they hold together, and that their cases do."""
    from triage.errors import BadRules
    from triage.knowledge.store.load import load_knowledge
    from triage.lint import PASSES

    try:
        kb = load_knowledge(folder)
    except BadRules as error:
        click.echo(f"{error}\n\n{_count(len(error.problems), 'problem')}; nothing else was checked.", err=True)
        raise SystemExit(2) from None
    found = 0
    for name, run in PASSES:
        problems = list(run(kb))
        found += len(problems)
        click.echo(f"{name}: {_count(len(problems), 'problem') if problems else 'none wrong'}")
        for problem in problems:
            click.echo(f"{problem}\n", err=True)
    cases = sum(len(rule.cases) for rule in kb.all_rules)
    click.echo(
        f"{len(kb.zones)} zones, {len(kb.signs)} signs, {len(kb.scales)} scales, {len(kb.checks)} checks, "
        f"{len(kb.rules)} rules, {len(kb.presumptions)} presumptions, {cases} cases: {_count(found, 'problem')}."
    )
    raise SystemExit(2 if found else 0)


@rules.command()
@click.argument("folder", metavar="DIR", type=click.Path(file_okay=False, path_type=Path))
@click.option(
    "--rules", "from_", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Show the rules in here."
)
def handbook(folder: Path, from_: Path | None) -> None:
    """Write the knowledge as a handbook of plain pages into DIR, to read or to print."""
    from triage.knowledge.store.load import load_knowledge
    from triage.views.handbook import write_handbook

    pages = write_handbook(load_knowledge(from_), folder)
    tell(f"{_count(pages, 'page')}; start with {folder / 'index.html'}")


@rules.command()
def basis() -> None:
    """Print how many statements are published, common practice or our own estimate."""
    from triage.knowledge.basis import basis_table
    from triage.knowledge.store.load import load_knowledge

    tell(basis_table(load_knowledge()))


rules.add_command(prove)


def _count(number: int, thing: str) -> str:
    return f"{number or 'no'} {thing}{'' if number == 1 else 's'}"
