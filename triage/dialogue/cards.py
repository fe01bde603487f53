"""What was understood of a story as cards: a mark each, with what was decided about it so far."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial

from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening import statements as heard
from triage.listening.clauses import sentences
from triage.listening.measuring import scale_for
from triage.listening.naming import places_named
from triage.listening.replies import Given, reply
from triage.listening.story import hear
from triage.listening.understand import understand
from triage.phrases import hearing
from triage.phrases.words import at_side, uncapital
from triage.survey.model import Finding, Happened
from triage.survey.readings import reading_of

AS_HEARD, OUT = "-", "out"
"""Decisions about a card: as it was heard, or taken out. Any other names place, mark and, once known, the side."""


ENOUGH = 0.6
"""How likely it must be that one of the candidates is meant, for them to be shown instead of places alone."""


@per_knowledge
def _heard(kb: KnowledgeBase) -> Callable[[str], heard.Story]:
    """What stories tell; the last few are kept, for a step asks several times about one."""
    return lru_cache(maxsize=4)(partial(hear, kb=kb))


@per_knowledge
def _answers(kb: KnowledgeBase) -> Callable[[str, str, str], tuple[Given, ...]]:
    """What words answer of a mark at a place; kept likewise."""

    def given(words: str, zone: str, sign: str) -> tuple[Given, ...]:
        return reply(kb, words, Finding("", zone, sign)).given

    return lru_cache(maxsize=64)(given)


@dataclass(frozen=True)
class Card:
    """A mark as it was heard, its sizes, what was decided, and what is said to be well of it.

    ``stretch``: the text up to the next mark; ``beside``: words there of which nothing was made.
    """

    found: heard.Found
    sizes: tuple[heard.Measured, ...]
    decision: str
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
        return " ".join(self.stretch[: self.found.end - self.found.start].split())

    @property
    def note(self) -> str:
        """What is kept in words."""
        return "; ".join([self.plain, *self.beside])

    @property
    def words(self) -> str:
        """Those for the mark, quoted."""
        return f"“{self.plain}”"

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """The places and marks that may be meant, each pair once."""
        return tuple(dict.fromkeys((one.zone, one.sign) for one in self.found.choices))

    @property
    def is_open(self) -> bool:
        """Whether it is still to be asked which mark is meant."""
        return self.decision == AS_HEARD and not self.found.clear

    def wants_side(self, kb: KnowledgeBase) -> bool:
        """Whether it is still to be asked on which side it is."""
        return self.decision != OUT and kb.zones[self.zone].sided and not self.side

    def name(self, kb: KnowledgeBase) -> str:
        """Place and mark, as far as they are clear."""
        if self.is_open:
            return self.words
        side = hearing.SIDES.get(self.side) if kb.zones[self.zone].sided else None
        return f"{at_side(kb.zones[self.zone].name, side)}: {uncapital(kb.signs[self.sign].name)}"

    def line(self, kb: KnowledgeBase) -> str:
        """The card as one line."""
        if self.decision == OUT:
            return hearing.taken_out(self.words)
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


@dataclass(frozen=True)
class Story:
    """A story: its cards, the passes that a test can confirm, the outcomes asked for, and all else in a line each."""

    text: str
    cards: tuple[Card, ...]
    passes: tuple[heard.Passed, ...]
    events: tuple[Happened, ...]
    facts: tuple[heard.BoatFact, ...]
    questions: tuple[str, ...]
    others: tuple[str, ...]

    @property
    def kept(self) -> tuple[Card, ...]:
        """The marks that come into the survey."""
        return tuple(card for card in self.cards if card.decision != OUT)

    def plain(self, one: heard.Statement) -> str:
        """The person's own words."""
        return " ".join(self.text[one.start : one.end].split())

    def words(self, one: heard.Statement) -> str:
        """The person's own words, quoted."""
        return f"“{self.plain(one)}”"


def told(kb: KnowledgeBase, text: str, decisions: Sequence[str] = ()) -> Story:
    """What was understood of a story. The same text gives the same cards, so decisions keep their places."""
    statements = _heard(kb)(text)
    found = [one for one in statements if isinstance(one, heard.Found)]
    sized = [one for one in statements if isinstance(one, heard.Measured)]
    cards = []
    for place, one in enumerate(found):
        end = next((other.start for other in found if other.start > one.start), len(text))
        own = tuple(size for size in sized if size.of == (one.start, one.end))
        decision = decisions[place] if place < len(decisions) else AS_HEARD
        begin = one.start if place else 0
        notes = [other for other in statements if isinstance(other, heard.Unheard) and begin <= other.start < end]
        beside = tuple(" ".join(text[other.start : other.end].split()) for other in notes)
        cards.append(Card(one, own, decision, text[one.start : end], beside=beside))
    statements = tuple(_placed(kb, text, one, cards) if isinstance(one, heard.Passed) else one for one in statements)
    passes = {
        (one.zone, one.scale, one.side): one
        for one in statements
        if isinstance(one, heard.Passed) and one.zone and _asked_by_itself(kb, one, cards)
    }
    for place, card in enumerate(cards):
        own_passes = tuple(one for one in statements if isinstance(one, heard.Passed) and _is_of(kb, one, card))
        cards[place] = replace(card, passed=own_passes)
        passes = {key: one for key, one in passes.items() if one not in own_passes}
    events = tuple(
        Happened(one.event, force=one.force, when=one.ago, said=text[one.start : one.end])
        for one in statements
        if isinstance(one, heard.Told)
    )
    facts = {one.fact: one for one in statements if isinstance(one, heard.BoatFact)}
    questions = tuple(
        dict.fromkeys(
            one.about for one in statements if isinstance(one, heard.Asked) and one.about in kb.lexicon.asking
        )
    )
    with_marks = [one for card in cards for one in card.passed]
    others = _others(kb, text, [one for one in statements if one not in with_marks])
    return Story(text, tuple(cards), tuple(passes.values()), events, tuple(facts.values()), questions, others)


