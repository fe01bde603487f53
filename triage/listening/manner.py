"""On which side something was found, and by which sense."""

from __future__ import annotations

from collections.abc import Sequence

from triage.knowledge.model import KnowledgeBase
from triage.listening.clauses import index, matches
from triage.listening.statements import Sense, Side


def side_of(kb: KnowledgeBase, text: str) -> Side:
    """The side or sides that the words name."""
    words = text.casefold().replace("-", " ").split()
    plain = [word.strip(".,;:!?()'\"") for word in words]
    rows = {
        side: index(kb, (*kb.lexicon.sides.get(side, ()), *kb.lexicon.speech.sides.get(side, ())))
        for side in ("both", "port", "starboard")
    }
    said = [side for side, row in rows.items() if next(matches(row, plain), None) is not None]
    if "both" in said or len(said) > 1:
        return "both" if "both" in said else ""
    return "port" if said == ["port"] else "starboard" if said == ["starboard"] else ""


def on_the_same_side(kb: KnowledgeBase, text: str) -> bool:
    """Whether the words name the side that was told before."""
    words = text.casefold().split()
    plain = [word.strip(".,;:!?()'\"") for word in words]
    return next(matches(index(kb, kb.lexicon.speech.sides.get("same", ())), plain), None) is not None


def sense_of(kb: KnowledgeBase, words: Sequence[str]) -> Sense:
    """How it was found."""
    senses: tuple[Sense, ...] = ("told", "measured", "heard", "felt")
    for sense in senses:
        if next(matches(index(kb, kb.lexicon.speech.senses.get(sense, ())), words), None) is not None:
            return sense
    return "seen"
