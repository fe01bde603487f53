"""Which words of a clause are denied, which pass a part, and which say that something is there."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.clauses import Clause, Index, holds, index, matches, phrases, sentences

_NEXT = 3
"""Words after a denial among which the thing stands that belongs there."""

_REACH = 8
"""Words that are denied at most: what is dictated without stops denies no more."""

_NAMED = 3
"""Words before praise that may name a part and say nothing else."""

Span = tuple[int, int]


@dataclass(frozen=True)
class Scoped:
    """A clause by what its words do; spans count its words.

    ``passing``: by scale, the words that are a reading of it at its best.
    """

    clause: Clause
    denied: tuple[Span, ...]
    passing: tuple[tuple[str, Span], ...]
    praised: Span | None
    not_looked: bool

    def stands(self, place: int) -> bool:
        """Whether the word at this place is neither denied nor a pass."""
        return not any(start <= place < end for start, end in (*self.denied, *(span for _, span in self.passing)))


def scoped(kb: KnowledgeBase, clause: Clause, fits: frozenset[str] | None) -> Scoped:
    """What the words of the clause do. ``fits``: the scales that its place is judged by; None where it is unknown."""
    words = clause.words
    partly = [start + len(said) for start, said in matches(phrases(kb, "partly"), words)]
    fitting = [(scale, span) for scale, span in _passing(kb, words) if fits is None or scale in fits]
    passing = _apart([one for one in fitting if not any(0 <= one[1][0] - after <= _NAMED for after in partly)])
    taken = {place for _, (start, end) in passing for place in range(start, end)}
    denied = tuple(_denials(kb, words, taken))
    unseen = holds(phrases(kb, "not_looked"), words)
    praise = next(
        (
            span
            for span in _praise(kb, words)
            if span[0] not in taken and not _within(span, denied) and not any(after <= span[0] for after in partly)
        ),
        None,
    )
    return Scoped(clause, denied, passing, praise, unseen)


def without_denied(kb: KnowledgeBase, text: str) -> str:
    """The text with all that it denies blanked out: "she never leaks" names no leak."""
    for sentence in sentences(text, kb):
        for clause in sentence:
            for first, after in scoped(kb, clause, None).denied:
                if clause.words[first] == "nothing":
                    continue  # "nothing found here" is what a look came to
                start, end = clause.tokens[first].start, clause.tokens[after - 1].end
                text = f"{text[:start]}{' ' * (end - start)}{text[end:]}"
    return text


def _praise(kb: KnowledgeBase, words: Sequence[str]) -> Iterator[Span]:
    """Words that praise what the clause speaks of; not "a good look", nor "without getting tight", nor "ok so"."""
    idle = {word for phrase in kb.lexicon.speech.replies.opens for word in phrase.split()}
    after = kb.lexicon.speech.scope.praised_after
    doubted = {word for phrase in kb.lexicon.speech.scope.denials for word in phrase.split()}
    for at, said in matches(phrases(kb, "praise"), words):
        led = (at == 0 and said[0] not in idle) or words[max(0, at - 1)] in after or len(said) > 1
        led = led or _is_all_there_is(kb, words, at, said)
        if led and doubted.isdisjoint(words[max(0, at - _NEXT) : at]):
            yield at, at + len(said)


def _is_all_there_is(kb: KnowledgeBase, words: Sequence[str], at: int, said: Sequence[str]) -> bool:
    """Whether a few words end in praise: "mast step solid"."""
    ends = at + len(said) == len(words) <= _NAMED + len(said)
    return at > 0 and ends and words[at - 1] not in kb.lexicon.speech.scope.unpraised


def _within(span: Span, spans: Sequence[Span]) -> bool:
    return any(start <= span[0] < end for start, end in spans)


def _passing(kb: KnowledgeBase, words: Sequence[str]) -> tuple[tuple[str, Span], ...]:
    found: list[tuple[str, Span]] = []
    for scale, rows in _passes(kb).items():
        ends = 0
        for place, said in matches(rows, words):
            if place + len(said) > ends:  # "floor is stiff" is said once, and "is stiff" within it not again
                ends = place + len(said)
                found.append((scale, (place, ends)))
    return tuple(found)


def _apart(passing: Sequence[tuple[str, Span]]) -> tuple[tuple[str, Span], ...]:
    """Without what is only a part of a longer reading: "mast is straight" says of no fitting that it "is straight"."""
    spans = {span for _, span in passing}
    return tuple((scale, span) for scale, span in passing if not any(_holds(other, span) for other in spans))


def _holds(longer: Span, span: Span) -> bool:
    return longer != span and longer[0] <= span[0] and span[1] <= longer[1]


@per_knowledge
def _passes(kb: KnowledgeBase) -> Mapping[str, Index]:
    return {scale: index(kb, said) for scale, said in kb.lexicon.speech.passes.items()}


def _denials(kb: KnowledgeBase, words: Sequence[str], taken: set[int]) -> list[Span]:
    """From a denying word to the end of what it denies."""
    idle = {
        place for start, said in matches(phrases(kb, "no_denial"), words) for place in range(start, start + len(said))
    }
    ends = phrases(kb, "denial_ends")
    found: list[Span] = []
    for start, said in matches(phrases(kb, "denials"), words):
        after = start + len(said)
        if start in idle or start in taken or (found and start < found[-1][1]):
            continue
        if _is_fault(kb, said, words[after:]):
            continue
        far = min(len(words), after + _REACH)
        stop = next((place for place in range(after, far) if words[place] in ends), far)
        found.append((start, stop))
    return found


def denying(kb: KnowledgeBase, heard: Scoped) -> tuple[Span, ...]:
    """The clean results that deny something: "nothing soft"."""
    words = heard.clause.words
    spans = dict.fromkeys(span for _, span in heard.passing)
    return tuple(span for span in spans if holds(phrases(kb, "denials"), words[span[0] : span[1]]))


def _is_fault(kb: KnowledgeBase, denial: Sequence[str], after: Sequence[str]) -> bool:
    """Whether what is denied belongs there, or should be done: then the denial is the finding."""
    scope = kb.lexicon.speech.scope
    near = [word for word in after[: _NEXT + 1] if word not in scope.between]
    if denial[-1] in scope.not_doing and _begins(phrases(kb, "undone"), near):
        return True
    return any(_begins(phrases(kb, "absent"), near[at:]) for at in range(2))


def _begins(rows: Index, words: Sequence[str]) -> bool:
    return bool(words) and any(tuple(words[: len(said)]) == said for said in rows.get(words[0], ()))


def without_the_other_side(kb: KnowledgeBase, text: str) -> str:
    """The text without what it says of the other side by comparison: "the port one is solid", to the end of its
    clause.
    """
    return _other_side(kb).sub(" ", text)


@per_knowledge
def _other_side(kb: KnowledgeBase) -> re.Pattern[str]:
    sides = ("other", *(one for said in kb.lexicon.sides.values() for one in said))
    scope = kb.lexicon.speech.scope
    after = "|".join(map(re.escape, scope.contrasts)) or "(?!)"
    facing = "|".join(map(re.escape, scope.facing)) or "(?!)"
    side = rf"\b(?:the\s+)?(?:{'|'.join(map(re.escape, sides))})(?:\s+side)?"
    return re.compile(rf"{side}\s+(?:{after})\b(?!\s+(?:{facing})\b)[^,.;!?]*", re.IGNORECASE)
