"""``triage teach run`` and ``class``: a learner judges a case at the keyboard; what a class made of its cases."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from triage.cli.printing import tell
from triage.cli.teach_cases import RULES, find_case
from triage.cli.terminal import choose, listen, number_of, say, show_choices

if TYPE_CHECKING:
    from triage.knowledge.model import KnowledgeBase
    from triage.teaching.cases import Case
    from triage.teaching.classes import Class
    from triage.teaching.run import State
    from triage.teaching.sheet import Marked

FOLDER = click.option(
    "--folder",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path(),
    help="Where classes are kept. Default: here.",
)


@dataclass(frozen=True)
class CaseWanted:
    """Which case is asked for: by its name, by a number with what it is to be, or a survey of one's own."""

    case: str | None
    seed: int | None
    difficulty: str | None
    pair: str | None
    file: Path | None

    def name(self) -> str:
        """The name by which it is found. Raises UsageError for no case, or for two."""
        if sum(one is not None for one in (self.case, self.seed, self.file)) != 1:
            raise click.UsageError("Give one of CASE, --seed and --from.")
        if self.seed is None:
            if self.difficulty or self.pair:
                raise click.UsageError("--difficulty and --pair go with --seed; otherwise they are a part of the name.")
            return self.case or str(self.file)
        return ":".join(part for part in (str(self.seed), self.difficulty, self.pair) if part)


def which_case(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the options that name a case, as one `CaseWanted`."""

    @click.argument("case", required=False)
    @click.option("--seed", type=click.IntRange(0, 10**6), help="The number of the case.")
    @click.option("--difficulty", type=click.Choice(["easy", "middling", "hard"]), help="How hard it is to be.")
    @click.option("--pair", metavar="MARK/MARK", help="Marks that may be taken for each other.")
    @click.option("--from", "file", type=click.Path(path_type=Path), help="A survey of your own, with its photographs.")
    @wraps(command)
    def wanting(
        case: str | None, seed: int | None, difficulty: str | None, pair: str | None, file: Path | None, **others: Any
    ) -> None:
        command(CaseWanted(case, seed, difficulty, pair, file), **others)

    return wanting


@click.command()
@which_case
@click.option("--name", metavar="NICK", help="A nickname; nothing else of you is kept.")
@click.option("--class", "code", metavar="CODE", help="Add the result to this class.")
@click.option("--when", type=click.Choice(["before", "after"]), help="Before or after the lesson, to compare.")
@FOLDER
@RULES
def run(
    wanted: CaseWanted, name: str | None, code: str | None, when: str | None, folder: Path, rules: Path | None
) -> None:
    """Judge a CASE: look, choose checks, say what you think, and then see how the program reasons.

    Numbers answer; "enough" ends the checks, "back" takes the last answer back, and "quit" leaves. CASE is a name as
    "triage teach case" shows it.
    """
    from triage.knowledge.store.load import load_knowledge
    from triage.teaching.classes import class_file, keep, nickname, read_class, result_of

    if (code is None) != (name is None):
        raise click.UsageError("--name and --class go together.")
    if code is not None and name is not None:
        class_file(code, folder)
        nickname(name)
    kb = load_knowledge(rules)
    given = find_case(kb, wanted.name())
    if code is not None and name is not None:
        name = _name_for(given, when or "", name, read_class(code, folder))
    marked = _judged(kb, given)
    if marked is not None and code is not None and name is not None:
        kept = keep(result_of(kb, marked, name, when or ""), code, folder)  # type: ignore[arg-type]  # click has checked
        say(f"Kept for the class {code}, which has {len(kept.results)} now.")


def _judged(kb: KnowledgeBase, given: Case) -> Marked | None:
    """The case shown, judged and marked; None when the learner leaves."""
    from triage.cli.teach_told import tell_marked
    from triage.phrases.learning import case_in_words
    from triage.teaching.run import begin
    from triage.teaching.sheet import mark_run

    for line in case_in_words(kb, given.shown, given.focus, given.name, given.difficulty, given.at_sight):
        say(line)
    state = _play(kb, begin(kb, given))
    if state is None:
        say("Left before the end: nothing is kept.")
        return None
    marked = mark_run(kb, state)
    tell_marked(kb, marked)
    return marked


def _name_for(case: Case, when: str, name: str, done: Class) -> str:
    """The nickname by which this learner goes in the class. A learner begins this command anew for each case, so only
    one who judges a case for the second time may be somebody else of the same name: they are asked.
    """
    from triage.phrases.teaching import call_me, go_on_as, has_judged
    from triage.teaching.classes import free_name, known_as

    known = known_as(name, done.names)
    if not any((one.name, one.case, one.when) == (known, case.name, when) for one in done.results):
        return known or name
    free = free_name(name, done.names)
    return (known, free)[choose(has_judged(known), [go_on_as(known), call_me(free)])]


def _play(kb: KnowledgeBase, state: State) -> State | None:
    """The run to its end; None when the learner leaves."""
    from triage.teaching.questions import CHECK
    from triage.teaching.run import PERCENT, back, step

    while (question := state.asks) is not None:
        tell()
        say(question.says)
        show_choices([one.says for one in question.choices])
        said = listen("Percent" if not question.choices else "Answer")
        if said.casefold() in ("quit", "q"):
            return None
        if said.casefold() in ("back", "b"):
            state = back(kb, state)
            continue
        number = number_of(said, question.choices)
        if question.about == CHECK and said.casefold() == "enough":
            number = len(question.choices) - 1
        if not question.choices:
            bare = said.removesuffix("%").strip()
            number = int(bare) if bare.isascii() and bare.isdecimal() and int(bare) in PERCENT else None
        if number is None:
            most = f"from 1 to {len(question.choices)}" if question.choices else "from 0 to 100"
            say(f"Please give a number {most}, “back” or “quit”.")
            continue
        state, told = step(kb, state, number)
        for line in told if question.about == CHECK else ():
            say(line)
    return state