def _placed(kb: KnowledgeBase, text: str, one: heard.Passed, cards: Sequence[Card]) -> heard.Passed:
    """What is said to be well right after a mark, without a place of its own, is said of the place of that mark."""
    before = [card for card in cards if card.found.start <= one.start]
    told = ([token for clause in sentence for token in clause.tokens] for sentence in sentences(text, kb))
    tokens = next(tokens for tokens in told if tokens[-1].end > one.start)
    if not before or not one.scale or places_named(kb).named(token.stem for token in tokens):
        return one
    card = before[-1]
    if card.is_open or card.decision == OUT:
        return replace(one, zone="")
    side: heard.Side = "port" if card.side == "port" else "starboard" if card.side == "starboard" else ""
    return replace(one, zone=card.zone, side=one.side or side)


def _asked_by_itself(kb: KnowledgeBase, one: heard.Passed, cards: Sequence[Card]) -> bool:
    """Whether a test can pass the part so, or a mark that was told of there."""
    there = [card.sign for card in cards if card.zone == one.zone and not card.is_open and card.decision != OUT]
    return any(one.scale in kb.applicable(one.zone, sign) and not kb.best(sign, one.scale) for sign in _looked(there))


def _looked(signs: Sequence[str]) -> Sequence[str]:
    return signs or [NOTHING_SEEN]


def _is_of(kb: KnowledgeBase, one: heard.Passed, card: Card) -> bool:
    """Whether a pass is a reading of the mark on the card. Where main loads go through, it is asked for by itself."""
    if card.is_open or card.decision == OUT or one.zone != card.zone or kb.zones[one.zone].criticality == "primary":
        return False
    judged = one.scale in kb.applicable(card.zone, card.sign) and not kb.best(card.sign, one.scale)
    return judged and one.side in ("", card.side)


def is_story(kb: KnowledgeBase, text: str) -> bool:
    """Whether the words tell of a mark and of more than that, so that one question or answer would lose the rest."""
    story = told(kb, text)
    well = len(story.passes)
    more = sum(bool(card.passed or card.observed(kb)) for card in story.cards)
    done = sum(kb.happenings.events[one.event].kind == "done" for one in story.events)
    return bool(story.cards) and len(story.cards) + well + more + done + len(story.questions) > 1


def without_a_mark(kb: KnowledgeBase, text: str) -> tuple[str, ...]:
    """What the words say, a line each, where they only deny a mark or pass a part; empty where they do not."""
    statements = _heard(kb)(text)
    denies = any(isinstance(one, heard.Denied) or (isinstance(one, heard.Passed) and one.zone) for one in statements)
    if not denies or any(isinstance(one, (heard.Found, heard.Unheard, heard.Asked, heard.Told)) for one in statements):
        return ()
    return _others(kb, text, statements)


def is_one_unclear_mark(kb: KnowledgeBase, text: str) -> bool:
    """Whether the words tell of one mark, of which it has to be asked which is meant among what is likely."""
    found = [one for one in _heard(kb)(text) if isinstance(one, heard.Found)]
    if len(found) != 1 or found[0].clear or sum(choice.sure for choice in found[0].choices) < ENOUGH:
        return False
    zone = understand(text, kb).zone
    return zone is None or understand(text, kb, zone=zone).sign is None


def _others(kb: KnowledgeBase, text: str, statements: Sequence[heard.Statement]) -> tuple[str, ...]:
    """What is told beside the marks, a line each."""
    lines = []
    for one in statements:
        words = hearing.quoted(text, one)
        match one:
            case heard.Passed():
                lines.append(hearing.said_well(kb, one, words))
            case heard.Denied():
                lines.append(f"{hearing.NOT_THERE}: {hearing.denied(kb, one, words)}")
            case heard.NotLooked():
                lines.append(f"{hearing.UNSEEN}: {hearing.unseen(kb, one, words)}")
            case heard.Told():
                lines.append(hearing.event(kb, one, words))
            case heard.BoatFact():
                lines.append(hearing.fact(kb, one, words))
            case heard.Asked():
                lines.append(hearing.question(one, words))
            case heard.Unheard():
                lines.append(f"{hearing.NOT_UNDERSTOOD}: {words}")
    return tuple(lines)
