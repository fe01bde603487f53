"""``triage hear``: what is understood from a story, before anything is kept."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from collections.abc import Sequence

    from triage.knowledge.model import KnowledgeBase
    from triage.listening.statements import Found, Measured, Statement


@click.command()
@click.argument("text", nargs=-1, required=True)
@click.option("--country", type=click.Choice(["uk", "us", "au"]), help="Whose gallons and coins are meant.")
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Understand with the rules in here."
)
def hear(text: tuple[str, ...], country: str | None, rules: Path | None) -> None:
    """Tell a story of any length, and see what is understood of it. Nothing is kept.

    \b
    triage hear "We hit a rock. There is a crack 5 cm long at the back of the case. The pivot is tight. May she sail?"
    """
    from triage import load_knowledge
    from triage.listening.story import hear as understood

    kb, story = load_knowledge(rules), " ".join(text)
    _tell(kb, story, understood(story, kb, country=country or ""))


def _tell(kb: KnowledgeBase, text: str, statements: Sequence[Statement]) -> None:
    from triage.cli.terminal import say
    from triage.phrases import hearing as phrases

    if not statements:
        say(phrases.NOTHING_HEARD)
        return
    say(phrases.NOTHING_KEPT)
    groups: dict[str, list[str]] = {getattr(phrases, title): [] for title in _ORDER}
    asked: list[str] = []
    for one in statements:
        sizes = _sizes(one, statements)
        title, lines = _understood(kb, text, one, sizes)
        groups[title] += lines
        asked += _questions(kb, one, sizes)
    for title, lines in groups.items():
        _group(title, lines)
    _group(phrases.ASKED_NEXT, list(dict.fromkeys(asked)))


_ORDER = ("FOUND", "WELL", "NOT_THERE", "UNSEEN", "BESIDE", "QUESTIONS", "NOT_UNDERSTOOD")


def _sizes(one: Statement, statements: Sequence[Statement]) -> list[Measured]:
    """The sizes that are told with a statement: those of a mark, and one that is of no mark by itself."""
    from triage.listening import statements as told

    of = (one.start, one.end) if isinstance(one, told.Found) else None
    sizes = [size for size in statements if isinstance(size, told.Measured)]
    return [size for size in sizes if size.of == of and (of is not None or size is one)]


def _understood(kb: KnowledgeBase, text: str, one: Statement, sizes: Sequence[Measured]) -> tuple[str, list[str]]:
    """The title under which a statement is told, and its lines."""
    from triage.listening import statements as told
    from triage.phrases import hearing as phrases

    words = phrases.quoted(text, one)
    sized = [f"   {phrases.size(kb, size, phrases.quoted(text, size))}" for size in sizes]
    match one:
        case told.Found():
            return phrases.FOUND, [*_mark(kb, one, words), *sized]
        case told.Measured():
            return phrases.FOUND, sized
        case told.Passed():
            return phrases.WELL, [phrases.passed(kb, one, words)]
        case told.Denied():
            return phrases.NOT_THERE, [phrases.denied(kb, one, words)]
        case told.NotLooked():
            return phrases.UNSEEN, [phrases.unseen(kb, one, words)]
        case told.BoatFact():
            return phrases.BESIDE, [phrases.fact(kb, one, words)]
        case told.Told():
            return phrases.BESIDE, [phrases.event(kb, one, words)]
        case told.Time():
            return phrases.BESIDE, [phrases.time(one, words)]
        case told.Asked():
            return phrases.QUESTIONS, [phrases.question(one, words)]
        case told.Unheard():
            return phrases.NOT_UNDERSTOOD, [phrases.unheard(kb, one, words)]
    raise TypeError(f"{type(one).__name__} has no words to be told in")


def _mark(kb: KnowledgeBase, one: Found, words: str) -> list[str]:
    from triage.phrases import hearing as phrases

    if one.clear:
        return [phrases.mark_found(kb, one, words)]
    choices = [f"   {phrases.choice(kb, choice.zone, choice.sign)}" for choice in one.choices]
    return [phrases.mark_asked(words), *choices, f"   {phrases.NONE_OF_THESE}; {phrases.ANOTHER_PLACE}"]


def _questions(kb: KnowledgeBase, one: Statement, sizes: Sequence[Measured]) -> list[str]:
    from triage.listening.statements import Passed
    from triage.phrases import hearing as phrases

    if isinstance(one, Passed):
        return [phrases.ask_pass(kb, one)]
    return [phrases.ask_size(size) for size in sizes if not size.scale]


def _group(title: str, lines: Sequence[str]) -> None:
    from triage.cli.terminal import say

    if lines:
        say()
        say(f"{title}:")
        for line in lines:
            if line.startswith("   "):
                say(line.strip(), 6, "    -")
            else:
                say(line, 4, "  *")
