"""``triage assess``: surveys in, reports out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from triage.cli.codes import BAD_INPUT, SAYS_OTHERWISE, SETTLED_AND_FIT
from triage.cli.printing import tell, tell_json, tell_markup

if TYPE_CHECKING:
    from triage.conclusions.assessment import Assessment
    from triage.survey.model import Survey

SUFFIX = {"text": ".txt", "html": ".html", "pdf": ".pdf", "json": ".json"}

FIRST_WORDS = 2000
"""Bytes in which a survey has named its boat."""

_SURVEY = re.compile(rb'^\s*(boat:|"?boat"?\s*:\s*\{|\{\s*"?boat"?\s*:\s*\{)', re.MULTILINE)

MANY_MARKS = 30
"""Marks on one boat from which on assessing her takes seconds, so that somebody who waits is told."""


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE…", type=click.Path(path_type=Path))
@click.option("--format", "-f", "form", type=click.Choice(list(SUFFIX)), help="Default: text, or what OUTPUT ends in.")
@click.option("--full", is_flag=True, help="Text with every reason, and what would change it.")
@click.option(
    "--output",
    "-o",
    type=click.Path(path_type=Path),
    help="A file (.txt, .html, .pdf, .json), or a folder for several surveys; default: here.",
)
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)
@click.option("--colour/--no-colour", default=None, help="Default: colours on a terminal, unless NO_COLOR is set.")
def assess(
    files: tuple[Path, ...], form: str | None, full: bool, output: Path | None, rules: Path | None, colour: bool | None
) -> None:
    """Assess each survey FILE (YAML or JSON) and report what was found, what it means and why.

    \b
    Exit codes:
      0    everything settled, and nothing speaks against sailing or towing
      1    something is open, or says otherwise
      2    a survey, the rules or the command cannot be used; the message says what to mend
      3    it could not work: a full disk, a closed output, a file that may not be read or written, or our own mistake
      130  stopped with Ctrl-C, or there was nobody to answer
    """
    from triage import BadInput, assess_survey, load_knowledge, read_survey

    if form is None:
        form = next((name for name, suffix in SUFFIX.items() if output and output.suffix == suffix), "text")
    if full and form != "text":
        raise click.UsageError(f"{form} holds every reason already: leave --full away.")
    if form == "pdf" and output is None:
        raise click.UsageError("A PDF is written to a file: name one with -o.")
    targets = [_target(file, output, form, several=len(files) > 1) for file in files]
    refuse_overwriting(files, targets)
    kb = load_knowledge(rules)
    worst = SETTLED_AND_FIT
    for number, (file, target) in enumerate(zip(files, targets, strict=True), start=1):
        try:
            survey = read_survey(file, kb)
            _show_progress(number, len(files), file, survey)
            assessment = assess_survey(survey, kb)
        except BadInput as error:
            tell(f"{error}\n", err=True)
            worst = BAD_INPUT
            continue
        report = _report(assessment, file.parent, "full" if full else form, colour=_colours(colour, target))
        _hand_out(report, form, target, assessment)
        finished = _is_finished(survey, file)
        worst = max(worst, SETTLED_AND_FIT if assessment.settled_and_fit and finished else SAYS_OTHERWISE)
    raise SystemExit(worst)


def _report(assessment: Assessment, folder: Path, form: str, *, colour: bool) -> str | bytes:
    """The report; ``folder`` is where the photos are that the survey names."""
    from triage import render
    from triage.views.pdf import as_pdf
    from triage.views.photos import photos_of

    if form in ("html", "pdf"):
        photos = photos_of((photo for finding in assessment.findings for photo in finding.photos), folder)
        page = render(assessment, "html", photos=photos)
        return as_pdf(page) if form == "pdf" else page
    return render(assessment, form, colour=colour)  # type: ignore[arg-type]  # click has checked it


def _hand_out(report: str | bytes, form: str, target: Path | None, assessment: Assessment) -> None:
    """The report on the screen, or in its file and its headline on the screen."""
    from triage.files import write_whole
    from triage.phrases.boat import headline

    if target is not None:
        write_whole(target, report)
        tell(f"{assessment.boat}: {headline(assessment)}. Written to {target}")
    elif isinstance(report, str):
        _show(report, form)


def _is_finished(survey: Survey, file: Path) -> bool:
    """Whether all that was described is in the survey; what is not is told."""
    from triage.dialogue.keeping import unfinished

    words = unfinished(survey)
    if words:
        tell(f"Described, but not in the survey yet: “{words}”.", err=True)
        tell(f"Carry on with: triage ask --file {file}\n", err=True)
    return not words


def _show(text: str, form: str) -> None:
    if form == "json":
        tell_json(f"{text}\n")
    elif form == "html":
        tell_markup(f"{text}\n")
    else:
        tell(text, coloured=True)


def _target(file: Path, output: Path | None, form: str, *, several: bool) -> Path | None:
    if output is None:
        return None
    return output / (file.stem + SUFFIX[form]) if several or output.is_dir() else output


def refuse_overwriting(files: Sequence[Path], targets: Sequence[Path | None]) -> None:
    """Raises BadInput when a report would take the place of a survey, or of another report."""
    from triage.errors import BadInput, Place, Problem
    from triage.files import identity

    problems = []
    surveys = {identity(file): file for file in files}
    taken: dict[object, Path] = {}
    for file, target in zip(files, targets, strict=True):
        if target is None:
            continue
        place = identity(target)
        if place in surveys or _holds_survey(target):
            what = f"its report would overwrite the survey {surveys.get(place, target)}"
            problems.append(Problem(Place(str(file)), what, "Name another output."))
        elif place in taken:
            what = f"its report would overwrite the one of {taken[place]}, both at {target}"
            problems.append(
                Problem(Place(str(file)), what, "Give one of them another name, or assess them one by one.")
            )
        taken.setdefault(place, file)
    if problems:
        raise BadInput(problems)


def _holds_survey(target: Path) -> bool:
    """Whether a file has the first words of a survey, which a report has not: there the boat is a name."""
    from triage.errors import CannotWork
    from triage.files import read_bounded

    if not target.is_file():
        return False
    try:
        return _SURVEY.search(read_bounded(target, FIRST_WORDS)) is not None
    except CannotWork:
        return False  # writing will tell what is the matter with it


def _show_progress(number: int, of: int, file: Path, survey: Survey) -> None:
    """A line for somebody who waits; nothing when nobody sees it, or when there is nothing to wait for."""
    import sys

    marks = len(survey.findings)
    if (of > 1 or marks >= MANY_MARKS) and sys.stderr is not None and sys.stderr.isatty():
        tell(f"{number} of {of}: {file}, {marks} {'mark' if marks == 1 else 'marks'} …", err=True)


def _colours(wanted: bool | None, target: Path | None) -> bool:
    import os
    import sys

    if wanted is not None:
        return wanted
    return target is None and sys.stdout is not None and sys.stdout.isatty() and "NO_COLOR" not in os.environ
