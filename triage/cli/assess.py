"""``triage assess``: surveys in, reports out."""

from __future__ import annotations

from pathlib import Path

import click

SETTLED_AND_FIT, SAYS_OTHERWISE, BAD_INPUT = 0, 1, 2
SUFFIX = {"text": ".txt", "html": ".html", "json": ".json"}


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE…", type=click.Path(path_type=Path))
@click.option("--format", "-f", "form", type=click.Choice(list(SUFFIX)), help="Default: text, or what OUTPUT ends in.")
@click.option(
    "--output", "-o", type=click.Path(path_type=Path), help="A file, or a folder for several surveys; default: here."
)
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)
@click.option("--colour/--no-colour", default=None, help="Default: colours on a terminal, unless NO_COLOR is set.")
def assess(
    files: tuple[Path, ...], form: str | None, output: Path | None, rules: Path | None, colour: bool | None
) -> None:
    r"""Assess each survey FILE (YAML or JSON) and report what was found, what it means and why.

    \b
    Exit codes:
      0  everything settled, and nothing speaks against sailing or towing
      1  something is open, or says otherwise
      2  a survey or the rules cannot be used; the message says what to mend
    """
    from triage import BadInput, assess_survey, load_knowledge, read_survey, render
    from triage.phrases.boat import headline

    if form is None:
        form = next((name for name, suffix in SUFFIX.items() if output and output.suffix == suffix), "text")
    try:
        kb = load_knowledge(rules)
    except BadInput as error:
        raise _refused(error) from None
    worst = SETTLED_AND_FIT
    for file in files:
        try:
            assessment = assess_survey(read_survey(file, kb), kb)
        except BadInput as error:
            click.echo(f"{error}\n", err=True)
            worst = BAD_INPUT
            continue
        target = _target(file, output, form, several=len(files) > 1)
        text = render(assessment, form, colour=_colours(colour, target))  # type: ignore[arg-type]  # click checked it
        if target is None:
            click.echo(text, color=True)
        else:
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text, encoding="utf-8")
            click.echo(f"{assessment.boat}: {headline(assessment)}. Written to {target}")
        worst = max(worst, SETTLED_AND_FIT if assessment.settled_and_fit else SAYS_OTHERWISE)
    raise SystemExit(worst)


def _refused(error: Exception) -> SystemExit:
    click.echo(str(error), err=True)
    return SystemExit(BAD_INPUT)


def _target(file: Path, output: Path | None, form: str, *, several: bool) -> Path | None:
    if output is None:
        return None
    return output / (file.stem + SUFFIX[form]) if several or output.is_dir() else output


def _colours(wanted: bool | None, target: Path | None) -> bool:
    import os
    import sys

    if wanted is not None:
        return wanted
    return target is None and sys.stdout.isatty() and "NO_COLOR" not in os.environ
