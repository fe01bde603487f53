"""Whether a clause makes an observation, and nothing else: "it weeps", "the fitting lifts when I pull"."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.phrase_matcher import stem
from triage.listening.saying import small_words
from triage.listening.tokens import words_of
from triage.survey.model import Finding

_NOT = "not"
_DENYING = {"doesnt": _NOT, "dont": _NOT, "didnt": _NOT, "isnt": _NOT, "arent": _NOT, "wont": _NOT, "cannot": _NOT}

Said = frozenset[str]


def observed(
    kb: KnowledgeBase, words: Sequence[str], finding: Finding, scales: Sequence[str]
) -> tuple[str, str] | None:
    """The scale and the answer that the words are, or None. Of several scales the first counts; where the words may be
    two of its levels, neither is meant.
    """
    said, own = _content(kb, words), _own(kb, finding.zone, finding.sign)
    for scale in scales:
        found: dict[int, tuple[int, str]] = {}
        for level, answer, phrase in _observations(kb).get(scale, ()):
            if phrase <= said | own and said - phrase <= own | _done(kb) and phrase - own:
                found[level] = max((len(phrase & said), answer), found.get(level, (0, "")))
        within = range(kb.best(finding.sign, scale), kb.worst(finding.sign, scale) + 1)
        if len(found) == 1 and next(iter(found)) in within:
            return scale, next(iter(found.values()))[1]
        if found:
            return None
    return None


def _content(kb: KnowledgeBase, words: Sequence[str]) -> Said:
    """The stems of the words that say something; "no" at the beginning answers and denies nothing."""
    idle = kb.lexicon.ignored | small_words(kb)
    if len(words) > 1 and words[0] == "no" and words[1] in idle:
        words = words[1:]
    return frozenset(stem(_DENYING.get(word, word)) for word in words if word not in idle)


def _own(kb: KnowledgeBase, zone: str, sign: str) -> Said:
    """Words that only name the mark."""
    named = (kb.zones[zone].name, kb.signs[sign].name)
    words = [word for phrase in named for word in words_of(phrase, kb.lexicon.speech.variants)]
    return _content(kb, words)


@per_knowledge
def _done(kb: KnowledgeBase) -> Said:
    scope = kb.lexicon.speech.scope
    tried = frozenset(
        stem(word) for word in scope.tests if word not in ("lifted", "moved", "open", "opened", "dropped")
    )
    return tried | frozenset(stem(word) for word in scope.people)


@per_knowledge
def _observations(kb: KnowledgeBase) -> Mapping[str, tuple[tuple[int, str, Said], ...]]:
    """Every way of making an observation, by scale: its level, what is recorded, and the words that say it."""
    return {
        scale.id: tuple(
            (level, answer, content)
            for level, answer, phrase in _ways(kb, scale.id)
            if (content := _content(kb, words_of(phrase, kb.lexicon.speech.variants)))
        )
        for scale in kb.scales.values()
        if scale.observed
    }


def _ways(kb: KnowledgeBase, scale: str) -> Iterator[tuple[int, str, str]]:
    for number, level in enumerate(kb.scales[scale].levels):
        yield number, level.name, level.name
        for one in level.observations:
            for phrase in (one.say, *one.heard):
                yield number, one.say, phrase
    seen = {phrase for level in kb.scales[scale].levels[1:] for one in level.observations for phrase in one.heard}
    best, worse = kb.scales[scale].levels[0], {_content(kb, words_of(one, {})) for one in seen}
    for phrase in kb.lexicon.speech.passes.get(scale, ()):
        if _content(kb, words_of(phrase, {})) not in worse:  # "any knock" passes only where it is denied
            yield 0, best.name, phrase
