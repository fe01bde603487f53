"""Places, signs, scales and causes by whatever they are called, and what to say when nothing is called so."""

from __future__ import annotations

from collections.abc import Iterable

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.parsing.text import nearest, same

IN_OTHER_WORDS = "Say it in another word, or take it out and put it in the note."


class Names:
    """Things of one kind by their id, plain name and trade names."""

    def __init__(self, what: str, entries: Iterable[tuple[str, Iterable[str]]]) -> None:
        """``what`` they are, in a word; each entry is an id and its other names."""
        self.what = what
        self.ids: dict[str, str] = {}
        self.spelt: dict[str, str] = {}
        for id_, names in entries:
            for name in (id_, *names):
                self.ids.setdefault(same(name), id_)
                self.spelt.setdefault(same(name), name.strip())

    def find(self, text: str) -> str | None:
        """The id of what is called so."""
        return self.ids.get(same(text))

    def hint(self, text: str) -> str:
        """The nearest known names, one for each thing that is called so."""
        first: dict[str, str] = {}
        for name in nearest(same(text), self.ids, at_most=5):
            first.setdefault(self.ids[name], self.spelt[name])
        told = list(first.values())[:3]
        return "Did you mean " + " or ".join(f'"{name}"' for name in told) + "?" if told else ""

    def unknown(self, text: str, otherwise: str = "") -> tuple[str, str]:
        """What is wrong with a word that names nothing, and what to do; ``otherwise`` when no name is near."""
        return f'no {self.what} is called "{text}"', self.hint(text) or otherwise or IN_OTHER_WORDS


@per_knowledge
def zone_names(kb: KnowledgeBase) -> Names:
    """The places."""
    return Names("zone", ((zone.id, (zone.name, *zone.trade.split(","))) for zone in kb.zones.values()))


@per_knowledge
def sign_names(kb: KnowledgeBase) -> Names:
    """The signs."""
    return Names("sign", ((sign.id, (sign.name,)) for sign in kb.signs.values()))


@per_knowledge
def scale_names(kb: KnowledgeBase) -> Names:
    """The scales that somebody can answer."""
    return Names("reading", ((scale.id, (scale.name,)) for scale in kb.scales.values() if scale.observed))


@per_knowledge
def event_names(kb: KnowledgeBase) -> Names:
    """What may have happened to her."""
    return Names("event", ((event.id, (event.name, *event.said)) for event in kb.happenings.events.values()))


@per_knowledge
def cause_names(kb: KnowledgeBase) -> Names:
    """The causes that an owner can be asked about."""
    return Names("cause", ((cause.id, (cause.name,)) for cause in kb.causation.causes.values()))
