"""What happened to a boat, as people tell it: "we hit a rock", "the kid on the dock's boat ran into ours".

An event is told by phrases of its own, and by rows of steps, "<hits> <walls>", whose words stand in one clause in this
order with a few others between. What is denied, feared or asked has not happened.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.asides import asked_in
from triage.listening.clauses import Index, Sentence, Words, index, matches, sentences
from triage.listening.phrase_matcher import plain_words
from triage.listening.scope import scoped
from triage.listening.statements import Told
from triage.survey.model import Happened

_DENIES = 3
"""Words after a denying one among which a force is denied: "not all that hard"."""

_BETWEEN = 5
"""Words between one step and the next: "hit the end of the harbour wall"."""

Row = tuple[Index, ...]
"""An empty step is "...": what follows it stands anywhere later in the sentence."""


@dataclass(frozen=True)
class Heard:
    """The events in a sentence, and its words without them: there may be a mark in these."""

    events: tuple[Happened, ...]
    rest: str


def heard_events(text: str, kb: KnowledgeBase) -> Heard:
    """What the sentence tells of, in the order of the knowledge."""
    told = kb.happenings
    if text.rstrip().endswith("?") or not told.asked.isdisjoint(plain_words(text).split()[:1]):
        return Heard((), text)
    said = sentences(text, kb)
    found = {one.event: one for sentence in said for one in told_in(kb, sentence)}
    words = [token.word for token in chain.from_iterable(clause.tokens for clause in chain.from_iterable(said))]
    force, ago = force_told(kb, said), _longest(kb, told.ago, words)
    events = tuple(Happened(event, force=force, when=ago, said=text) for event in told.events if event in found)
    taken = frozenset().union(*(one.words for one in found.values()))
    rest = (
        " ".join(text[token.start : token.end] for token in clause.tokens if token.start not in taken)
        for clause in chain.from_iterable(said)
    )
    return Heard(events, ", ".join(part for part in rest if part) if events else text)


def told_in(kb: KnowledgeBase, sentence: Sentence) -> Iterator[Told]:
    """What the sentence says has happened, or was done; not what it denies or asks."""
    told = kb.happenings
    tokens = [token for clause in sentence for token in clause.tokens]
    words = tuple(token.word for token in tokens)
    force, ago = force_told(kb, [sentence]), _longest(kb, told.ago, words)
    open_to = tuple(_open_to(kb, sentence))
    seen: set[str] = set()
    for event, at in _events(kb, words, open_to):
        if event not in seen:
            seen.add(event)
            starts = frozenset(tokens[place].start for place in at)
            start, end = tokens[at[0]].start, tokens[at[-1]].end
            yield Told(start, end, 0.8, event, told.events[event].kind == "done", force, ago, starts)


def _open_to(kb: KnowledgeBase, sentence: Sentence) -> Iterator[int]:
    """For each word, up to which one an event may be told on: to the end of its clause, or to where that denies; not at
    all within a question, or what is denied.
    """
    begin = 0
    for clause in sentence:
        denied = [True] * len(clause.words) if asked_in(kb, clause) else _denied(kb, clause.words)
        for at, _ in enumerate(denied):
            length = next((n for n, one in enumerate(denied[at:]) if one), len(denied) - at)
            yield begin + at + length if length else 0
        begin += len(denied)


def _denied(kb: KnowledgeBase, words: Words) -> list[bool]:
    """Which words tell of nothing that has happened: after "never", "nearly", "if"; not after "not sure", nor of what
    such a denial holds for true: "not dry since she was dropped".
    """
    told = kb.happenings
    idle = {place for at, said in matches(index(kb, told.in_doubt), words) for place in range(at, at + len(said))}
    found = []
    denies = False
    for at, word in enumerate(words):
        denies = word not in told.held_true and (denies or (word in told.denied and at not in idle))
        found.append(denies)
    return found


def force_told(kb: KnowledgeBase, said: Iterable[Sentence]) -> str:
    """How hard it was: the longest phrase decides, and what is denied tells nothing; empty where nothing tells."""
    forces = [
        (len(phrase), force)
        for clause in chain.from_iterable(said)
        for force, row in _forces(kb).items()
        for at, phrase in matches(row, clause.words)
        if not any(start <= at <= start + _DENIES for start, _ in scoped(kb, clause, None).denied)
    ]
    return max(forces, default=(0, ""))[1]


@per_knowledge
def _forces(kb: KnowledgeBase) -> dict[str, Index]:
    return {force: index(kb, said) for force, said in kb.happenings.force.items()}


def _events(kb: KnowledgeBase, words: Words, open_to: Sequence[int]) -> list[tuple[str, tuple[int, ...]]]:
    """The events that the words tell, and where the words for each stand; of two readings of the same words the one
    with more of them counts.
    """
    every = [
        (event, at)
        for start, word in enumerate(words)
        for event, row in _rows(kb).get(word, ())
        for at in _standing(row, words, open_to, start)
    ]
    taken: set[int] = set()
    kept = []
    for event, at in sorted(every, key=lambda one: (-len(one[1]), one[1], one[0])):
        if taken.isdisjoint(at):
            taken.update(at)
            kept.append((event, at))
    return sorted(kept, key=lambda one: one[1])


def _standing(row: Row, words: Words, open_to: Sequence[int], start: int) -> Iterator[tuple[int, ...]]:
    """Where the words stand that tell the steps from here on, if all of them do: of each step the first and longest."""
    at: list[int] = []
    places = range(start, start + 1)
    for step in row:
        if not step:
            places = range(places.start, len(words))
            continue
        place, said = next(_phrases_at(step, words, open_to, places), (0, ()))
        if not said:
            return
        at += range(place, place + len(said))
        begin = place + len(said)
        places = range(begin, min(begin + _BETWEEN + 1, open_to[place]))
    yield tuple(at)


def _phrases_at(
    step: Index, words: Words, open_to: Sequence[int], places: Iterable[int]
) -> Iterator[tuple[int, Words]]:
    for place in places:
        for one in step.get(words[place], ()):
            if words[place : place + len(one)] == one and place + len(one) <= open_to[place]:
                yield place, one
                break


@per_knowledge
def _rows(kb: KnowledgeBase) -> dict[str, tuple[tuple[str, Row], ...]]:
    """The events with their rows of steps, by the words with which these begin."""
    also = kb.lexicon.speech.events
    rows: dict[str, list[tuple[str, Row]]] = {}
    for event in kb.happenings.events.values():
        said = (*event.said, *also.get(event.id, ()))
        for row in ((index(kb, said),), *(tuple(_step(kb, step) for step in steps) for steps in event.told)):
            for word in row[0]:
                rows.setdefault(word, []).append((event.id, row))
    return {word: tuple(some) for word, some in rows.items()}


def _step(kb: KnowledgeBase, said: Words) -> Index:
    return {} if said == ("...",) else index(kb, said)


def _longest(kb: KnowledgeBase, ways: Mapping[str, Sequence[str]], words: Sequence[str]) -> str:
    said = [(len(phrase), key) for key, some in ways.items() for _, phrase in matches(index(kb, some), words)]
    return max(said, default=(0, ""))[1]
