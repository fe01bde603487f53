"""``triage teach case`` and ``coverage``: cases to judge, drawn or one's own."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from triage.cli.printing import tell
from triage.cli.terminal import say

if TYPE_CHECKING:
    from triage.knowledge.model import KnowledgeBase
    from triage.teaching.cases import Case
    from triage.teaching.key import Key

RULES = click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)


@click.command(name="case")
@click.argument("case")
@click.option("--mark", metavar="ID", default="", help="Of a survey: the mark to judge. Default: the gravest.")
@click.option("--told", "with_checks", is_flag=True, help="Tell what every check finds, to be read aloud.")
@click.option("--key", "with_key", is_flag=True, help="Tell the answer too.")
@click.option(
    "--output", "-o", type=click.Path(dir_okay=False, path_type=Path), help="Write all that is true as a survey file."
)
@click.option("--shown", type=click.Path(dir_okay=False, path_type=Path), help="Write what a learner sees first.")
@click.option("--picture", type=click.Path(dir_okay=False, path_type=Path), help="Draw the mark with its scale (SVG).")
@RULES
def one_case(
    case: str,
    mark: str,
    with_checks: bool,
    with_key: bool,
    output: Path | None,
    shown: Path | None,
    picture: Path | None,
    rules: Path | None,
) -> None:
    """Show a CASE: its number (17), with how hard it is (17:hard), the marks that may be taken for each other
    (17:crazing/hairline) or a place (17:bottom); or a survey file of your own, whose readings are then hidden.

    The same name is always the same case, as long as the rules are the same.
    """
    from triage.errors import CannotWork
    from triage.files import write_whole
    from triage.knowledge.store.load import load_knowledge
    from triage.phrases.learning import case_in_words
    from triage.survey.write import write_survey
    from triage.teaching.key import key_of
    from triage.teaching.pictures import picture_of

    kb = load_knowledge(rules)
    given = find_case(kb, case, mark)
    for line in case_in_words(kb, given.shown, given.focus, given.name, given.difficulty, given.at_sight):
        say(line)
    if with_checks:
        tell()
        _tell_checks(kb, given)
    if with_key:
        tell()
        tell_key(kb, key_of(kb, given))
    for file, survey in ((output, given.truth), (shown, given.shown)):
        if file is not None:
            write_survey(survey, file)
            tell(f"Written to {file}")
    if picture is not None:
        if not (svg := picture_of(kb, given)):
            raise CannotWork("Nobody has drawn this mark, so there is no picture of it. Use a photograph.")
        write_whole(picture, svg)
        tell(f"Written to {picture}")


def find_case(kb: KnowledgeBase, name: str, mark: str = "") -> Case:
    """A case by its name, or of a survey file."""
    from triage.survey.read import read_survey
    from triage.teaching.cases import case_from
    from triage.teaching.drawn import case_named

    file = Path(name)
    if file.suffix in (".yaml", ".yml", ".json") or file.is_file():
        return case_from(kb, read_survey(file, kb), file.name, mark)
    if mark:
        raise click.UsageError("--mark belongs to a survey file; a drawn case has its mark already.")
    return case_named(kb, name)


def _tell_checks(kb: KnowledgeBase, case: Case) -> None:
    """What every check finds, mark by mark, the mark to judge first."""
    from triage.phrases.learning import told_by
    from triage.phrases.words import at_side
    from triage.teaching.cheapest import every_check

    for finding in sorted(case.truth.findings, key=lambda one: one.id != case.focus):
        say(f"{at_side(kb.zones[finding.zone].name, finding.side)}:")
        for one in every_check(kb, finding):
            say(told_by(kb, one.check, {scale: finding.readings[scale] for scale in one.scales}), 4, "  - ")


def tell_key(kb: KnowledgeBase, key: Key) -> None:
    """The answer, and the cheapest way to it."""
    from triage.phrases import findings
    from triage.phrases.learning import NOBODY_KNOWS, way_in_words

    say(f"The answer: {findings.title(key.finding)}. {findings.headline(key.finding)}.")
    say(f"Because: {key.because}")
    say(f"What made it: {', or '.join(kb.causation.causes[one].name for one in key.causes) or NOBODY_KNOWS}.")
    say(f"Afloat: {key.finding.afloat.now}. On the road: {key.finding.tow.now}. Mended by: {key.finding.hands.now}.")
    if key.elsewhere:
        say(f"Look also at: {', '.join(kb.zones[one].name for one in key.elsewhere)}.")
    say(f"The cheapest way: {way_in_words(key.way_with_places(kb))}")


@click.command()
@click.argument("lesson")
@click.option("--first", default=1, show_default=True, type=click.IntRange(0, 10**6), help="The number to begin at.")
@RULES
def cases(lesson: str, first: int, rules: Path | None) -> None:
    """Draw the cases of a LESSON (its number or id) to be judged with "triage teach run"."""
    from triage.knowledge.store.load import load_knowledge
    from triage.phrases.learning import mark_in_words
    from triage.teaching.drawn import cases_of

    kb = load_knowledge(rules)
    known = {key: one for one in kb.teaching.lessons.values() for key in (one.id, str(one.number))}
    if lesson not in known:
        raise click.UsageError(f"There is no lesson {lesson}. There is {', '.join(known)}.")
    for case in cases_of(kb, known[lesson], first):
        say(f"{case.name} ({case.difficulty}): {mark_in_words(kb, case.mark, case.at_sight)}", 4, "  - ")


@click.command()
@click.option("--cases", "names", multiple=True, metavar="CASE", help="These cases; may be given again.")
@click.option(
    "--plan", type=click.IntRange(1, 300), metavar="COUNT", help="Choose so many that cover as much as can be."
)
@click.option("--first", default=1, show_default=True, type=click.IntRange(0), help="The number to begin at.")
@click.option("--count", default=100, show_default=True, type=click.IntRange(1, 2000), help="Cases in a row.")
@click.option("--difficulty", default="", help="Only cases that are easy, middling or hard.")
@RULES
def coverage(
    names: tuple[str, ...], plan: int | None, first: int, count: int, difficulty: str, rules: Path | None
) -> None:
    """Tell what cases are about: which places, marks, pairs of marks that are taken for each other, and readings at
    which a verdict turns; and what none of them is about.
    """
    from collections import Counter

    from triage.knowledge.store.load import load_knowledge
    from triage.phrases.learning import covered
    from triage.teaching.coverage import coverage_of, plan_cases
    from triage.teaching.drawn import draw_case

    kb = load_knowledge(rules)
    if names:
        cases = [find_case(kb, name) for name in names]
    elif plan:
        cases = list(plan_cases(kb, plan, first, difficulty))
        say(f"Cases: {' '.join(case.name for case in cases)}")
    else:
        cases = [draw_case(kb, seed, difficulty) for seed in range(first, first + count)]
    for one in coverage_of(kb, cases):
        say(covered(kb, one.kind, len(one.all), one.missing), 2)
    hard = Counter(case.difficulty for case in cases if case.difficulty)
    say(f"{len(cases)} cases: " + ", ".join(f"{number} {name}" for name, number in sorted(hard.items())) + ".")
