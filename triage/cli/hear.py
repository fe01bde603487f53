"""``triage hear``: what is understood from a story, before anything is kept."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from triage.knowledge.model import KnowledgeBase
    from triage.listening.statements import Measured, Statement


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
    from triage.listening import statements as told
    from triage.phrases import hearing as phrases

    if not statements:
        say(phrases.NOTHING_HEARD)
        return
    say(phrases.NOTHING_KEPT)
    asked: list[str] = []

    def words(one: Statement) -> str:
        return phrases.quoted(text, one)

    groups: dict[str, list[str]] = {}
    for one in statements:
        match one:
            case told.Found():
                lines = groups.setdefault(phrases.FOUND, [])
                sizes = [size for size in statements if isinstance(size, told.Measured) and size.of == _span(one)]
                lines.append(phrases.mark_found(kb, one, words(one)) if one.clear else phrases.mark_asked(words(one)))
                if not one.clear:
                    lines += [f"   {phrases.choice(kb, choice.zone, choice.sign)}" for choice in one.choices]
                    lines.append(f"   {phrases.NONE_OF_THESE}; {phrases.ANOTHER_PLACE}")
                lines += _sizes(kb, sizes, words, asked)
            case told.Measured() if one.of is None:
                groups.setdefault(phrases.FOUND, []).extend(_sizes(kb, [one], words, asked))
            case told.Passed():
                groups.setdefault(phrases.WELL, []).append(phrases.passed(kb, one, words(one)))
                asked.append(phrases.ask_pass(kb, one))
            case told.Denied():
                groups.setdefault(phrases.NOT_THERE, []).append(phrases.denied(kb, one, words(one)))
            case told.NotLooked():
                groups.setdefault(phrases.UNSEEN, []).append(phrases.unseen(kb, one, words(one)))
            case told.BoatFact():
                groups.setdefault(phrases.BESIDE, []).append(phrases.fact(kb, one, words(one)))
            case told.Told():
                groups.setdefault(phrases.BESIDE, []).append(phrases.event(kb, one, words(one)))
            case told.Time():
                groups.setdefault(phrases.BESIDE, []).append(phrases.time(one, words(one)))
            case told.Asked():
                groups.setdefault(phrases.QUESTIONS, []).append(phrases.question(one, words(one)))
            case told.Unheard():
                groups.setdefault(phrases.NOT_UNDERSTOOD, []).append(phrases.unheard(kb, one, words(one)))
    for title in _ORDER:
        _group(getattr(phrases, title), groups.get(getattr(phrases, title), []))
    _group(phrases.ASKED_NEXT, list(dict.fromkeys(asked)))


_ORDER = ("FOUND", "WELL", "NOT_THERE", "UNSEEN", "BESIDE", "QUESTIONS", "NOT_UNDERSTOOD")


def _span(one: Statement) -> tuple[int, int]:
    return one.start, one.end


def _sizes(
    kb: KnowledgeBase, sizes: Sequence[Measured], words: Callable[[Statement], str], asked: list[str]
) -> list[str]:
    from triage.phrases import hearing as phrases

    asked += [phrases.ask_size(one) for one in sizes if not one.scale]
    return [f"   {phrases.size(kb, one, words(one))}" for one in sizes]


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
