"""``triage rules``: checking and showing the knowledge."""

from __future__ import annotations

import textwrap
from pathlib import Path

import click

from triage.cli.printing import tell
from triage.cli.prove import prove
from triage.phrases.words import counted


@click.group()
def rules() -> None:
    """Check and show the knowledge the program reasons with."""


@rules.command()
@click.argument("folder", required=False, type=click.Path(exists=True, file_okay=False, path_type=Path))
@click.option(
    "--against",
    metavar="shipped|DIR",
    help="Do not check, but tell for every mark what it comes to otherwise than by the shipped rules, or those in DIR.",
)
@click.option("--all", "everything", is_flag=True, help="With --against: print every way in which marks changed.")
def check(folder: Path | None, against: str | None, everything: bool) -> None:
    """Check the shipped rules, or those in FOLDER: that they hold together, and that their cases do."""
    if against is not None:
        _compare(folder, against, everything)
    from triage.errors import BadRules
    from triage.knowledge.store.load import load_knowledge, rule_texts
    from triage.lint.run import passes

    try:
        kb, texts = load_knowledge(folder), rule_texts(folder)
    except BadRules as error:
        tell(f"{error}\n\n{counted(len(error.problems), 'problem')}; nothing else was checked.")
        raise SystemExit(2) from None
    found = 0
    for name, problems in passes(kb, texts):
        found += len(problems)
        tell(f"{name}: {counted(len(problems), 'problem') if problems else 'none wrong'}")
        for problem in problems:
            tell(f"\n{textwrap.indent(str(problem), '  ')}")
        if problems:
            tell()
    cases = sum(len(rule.cases) for rule in kb.all_rules)
    kinds = ("zone", "sign", "scale", "check", "rule", "presumption")
    sizes = [counted(len(getattr(kb, f"{kind}s")), kind) for kind in kinds]
    tell(f"{', '.join(sizes)}, {counted(cases, 'case')}: {counted(found, 'problem')}.")
    raise SystemExit(2 if found else 0)


def _compare(folder: Path | None, against: str, everything: bool) -> None:
    """Tell what changed from the rules named by ``against`` to those in ``folder``; exit 1 when something did."""
    from triage.cli.comparison import comparison_lines
    from triage.errors import BadRules
    from triage.knowledge.store.load import load_knowledge
    from triage.lint.compare import compare, marks

    try:
        before, after = load_knowledge(None if against == "shipped" else Path(against)), load_knowledge(folder)
    except BadRules as error:
        tell(f"{error}\n\n{counted(len(error.problems), 'problem')}; nothing was compared.")
        raise SystemExit(2) from None
    changes = tuple(compare(before, after))
    for line in comparison_lines(changes, everything):
        tell(line)
    of = counted(len(marks(after)), "mark")
    tell(f"Of {of} {len(changes) or 'none'} changed, each taken alone.")
    raise SystemExit(1 if changes else 0)


@rules.command()
@click.argument("id_", metavar="ID")
@click.option(
    "--rules", "from_", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Show the rules in here."
)
def show(id_: str, from_: Path | None) -> None:
    """Show a rule, presumption, promise, scale, sign, zone or check, with everything it meets."""
    from triage.cli.entries import entries
    from triage.errors import BadRules
    from triage.knowledge.store.load import load_knowledge
    from triage.parsing.text import did_you_mean

    try:
        found = entries(load_knowledge(from_))
    except BadRules as error:
        tell(str(error), err=True)
        raise SystemExit(2) from None
    if id_ not in found:
        hint = did_you_mean(id_, found) or "Rules are named area/what-it-notices; all else in one word."
        tell(f'nothing is called "{id_}". {hint}', err=True)
        raise SystemExit(2)
    tell("\n\n".join("\n".join(one()) for one in found[id_]))


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
    tell(f"{counted(pages, 'page')}; start with {folder / 'index.html'}")


@rules.command()
@click.option(
    "--rules", "from_", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Count the rules in here."
)
def basis(from_: Path | None) -> None:
    """Print how many statements are published, published by analogy, common practice or our own estimate."""
    from triage.knowledge.basis import BASES, basis_counts
    from triage.knowledge.store.load import load_knowledge

    counts = basis_counts(load_knowledge(from_))
    tell(f"{'':<14}" + "".join(f"{kind:>17}" for kind in BASES))
    for kind, of in counts.items():
        tell(f"{kind:<14}" + "".join(f"{of[basis]:>17}" for basis in BASES))


rules.add_command(prove)
