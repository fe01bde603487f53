"""What ``triage teach`` prints: lessons, cards, a quiz and the sheet of points, as pages and as PDF."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from triage.cli.printing import tell

if TYPE_CHECKING:
    from triage.knowledge.model import KnowledgeBase

READERS = ("learner", "trainer", "answers")

output = click.option(
    "--output", "-o", required=True, metavar="FILE", type=click.Path(path_type=Path), help="A .html or .pdf file."
)
projector = click.option("--projector", is_flag=True, help="One thing on a screen, large; next with the Enter key.")
rules = click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Teach the rules in here."
)


@click.command()
@rules
def lessons(rules: Path | None) -> None:
    """List the lessons, each with its minutes and what somebody can do afterwards."""
    from triage.parsing.text import fold
    from triage.phrases import lessons as says

    kb = _taught(rules)
    for lesson in kb.teaching.lessons.values():
        tell(fold(says.row(lesson), 3, f"{lesson.number}"))


@click.command()
@click.argument("number", type=int)
@click.option(
    "--for", "reader", type=click.Choice(READERS), default="learner", show_default=True, help="Who will read it."
)
@projector
@output
@rules
def lesson(number: int, reader: str, projector: bool, output: Path, rules: Path | None) -> None:
    """Write lesson NUMBER as a handout, as the answers to it, or as the trainer's notes with the sheet of points."""
    from triage.views.lessons import render_lesson

    kb = _taught(rules)
    chosen = next((one for one in kb.teaching.lessons.values() if one.number == number), None)
    if chosen is None:
        raise click.UsageError(_no_such(number, kb))
    _write(render_lesson(kb, chosen, reader, projector=projector), output)  # type: ignore[arg-type]  # click has checked


@click.command()
@projector
@output
@rules
def cards(projector: bool, output: Path, rules: Path | None) -> None:
    """Write what is taken for what, as cards: both drawn side by side, and the test that tells them apart."""
    from triage.views.lessons import render_confusions

    _write(render_confusions(_taught(rules), projector=projector), output)


@click.command()
@click.option("--seed", type=int, default=1, show_default=True, help="Another number, other cards.")
@projector
@output
@rules
def quiz(seed: int, projector: bool, output: Path, rules: Path | None) -> None:
    """Write twelve cards for five spare minutes, to be cut and folded with the answer inside."""
    from triage.views.lessons import render_quiz

    _write(render_quiz(_taught(rules), seed, projector=projector), output)


@click.command()
@output
@rules
def sheet(output: Path, rules: Path | None) -> None:
    """Write the sheet by which a trainer scores one finding."""
    from triage.views.lessons import render_sheet

    _write(render_sheet(_taught(rules)), output)


def _taught(rules: Path | None) -> KnowledgeBase:
    """The knowledge; refused where it holds nothing to teach."""
    from triage.knowledge.store.load import load_knowledge

    kb = load_knowledge(rules)
    if not kb.teaching.lessons:
        raise click.UsageError(_no_such(1, kb))
    return kb


def _no_such(number: int, kb: KnowledgeBase) -> str:
    from triage.phrases import lessons as says

    return says.no_such(number, len(kb.teaching.lessons))


def _write(page: str, output: Path) -> None:
    from triage.files import write_whole
    from triage.views.pdf import as_pdf

    if output.suffix not in (".html", ".pdf"):
        raise click.UsageError(f"{output.name} should end in .html or .pdf, so that it is clear what to write.")
    write_whole(output, as_pdf(page) if output.suffix == ".pdf" else page)
    tell(f"Written to {output}")
