"""``triage teach class`` and ``disagree``: what a class made of its cases; a trainer who thinks otherwise."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from triage.cli.printing import tell
from triage.cli.teach_cases import RULES, find_case
from triage.cli.teach_run import FOLDER
from triage.cli.terminal import say

if TYPE_CHECKING:
    from triage.teaching.agreement import Estimate
    from triage.teaching.marking import MarkedClass


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

    kb = load_knowledge(rules)
    kept = read_class(code, folder)
    if not kept.results:
        say(phrases.NO_RUNS)
        return
    marked = marked_class(kb, kept)
    say(f"Class {code}: {counted(marked.runs, 'verdict')} by {listed(kept.names)}.")
    tell()
    _tell_verdicts(marked)
    _tell_agreement(marked)
    _tell_calibration(marked)
    for item in marked.items:
        if item.kind:
            say(f"Case {item.case}, {item.kind}: {phrases.EASY[item.kind]}.", 4, "  - ")
    if marked.change:
        change = marked.change
        low, high = change.grew.low or 0.0, change.grew.high or 0.0
        say(phrases.change(change.before.value, change.after.value, low, high, change.grew.n))
    say(phrases.AGAIN)
    if picture is not None:
        write_whole(picture, reliability_picture(marked))
        tell(f"Written to {picture}")


def _tell_verdicts(marked: MarkedClass) -> None:
    from triage.phrases import marking as phrases

    if marked.structural_found is not None:
        say(phrases.missed(marked.missed, marked.called_fine))
    _share("Structural marks found, or held open", marked.structural_found, "no case in it is structural")
    _share("False alarms, called structural", marked.false_alarms, "every case in it is structural")
    _share("Right verdicts", marked.right, "nobody has judged")
    if marked.held_open:
        say(f"Held open: {marked.held_open}.")
    _share("Points of the sheet, without the trainer's", marked.points, "no points were given")
    tell()


def _tell_agreement(marked: MarkedClass) -> None:
    _figure(
        "Agreement with the key (weighted kappa; 1 is full, 0 is chance)", marked.with_key, "all verdicts are alike"
    )
    _figure("Agreement among learners (Krippendorff's alpha)", marked.among, "no case was judged by two, or all alike")
    if marked.fleiss is not None:
        say(f"The same on the cases that all have judged (Fleiss' kappa): {marked.fleiss:.2f}.")
    tell()


def _tell_calibration(marked: MarkedClass) -> None:
    from triage.phrases import marking as phrases

    if marked.brier is not None and marked.right is not None:
        said = sum(one.confidence * one.right.n for one in marked.bins) / marked.right.n
        say(phrases.calibration(marked.brier.value, said, marked.right.value))
    for one in marked.bins:
        say(phrases.bin_line(one.low, one.high, one.confidence, one.right.value, one.right.n), 4, "  - ")
    tell()


def _share(what: str, one: Estimate | None, otherwise: str) -> None:
    from triage.phrases import marking as phrases

    say(phrases.share(what, one.value, one.low, one.high, one.n) if one else phrases.nothing(what, otherwise))


def _figure(what: str, one: Estimate | None, otherwise: str) -> None:
    from triage.phrases import marking as phrases

    say(phrases.figure(what, one.value, one.low, one.high, one.n) if one else phrases.nothing(what, otherwise))


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
