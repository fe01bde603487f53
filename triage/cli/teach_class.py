"""``triage teach class`` and ``disagree``: what a class made of its cases; a trainer who thinks otherwise."""

from __future__ import annotations

from pathlib import Path

import click

from triage.cli.printing import tell
from triage.cli.teach_cases import RULES, find_case
from triage.cli.teach_run import FOLDER
from triage.cli.terminal import say


@click.command(name="class")
@click.argument("code")
@FOLDER
@click.option("--picture", type=click.Path(dir_okay=False, path_type=Path), help="Draw how sure and how right (SVG).")
@RULES
def one_class(code: str, folder: Path, picture: Path | None, rules: Path | None) -> None:
    """Tell what the class CODE made of its cases: what was missed, false alarms, agreement, calibration, and which
    cases to talk about. It needs an extra: pip install 'dinghy-triage[teaching]'.
    """
    from triage.files import write_whole
    from triage.knowledge.store.load import load_knowledge
    from triage.phrases import marking as phrases
    from triage.phrases.words import counted, listed
    from triage.teaching.classes import read_class
    from triage.teaching.marking import marked_class
    from triage.teaching.reliability import reliability_picture
    from triage.views import marked_class as views

    kb = load_knowledge(rules)
    kept = read_class(code, folder)
    if not kept.results:
        say(phrases.NO_RUNS)
        return
    marked = marked_class(kb, kept)
    say(f"Class {kept.code}: {counted(marked.runs, 'verdict')} by {listed(kept.names)}.")
    tell()
    for lines in (views.verdict_lines(marked), views.agreement_lines(marked)):
        for line in lines:
            say(line)
        tell()
    for number, line in enumerate(views.calibration_lines(marked)):
        say(line, *(() if number == 0 else (4, "  - ")))
    tell()
    for line in views.case_lines(marked):
        say(line, 4, "  - ")
    for line in views.change_lines(marked):
        say(line)
    say(phrases.AGAIN)
    if picture is not None:
        write_whole(picture, reliability_picture(marked))
        tell(f"Written to {picture}")


@click.command()
@click.argument("case")
@click.option("--verdict", required=True, metavar="LEVEL", help="What you say it is: cosmetic, monitor or structural.")
@click.option("--because", required=True, metavar="SENTENCE", help="Why, in a sentence: it stands beside the rule.")
@click.option("--by", default="", metavar="NAME", help="Who says so.")
@click.option("--mark", metavar="ID", default="", help="Of a survey: the mark that is meant. Default: the gravest.")
@click.option("--output", "-o", type=click.Path(dir_okay=False, path_type=Path), help="A file; default: here.")
@RULES
def disagree(
    case: str, verdict: str, because: str, by: str, mark: str, output: Path | None, rules: Path | None
) -> None:
    """Say that the key to a CASE is wrong, and why: it becomes a proposal for the rules.

    Where you are milder, it is a case for the rule that decided; where you are graver, a rule that is missing. The
    answers of the program stay as they are until the rules are changed.
    """
    from triage.files import write_whole
    from triage.knowledge.store.load import load_knowledge
    from triage.teaching.disagreement import disagree as disagreement
    from triage.teaching.disagreement import proposal
    from triage.teaching.key import key_of

    kb = load_knowledge(rules)
    text = proposal(kb, disagreement(kb, key_of(kb, find_case(kb, case, mark)), verdict, because, by))
    if output is None:
        tell(text, nl=False)
    else:
        write_whole(output, text)
        tell(f"Written to {output}")
