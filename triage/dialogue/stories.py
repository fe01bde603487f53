"""A whole story as cards, and what else it tells; whether words are one at all."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial

from triage.buying.noticed import names_money, noticed
from triage.dialogue.cards import AS_HEARD, OUT, Card
from triage.dialogue.noting import beside_marks, notes_of
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening import statements as heard
from triage.listening.clauses import Clause, sentences
from triage.listening.measuring import scale_for
from triage.listening.naming import places_named
from triage.listening.story import hear
from triage.listening.understand import Meant, understand
from triage.phrases import hearing, story_screen
from triage.survey.model import Happened

ENOUGH = 0.6
"""How likely it must be that one of the candidates is meant, for them to be shown instead of places alone."""


@per_knowledge
def _heard(kb: KnowledgeBase) -> Callable[[str], heard.Story]:
    """What stories tell; the last few are kept, for a step asks several times about one."""
    return lru_cache(maxsize=4)(partial(hear, kb=kb))


@dataclass(frozen=True)
class Story:
    """A story: its cards, the passes that a test can confirm, the outcomes asked for, all else in a line each, and the
    ``notes`` that are kept of the visit word for word, as are those of parts ``without_a_mark``.
    """

    text: str
    cards: tuple[Card, ...]
    passes: tuple[heard.Passed, ...]
    events: tuple[Happened, ...]
    facts: tuple[heard.BoatFact, ...]
    questions: tuple[str, ...]
    others: tuple[str, ...]
    notes: tuple[str, ...]
    without_a_mark: tuple[str, ...]

    @property
    def kept(self) -> tuple[Card, ...]:
        """The marks that come into the survey."""
        return tuple(card for card in self.cards if card.decision != OUT)

    def plain(self, one: heard.Statement) -> str:
        """The person's own words."""
        return _as_written(self.text, one)

    def words(self, one: heard.Statement) -> str:
        """The person's own words, quoted."""
        return f"“{self.plain(one)}”"


def told(kb: KnowledgeBase, text: str, decisions: Sequence[str] = ()) -> Story:
    """What was understood of a story. The same text gives the same cards, so decisions keep their places."""
    sale = noticed(kb, text)
    of_sale = tuple(dict.fromkeys([*sale.values(), *names_money(kb, text)]))
    untouched = _cards(text, _heard(kb)(text), of_sale, decisions)
    statements = [
        _placed(kb, text, one, untouched) if isinstance(one, heard.Passed) else one for one in _heard(kb)(text)
    ]
    well = [one for one in statements if isinstance(one, heard.Passed)]
    cards = tuple(replace(card, passed=tuple(one for one in well if _is_of(kb, one, card))) for card in untouched)
    with_marks = [one for card in cards for one in card.passed]
    passes = {_key(one): one for one in well if one not in with_marks and _asked_by_itself(kb, one, cards)}
    beside_them = [one for one in statements if one not in with_marks and not _is_told_by(of_sale, text, one)]
    untried = [one for one in beside_them if not isinstance(one, heard.Passed) or _key(one) not in passes]
    facts = {one.fact: one for one in statements if isinstance(one, heard.BoatFact)}
    asked = [one.about for one in statements if isinstance(one, heard.Asked) and one.about in kb.lexicon.asking]
    signs = (hearing.sale(kb, sale, sentence) for sentence in of_sale)
    return Story(
        text=text,
        cards=cards,
        passes=tuple(passes.values()),
        events=tuple(_happened(text, one) for one in statements if isinstance(one, heard.Told)),
        facts=tuple(facts.values()),
        questions=tuple(dict.fromkeys(asked)),
        others=(*_others(kb, text, beside_them), *signs),
        notes=notes_of(text, () if cards else statements, of_sale),
        without_a_mark=beside_marks(kb, text, untried, [card.found for card in cards if card.decision != OUT]),
    )


def _cards(
    text: str, statements: Sequence[heard.Statement], of_sale: Collection[str], decisions: Sequence[str]
) -> list[Card]:
    """A card for each mark: its sizes, and what nothing was made of from its words to the next mark's."""
    found = [one for one in statements if isinstance(one, heard.Found)]
    sized = [one for one in statements if isinstance(one, heard.Measured)]
    unheard = [one for one in statements if isinstance(one, heard.Unheard) and not _is_told_by(of_sale, text, one)]
    cards = []
    for place, one in enumerate(found):
        begin = one.start if place else 0
        end = next((other.start for other in found if other.start > one.start), len(text))
        own = tuple(size for size in sized if size.of == (one.start, one.end))
        beside = tuple(_as_written(text, other) for other in unheard if begin <= other.start < end)
        decision = decisions[place] if place < len(decisions) else AS_HEARD
        cards.append(Card(one, own, decision, story_screen.letter(place), text[one.start : end], beside=beside))
    return cards


def _as_written(text: str, one: heard.Statement) -> str:
    return " ".join(text[one.start : one.end].split())


def _happened(text: str, one: heard.Told) -> Happened:
    return Happened(one.event, force=one.force, when=one.ago, said=text[one.start : one.end])


def _key(one: heard.Passed) -> tuple[str, str, str]:
    """What a pass is asked for by."""
    return one.zone, one.scale, one.side


def _is_told_by(sale: Collection[str], text: str, one: heard.Statement) -> bool:
    """Whether it is a part of a sentence on the sale that was not understood otherwise."""
    return isinstance(one, heard.Unheard) and any(text[one.start : one.end] in said for said in sale)


def sizes_heard(kb: KnowledgeBase, text: str, zone: str, sign: str) -> Iterator[Meant]:
    """The figures of a text as readings of a mark, as far as the words beside them tell of which."""
    for one in _heard(kb)(text):
        if isinstance(one, heard.Measured):
            scale = scale_for(kb, (one.measure, one.unit), zone, sign, paired=bool(one.over))
            if scale:
                yield Meant(scale, text[one.start : one.end], one.quantity, one.estimated, one.bound)


def _placed(kb: KnowledgeBase, text: str, one: heard.Passed, cards: Sequence[Card]) -> heard.Passed:
    """What is said to be well right after a mark, without a place of its own, is said of the place of that mark."""
    before = [card for card in cards if card.found.start <= one.start]
    sentence = next(told for told in sentences(text, kb) if told[-1].tokens[-1].end > one.start)
    if not before or not one.scale or _names_place(kb, sentence):
        return one
    clause = next(told for told in sentence if told.tokens[-1].end > one.start)
    if _names_place(kb, [clause], any_word=True):
        return replace(one, zone="")  # "inside is dry" is said of another side of it
    card = before[-1]
    if card.is_open or card.decision == OUT:
        return replace(one, zone="")
    side: heard.Side = "port" if card.side == "port" else "starboard" if card.side == "starboard" else ""
    return replace(one, zone=card.zone, side=one.side or side)


def _names_place(kb: KnowledgeBase, clauses: Sequence[Clause], *, any_word: bool = False) -> bool:
    """Whether the clauses name a place; ``any_word``: be it only by a common word ("inside")."""
    return bool(places_named(kb).named((token.stem for one in clauses for token in one.tokens), sized=any_word))


def _asked_by_itself(kb: KnowledgeBase, one: heard.Passed, cards: Sequence[Card]) -> bool:
    """Whether a test can pass the part so, or a mark that was told of there."""
    if not one.zone:
        return False
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
    asides = len(story.questions) + len(story.notes)  # beside a mark only what is told of the sale is a note
    return bool(story.cards) and len(story.cards) + well + more + done + asides > 1


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
