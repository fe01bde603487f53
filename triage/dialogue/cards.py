"""What was understood of a story as cards: a mark each, with what was decided about it so far."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from triage.buying.noticed import noticed
from triage.dialogue.noting import notes_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.listening import statements as heard
from triage.listening.clauses import sentences
from triage.listening.measuring import scale_for
from triage.listening.observing import observed
from triage.listening.story import hear
from triage.listening.understand import understand
from triage.phrases import hearing
from triage.phrases.words import at_side, capital, uncapital
from triage.survey.model import Finding, Happened

AS_HEARD, OUT = "-", "out"
"""Decisions about a card: as it was heard, or taken out. Any other names place, mark and, once known, the side."""


ENOUGH = 0.6
"""How likely it must be that one of the candidates is meant, for them to be shown instead of places alone."""


@dataclass(frozen=True)
class Card:
    """A mark as it was heard, its sizes, what was decided, and what is said to be well of it. ``after``: the words of
    each clause up to the next mark.
    """

    found: heard.Found
    sizes: tuple[heard.Measured, ...]
    decision: str
    plain: str
    passed: tuple[heard.Passed, ...] = ()
    after: tuple[tuple[str, ...], ...] = ()

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
    def words(self) -> str:
        """The person's own words, quoted."""
        return f"“{self.plain}”"

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
        sizes = "; ".join(hearing.size(kb, one, "") for one in self.bound(kb))
        said = hearing.mark_asked(self.words) if self.is_open else f"{self.name(kb)}. {self.words}"
        well = " ".join(hearing.well_there(kb, one) for one in self.passed)
        before = " ".join(f"{capital(answer)}." for _, answer in self.stood_before(kb))
        return " ".join(part for part in (said, sizes, well, before) if part)

    def bound(self, kb: KnowledgeBase) -> Iterator[heard.Measured]:
        """The sizes, each bound to what it is a reading of under the mark that was decided on."""
        for one in self.sizes:
            scale = scale_for(kb, (one.measure, one.unit), self.zone, self.sign, paired=bool(one.over))
            yield replace(one, scale=scale)

    def readings(self, kb: KnowledgeBase) -> Iterator[tuple[str, str]]:
        """The sizes that are readings of the mark: scale and quantity."""
        yield from ((one.scale, one.answer) for one in self.bound(kb) if one.scale)
        yield from ((one.scale, kb.scales[one.scale].levels[0].name) for one in self.passed)
        yield from self.stood_before(kb)

    def stood_before(self, kb: KnowledgeBase) -> Iterator[tuple[str, str]]:
        """What was told of how long it has been there, as scale and answer."""
        if self.decision != OUT:
            scales = [one for one in kb.happenings.stood_before if one in kb.applicable(self.zone, self.sign)]
            finding = Finding("", self.zone, self.sign)
            heard_ = (observed(kb, words, finding, scales) for words in self.after)
            yield from list(dict(one for one in heard_ if one is not None).items())[:1]


@dataclass(frozen=True)
class Story:
    """A story: its cards, the passes that a test can confirm, the outcomes asked for, all else in a line each, and the
    ``notes`` that are kept of it word for word.
    """

    text: str
    cards: tuple[Card, ...]
    passes: tuple[heard.Passed, ...]
    events: tuple[Happened, ...]
    facts: tuple[heard.BoatFact, ...]
    questions: tuple[str, ...]
    others: tuple[str, ...]
    notes: tuple[str, ...]

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
    statements = hear(text, kb)
    found = [one for one in statements if isinstance(one, heard.Found)]
    sized = [one for one in statements if isinstance(one, heard.Measured)]
    clauses = [clause for sentence in sentences(text, kb) for clause in sentence]
    cards = []
    for place, one in enumerate(found):
        end = next((other.start for other in found if other.start > one.start), len(text))
        after = tuple(clause.words for clause in clauses if one.start <= clause.tokens[0].start < end)
        own = tuple(size for size in sized if size.of == (one.start, one.end))
        decision = decisions[place] if place < len(decisions) else AS_HEARD
        cards.append(Card(one, own, decision, " ".join(text[one.start : one.end].split()), after=after))
    passes = {
        (one.zone, one.scale, one.side): one
        for one in statements
        if isinstance(one, heard.Passed) and one.zone and one.scale in kb.applicable(one.zone, NOTHING_SEEN)
    }
    for place, card in enumerate(cards):
        own_passes = tuple(one for one in passes.values() if _is_of(kb, one, card))
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
    sale = noticed(kb, text)
    beside = [one for one in statements if one not in with_marks and not _is_told_by(sale, text, one)]
    signs = (hearing.sale(kb, sale, sentence) for sentence in dict.fromkeys(sale.values()))
    return Story(
        text=text,
        cards=tuple(cards),
        passes=tuple(passes.values()),
        events=events,
        facts=tuple(facts.values()),
        questions=questions,
        others=(*_others(kb, text, beside), *signs),
        notes=notes_of(text, statements, sale),
    )


def _is_told_by(sale: Mapping[str, str], text: str, one: heard.Statement) -> bool:
    """Whether it is a part of a sentence on the sale that was not understood otherwise."""
    return isinstance(one, heard.Unheard) and any(text[one.start : one.end] in said for said in sale.values())


def _is_of(kb: KnowledgeBase, one: heard.Passed, card: Card) -> bool:
    """Whether a pass is a reading of the mark on the card. Where main loads go through, it is asked for by itself."""
    if card.decision == OUT or one.zone != card.zone or kb.zones[one.zone].criticality == "primary":
        return False
    return one.scale in kb.applicable(card.zone, card.sign) and one.side in ("", card.side)


def is_story(kb: KnowledgeBase, text: str) -> bool:
    """Whether the words tell of a mark and of more than that, so that one question or answer would lose the rest."""
    story = told(kb, text)
    well = len(story.passes) + sum(len(card.passed) for card in story.cards)
    before = sum(bool(list(card.stood_before(kb))) for card in story.cards)
    done = sum(kb.happenings.events[one.event].kind == "done" for one in story.events)
    return bool(story.cards) and len(story.cards) + well + before + done + len(story.questions) > 1


def without_a_mark(kb: KnowledgeBase, text: str) -> tuple[str, ...]:
    """What the words say, a line each, where they only deny a mark or pass a part; empty where they do not."""
    statements = hear(text, kb)
    denies = any(isinstance(one, heard.Denied) or (isinstance(one, heard.Passed) and one.zone) for one in statements)
    if not denies or any(isinstance(one, (heard.Found, heard.Unheard, heard.Asked, heard.Told)) for one in statements):
        return ()
    return _others(kb, text, statements)


def is_one_unclear_mark(kb: KnowledgeBase, text: str) -> bool:
    """Whether the words tell of one mark and nothing else, and it has to be asked which is meant."""
    statements = [one for one in hear(text, kb) if not isinstance(one, (heard.Measured, heard.Time))]
    if len(statements) != 1 or not isinstance(statements[0], heard.Found):
        return False
    zone = understand(text, kb).zone
    clear = zone is not None and understand(text, kb, zone=zone).sign is not None
    likely = sum(choice.sure for choice in statements[0].choices) >= ENOUGH
    return likely and not clear


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
