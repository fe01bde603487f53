"""What a story tells beside marks and events: facts of the boat, times and questions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.clauses import Clause, Index, Sentence, holds, index, matches, phrases, sentences
from triage.listening.statements import Asked, BoatFact, Time
from triage.listening.tokens import Token
from triage.survey.asked import hinted


def asked_in(kb: KnowledgeBase, clause: Clause) -> list[Asked]:
    """The question that a clause asks, if it asks one."""
    words = clause.words
    start, end = clause.tokens[0].start, clause.tokens[-1].end
    about = _about(kb, words)
    wished = about and not kb.lexicon.speech.scope.wishes.isdisjoint(words)
    if clause.asked or wished or _sounds_asked(kb, clause) or holds(phrases(kb, "asks_for"), words):
        return [Asked(start, end, 0.9 if about else 0.5, about)]
    return []


def guessed(kb: KnowledgeBase, clause: Clause, asked: Iterable[Asked]) -> list[Asked]:
    """These questions of the clause; one in no known words is about what most of its words hint at.

    For a story, of which all that was understood is shown; an answer to a question is not to be taken for another one.
    """
    words = [word for word in clause.words if word not in kb.lexicon.speech.scope.hesitations]
    return [one if one.about else replace(one, about=hinted(kb, words)) for one in asked]


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
