"""Whether a clause makes an observation, and nothing else: "it weeps", "the fitting lifts when I pull"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.phrase_matcher import stem
from triage.listening.saying import small_words
from triage.listening.tokens import words_of
from triage.survey.model import Finding

_NOT = "not"
_DENYING = {"doesnt": _NOT, "dont": _NOT, "didnt": _NOT, "isnt": _NOT, "arent": _NOT, "wont": _NOT, "cannot": _NOT}
_SAID_AS = {**_DENYING, "hardly": "barely"}  # its stem is that of "hard"

Said = frozenset[str]


@dataclass(frozen=True)
class Way:
    """One way of giving an answer: its level, what is recorded, the phrase, and the stems that say it.

    ``exact``: how much counts, so "a bit soft" is not "soft"; but "it lifts a bit" is "it lifts". ``built``: it is one
    of the many that a row of alternatives makes.
    """

    level: int
    answer: str
    phrase: str
    words: Said
    exact: bool
    built: bool = False


def observed(
    kb: KnowledgeBase, words: Sequence[str], finding: Finding, scales: Sequence[str], asked: str = ""
) -> tuple[str, str] | None:
    """The scale and the answer that the words are, or None. Of several scales the first counts; where the words may be
    two of its levels, neither is meant. ``asked`` is the scale in question: "solid" answers only there.
    """
    if _sought(kb, words):
        return None
    said = {exact: _content(kb, _without_an_answer(kb, words), exact=exact) for exact in (False, True)}
    own = _own(kb, finding.zone, finding.sign)
    beside = own | _done(kb)
    for scale in scales:
        found: dict[int, tuple[int, str]] = {}
        for way in ways_of(kb, scale, at_question=scale == asked):
            here = said[way.exact]
            missing, further = way.words - here, here - way.words
            if further <= beside and (not missing or (not way.exact and missing <= own)) and way.words - own:
                found[way.level] = max((len(way.words & here), way.answer), found.get(way.level, (0, "")))
        within = range(kb.best(finding.sign, scale), kb.worst(finding.sign, scale) + 1)
        if len(found) == 1 and next(iter(found)) in within:
            return scale, next(iter(found.values()))[1]
        if found:
            return None
    return None


def _sought(kb: KnowledgeBase, words: Sequence[str]) -> bool:
    """Whether the words only tell what was looked for."""
    tests = kb.lexicon.speech.scope.tests
    return any(one in tests and then == "for" for one, then in pairwise(words))


def _content(kb: KnowledgeBase, words: Sequence[str], *, exact: bool = False) -> Said:
    """The stems of the words that say something."""
    idle = kb.lexicon.ignored | small_words(kb)
    if exact:
        idle -= kb.lexicon.speech.replies.apart
    return frozenset(stem(_SAID_AS.get(word, word)) for word in words if word not in idle)


def _without_an_answer(kb: KnowledgeBase, words: Sequence[str]) -> Sequence[str]:
    """The words without "no" at the beginning where it only answers, and denies nothing: "no, it is firm"."""
    idle = kb.lexicon.ignored | small_words(kb)
    return words[1:] if len(words) > 1 and words[0] == "no" and words[1] in idle else words


def _own(kb: KnowledgeBase, zone: str, sign: str) -> Said:
    """Words that only name the mark; that something is not so is never one of them."""
    named = [kb.zones[zone].name, *([] if sign == NOTHING_SEEN else [kb.signs[sign].name])]
    words = [word for phrase in named for word in words_of(phrase, kb.lexicon.speech.variants)]
    return _content(kb, words) - {_NOT} - {stem(one) for one in kb.lexicon.denials}


@per_knowledge
def _done(kb: KnowledgeBase) -> Said:
    scope = kb.lexicon.speech.scope
    tried = frozenset(
        stem(word) for word in scope.tests if word not in ("lifted", "moved", "open", "opened", "dropped")
    )
    return tried | frozenset(stem(word) for word in scope.people)


@per_knowledge
def ways_of(kb: KnowledgeBase, scale: str, *, at_question: bool) -> tuple[Way, ...]:
    """Every way of making an observation of a scale; ``at_question``: and of answering when it is asked about."""
    ways = [*_observations(kb, scale), *(_answers(kb, scale) if at_question else ())]
    return tuple(way for way in ways if way.words)


def _observations(kb: KnowledgeBase, scale: str) -> Iterator[Way]:
    levels = kb.scales[scale].levels
    for number, level in enumerate(levels):
        yield _way(kb, number, level.name, level.name, exact=True)
        for one in level.observations:
            answer = one.say if len(level.observations) > 1 else level.name
            for phrase in (one.say, *one.heard):
                yield _way(kb, number, answer, phrase)
    seen = {phrase for level in levels[1:] for one in level.observations for phrase in one.heard}
    worse = {_content(kb, words_of(one, {})) for one in seen}
    best = _telling_the_best(kb, scale)
    for phrase in kb.lexicon.speech.passes.get(scale, ()):
        way = _pass(kb, levels[0].name, phrase)
        only_names = (
            len(way.words) == 1 and not way.words <= best
        )  # "screws hold" as an answer is no more than "screws"
        if way.words not in worse and not only_names:  # "any knock" passes only where it is denied
            yield way


def _telling_the_best(kb: KnowledgeBase, scale: str) -> Said:
    """Stems that tell by themselves that a reading is at its best: praise, and words of that level and of no other."""
    said = [
        _content(kb, [word for one in (level.name, level.in_full) for word in words_of(one, {})])
        for level in kb.scales[scale].levels
    ]
    praise = _content(kb, [word for one in kb.lexicon.speech.scope.praise for word in words_of(one, {})])
    return (said[0] | praise).difference(*said[1:])


def _answers(kb: KnowledgeBase, scale: str) -> Iterator[Way]:
    """How people give each answer when they are asked for it."""
    said = kb.lexicon.speech.observations.get(scale, {})
    for number in range(len(kb.scales[scale].levels)):
        for answer, _ in kb.scales[scale].choices(number):
            yield from (_way(kb, number, answer, phrase, exact=True) for phrase in said.get(answer, ()))


def _way(kb: KnowledgeBase, level: int, answer: str, phrase: str, *, exact: bool = False) -> Way:
    words = _without_an_answer(kb, words_of(phrase, kb.lexicon.speech.variants))
    return Way(level, answer, phrase, _content(kb, words, exact=exact), exact)


def _pass(kb: KnowledgeBase, answer: str, phrase: str) -> Way:
    """A clean result: "no" at its beginning denies what follows, and is never only an answer: "no dents at all"."""
    words = words_of(phrase, kb.lexicon.speech.variants)
    return Way(0, answer, phrase, _content(kb, words), exact=False, built=True)
