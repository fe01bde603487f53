"""What was understood of a story as cards: a mark each, with what was decided about it so far."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening import statements as heard
from triage.listening.answered import Given
from triage.listening.measuring import scale_for
from triage.listening.naming import places_named
from triage.listening.replies import reply
from triage.listening.tokens import tokens_of
from triage.phrases import describing, hearing, story_screen
from triage.phrases.words import at_side, uncapital
from triage.survey.model import Finding
from triage.survey.readings import reading_of

AS_HEARD, OUT = "-", "out"
"""Decisions about a card: as it was heard, or taken out. Any other names place, mark and, once known, the side."""


@per_knowledge
def _answers(kb: KnowledgeBase) -> Callable[[str, str, str], tuple[Given, ...]]:
    """What words answer of a mark at a place; kept likewise."""

    def given(words: str, zone: str, sign: str) -> tuple[Given, ...]:
        return reply(kb, words, Finding("", zone, sign)).given

    return lru_cache(maxsize=64)(given)


@dataclass(frozen=True)
class Card:
    """A mark as it was heard, its sizes, what was decided, and what is said to be well of it.

    ``letter``: what it is called; ``stretch``: the text up to the next mark; ``beside``: words there of which nothing
    was made.
    """

    found: heard.Found
    sizes: tuple[heard.Measured, ...]
    decision: str
    letter: str
    stretch: str
    passed: tuple[heard.Passed, ...] = ()
    beside: tuple[str, ...] = ()

    @property
    def zone(self) -> str:
        """The place, as decided or heard."""
        return self.found.zone if self.decision in (AS_HEARD, OUT) else self.decision.split()[0]

    @property
    def sign(self) -> str:
        """The mark, as decided or heard."""
        return self.found.sign if self.decision in (AS_HEARD, OUT) else self.decision.split()[1]

    @property
    def side(self) -> str:
        """The side, as decided or heard; "unknown" once it was asked in vain."""
        parts = self.decision.split()
        return parts[2] if len(parts) > 2 else self.found.side

    @property
    def plain(self) -> str:
        """The person's own words for the mark."""
        return self.words_at(self.found.start, self.found.end)

    def words_at(self, start: int, end: int) -> str:
        """The person's own words from here to there in the story."""
        return " ".join(self.stretch[start - self.found.start : end - self.found.start].split())

    @property
    def note(self) -> str:
        """What is kept in words; a figure right after those for the mark belongs to them."""
        end, apart = self.found.end, []
        for one in sorted(self.sizes, key=lambda size: size.start):
            if one.start >= self.found.start and not self.words_at(end, one.start):
                end = max(end, one.end)
            elif one.start >= end:
                apart.append(self.words_at(one.start, one.end))
        return "; ".join([self.words_at(self.found.start, end), *apart, *self.beside])

    @property
    def words(self) -> str:
        """Those for the mark, quoted."""
        return f"“{self.plain}”"

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """The places and marks that may be meant, each pair once."""
        return tuple(dict.fromkeys((one.zone, one.sign) for one in self.found.choices))

    def names_place(self, kb: KnowledgeBase) -> bool:
        """Whether its own words name a place; those that do not mostly go on about the mark before."""
        return bool(places_named(kb).named(token.stem for token in tokens_of(self.plain, kb)))

    @property
    def is_open(self) -> bool:
        """Whether it is still to be asked which mark is meant."""
        return self.decision == AS_HEARD and not self.found.clear

    def wants_side(self, kb: KnowledgeBase) -> bool:
        """Whether it is still to be asked on which side it is."""
        return self.decision != OUT and kb.zones[self.zone].sided and not self.side

    def on(self, kb: KnowledgeBase, side: str, zone: str) -> str:
        """The decision about it once the side at this place is known."""
        wanted = self.zone == zone and self.wants_side(kb)
        return f"{self.zone} {self.sign} {side}" if wanted else self.decision

    def name(self, kb: KnowledgeBase) -> str:
        """Place and mark, as far as they are clear."""
        if self.is_open:
            return self.words
        side = hearing.SIDES.get(self.side) if kb.zones[self.zone].sided else None
        return f"{at_side(kb.zones[self.zone].name, side)}: {uncapital(kb.signs[self.sign].name)}"

    def line(self, kb: KnowledgeBase) -> str:
        """The card as one line."""
        if self.decision == OUT:
            return story_screen.taken_out(self.words)
        if self.is_open:
            return hearing.mark_asked(self.words)
        return " ".join([f"{self.name(kb)}. {self.words}", *self.says(kb)])

    def says(self, kb: KnowledgeBase) -> list[str]:
        """What was told of it, a sentence for each figure and for each answer."""
        loose = [hearing.size(kb, one, "") for one in self.bound(kb) if not one.scale]
        return [*self.taken(kb), *loose]

    def taken(self, kb: KnowledgeBase) -> list[str]:
        """The readings that would be kept with it, a sentence each."""
        sizes = {one.scale: hearing.size(kb, one, "") for one in self.bound(kb) if one.scale}
        return [sizes.get(scale) or hearing.told(kb, scale, said) for scale, said in self.readings(kb)]

    def bound(self, kb: KnowledgeBase) -> list[heard.Measured]:
        """The sizes, each bound to what it is a reading of under the mark that was decided on."""
        return [replace(one, scale=self.scale_of(kb, one)) for one in self.sizes]

    def scale_of(self, kb: KnowledgeBase, one: heard.Measured) -> str:
        """What a size is a reading of; empty where it is none, or none that such a mark can have."""
        scale = scale_for(kb, (one.measure, one.unit), self.zone, self.sign, paired=bool(one.over))
        return scale if scale and self.can_be(kb, scale, one.answer) else ""

    def can_be(self, kb: KnowledgeBase, scale: str, said: str) -> bool:
        """Whether such a mark can have this reading."""
        reading = reading_of(kb.scales[scale], said)
        assert reading.low is not None
        assert reading.high is not None
        return kb.best(self.sign, scale) <= reading.low and reading.high <= kb.worst(self.sign, scale)

    def readings(self, kb: KnowledgeBase) -> tuple[tuple[str, str], ...]:
        """What was told of the mark, as scale and answer; what is worse goes before what is said to be well."""
        well = {one.scale: kb.scales[one.scale].levels[0].name for one in self.passed}
        sizes = {one.scale: one.answer for one in self.bound(kb) if one.scale}
        return tuple({**well, **self.observed(kb), **sizes}.items())

    def observed(self, kb: KnowledgeBase) -> dict[str, str]:
        """What else the words up to the next mark answer. None of it says that something is well: an adjective alone
        passes nothing, and what does is among the passes.
        """
        if self.decision == OUT:
            return {}
        given = _answers(kb)(self.stretch, self.zone, self.sign)
        plain = [(one.scale, one.answer, reading_of(kb.scales[one.scale], one.answer)) for one in given]
        before = kb.happenings.stood_before
        return {
            scale: answer
            for scale, answer, reading in plain
            if not reading.measured and (reading.low or scale in before)
        }


def can_be_decided(kb: KnowledgeBase, decision: str) -> bool:
    """Whether a card can be decided so: as heard, out, or a mark that is met at a place, perhaps with its side."""
    match decision.split():
        case [one] if one in (AS_HEARD, OUT):
            return True
        case [zone, sign, *side] if len(side) < 2:
            return sign in kb.offers.get(zone, ()) and set(side) <= describing.SIDES.keys()
    return False
