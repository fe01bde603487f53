"""What a story tells beside marks: events, facts of the boat, times and questions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.clauses import Clause, Index, Sentence, index, matches, sentences
from triage.listening.scope import scoped
from triage.listening.statements import Asked, BoatFact, Time, Told
from triage.listening.tokens import Token
from triage.survey.asked import hinted

_DENIES = 3
"""Words after a denying one among which a force is denied: "not all that hard"."""


def asked_in(kb: KnowledgeBase, clause: Clause) -> list[Asked]:
    """The question that a clause asks, if it asks one."""
    words = clause.words
    start, end = clause.tokens[0].start, clause.tokens[-1].end
    about = _about(kb, words)
    if clause.asked or _sounds_asked(kb, clause):
        return [Asked(start, end, 0.9 if about else 0.5, about)]
    if about and not kb.lexicon.speech.scope.wishes.isdisjoint(words):
        return [Asked(start, end, 0.9, about)]
    return []


def guessed(kb: KnowledgeBase, clause: Clause, asked: Iterable[Asked]) -> list[Asked]:
    """These questions of the clause; one in no known words is about what most of its words hint at.

    For a story, of which all that was understood is shown; an answer to a question is not to be taken for another one.
    """
    return [one if one.about else replace(one, about=hinted(kb, clause.words)) for one in asked]


def leads_to_a_question(kb: KnowledgeBase, clauses: Sentence) -> bool:
    """Whether the first clause is the beginning of what the next asks: "just rust or | should I worry"."""
    open_ended = len(clauses) > 1 and clauses[0].words[-1] in kb.lexicon.speech.scope.asked_or
    return open_ended and bool(asked_in(kb, clauses[1]))


def words_asked(kb: KnowledgeBase, text: str) -> str:
    """The words of a text that ask something that is understood, as they were said; empty without any."""
    return _worded(text, (one for clause in _clauses(kb, text) for one in asked_in(kb, clause)))


def words_wondered(kb: KnowledgeBase, story: str) -> str:
    """The same of a story, with what is guessed."""
    return _worded(story, (one for clause in _clauses(kb, story) for one in guessed(kb, clause, asked_in(kb, clause))))


def _clauses(kb: KnowledgeBase, text: str) -> Iterator[Clause]:
    return (clause for sentence in sentences(text, kb) for clause in sentence)


def _worded(text: str, asked: Iterable[Asked]) -> str:
    return "; ".join(text[one.start : one.end] for one in asked if one.about)


def _sounds_asked(kb: KnowledgeBase, clause: Clause) -> bool:
    """Whether the clause begins as a question does, without a mark at its end."""
    scope = kb.lexicon.speech.scope
    words = [word for word in clause.words if word not in scope.hesitations]
    if len(words) < 2:
        return False
    if words[0] in scope.asked_by:
        return words[1] in scope.asked_then and (clause.first or words[0] != "which")
    return words[0] in scope.asked_first and words[1] in scope.asked_of and words[1] != words[0]


def _about(kb: KnowledgeBase, words: Sequence[str]) -> str:
    """What is asked for: the longest phrase decides."""
    said = [(len(phrase), -at, name) for name, rows in _asking(kb).items() for at, phrase in matches(rows, words)]
    return max(said, default=(0, 0, ""))[2]


@per_knowledge
def _asking(kb: KnowledgeBase) -> dict[str, Index]:
    return {name: index(kb, said) for name, said in kb.lexicon.speech.questions.items()}


def told_in(kb: KnowledgeBase, sentence: Sentence) -> Iterator[Told]:
    """What the sentence says has happened, or was done; not what it denies or asks."""
    told = kb.happenings
    rows = _happened(kb)
    words = [token.word for clause in sentence for token in clause.tokens]
    force, ago = force_told(kb, sentence), _longest(kb, told.ago, words)
    seen: set[str] = set()
    for clause in sentence:
        if asked_in(kb, clause) or not told.denied.isdisjoint(clause.words):
            continue
        for at, event, length in _events(rows, clause.words):
            if event not in seen:
                seen.add(event)
                start, end = clause.tokens[at].start, clause.tokens[at + length - 1].end
                yield Told(start, end, 0.8, event, told.events[event].kind == "done", force, ago)


def happened_in(kb: KnowledgeBase, clause: Clause, told: Sequence[Told]) -> set[int]:
    """Which words of a clause tell what happened to her, also where it is told again: "turtled and stuck the mast"."""
    events = {one.event for one in told if not one.done}
    said = _events(_happened(kb), clause.words) if events else ()
    return {at for begin, event, length in said if event in events for at in range(begin, begin + length)}


def force_told(kb: KnowledgeBase, clauses: Iterable[Clause]) -> str:
    """How hard it was: the longest phrase decides, and what is denied tells nothing; empty where nothing tells."""
    said = [
        (len(phrase), force)
        for clause in clauses
        for force, row in _forces(kb).items()
        for at, phrase in matches(row, clause.words)
        if not any(start <= at <= start + _DENIES for start, _ in scoped(kb, clause, None).denied)
    ]
    return max(said, default=(0, ""))[1]


@per_knowledge
def _forces(kb: KnowledgeBase) -> dict[str, Index]:
    return {force: index(kb, said) for force, said in kb.happenings.force.items()}


def _events(rows: Mapping[str, Index], words: Sequence[str]) -> list[tuple[int, str, int]]:
    """Of two readings of the same words the longer one counts."""
    every = [(len(said), at, event) for event, row in rows.items() for at, said in matches(row, words)]
    taken: set[int] = set()
    kept = []
    for length, at, event in sorted(every, key=lambda one: (-one[0], one[1], one[2])):
        if taken.isdisjoint(range(at, at + length)):
            taken.update(range(at, at + length))
            kept.append((at, event, length))
    return sorted(kept)


@per_knowledge
def _happened(kb: KnowledgeBase) -> dict[str, Index]:
    also = kb.lexicon.speech.events
    return {event.id: index(kb, (*event.said, *also.get(event.id, ()))) for event in kb.happenings.events.values()}


def _longest(kb: KnowledgeBase, ways: Mapping[str, Sequence[str]], words: Sequence[str]) -> str:
    said = [(len(phrase), key) for key, some in ways.items() for _, phrase in matches(index(kb, some), words)]
    return max(said, default=(0, ""))[1]


def facts_in(kb: KnowledgeBase, sentence: Sentence) -> Iterator[BoatFact]:
    """Facts of the boat."""
    tokens = [token for clause in sentence for token in clause.tokens]
    words = [token.word for token in tokens]
    for (fact, value), rows in _facts(kb).items():
        for at, said in matches(rows, words):
            yield BoatFact(tokens[at].start, tokens[at + len(said) - 1].end, 0.8, fact, value)
            break


@per_knowledge
def _facts(kb: KnowledgeBase) -> dict[tuple[str, str], Index]:
    return {
        (fact, value): index(kb, said)
        for fact, values in kb.lexicon.speech.facts.items()
        for value, said in values.items()
    }


def times_in(kb: KnowledgeBase, sentence: Sentence) -> Iterator[Time]:
    """When something was."""
    tokens: list[Token] = [token for clause in sentence for token in clause.tokens]
    words = [token.word for token in tokens]
    for ago, said in kb.happenings.ago.items():
        for at, phrase in matches(index(kb, said), words):
            yield Time(tokens[at].start, tokens[at + len(phrase) - 1].end, 0.8, ago)
            break
