"""What can be said at any prompt beside an answer: commands, corrections, sides, and which reading is spoken of."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.clauses import Index, holds, index
from triage.listening.manner import side_of
from triage.listening.naming import places_named
from triage.listening.tokens import tokens_of, words_of
from triage.listening.understand import understand
from triage.survey.model import Finding

OTHER_SIDE = {"port": "starboard", "starboard": "port"}

_SHORT = 9
"""Words: a correction that only names a side has no more."""


def command_in(kb: KnowledgeBase, text: str) -> str:
    """The command that the words are, beside such as say nothing; empty where they are none."""
    words = list(words_of(text, kb.lexicon.speech.variants))
    small = small_words(kb)
    for name, rows in _commands(kb).items():
        if tuple(words) in rows:
            return name
    while words and words[0] in small:
        del words[0]
    while words and words[-1] in small:
        del words[-1]
    return next((name for name, rows in _commands(kb).items() if tuple(words) in rows), "")


def corrects(kb: KnowledgeBase, text: str) -> bool:
    """Whether the words take back something that was said before."""
    return _wrong(kb).search(text) is not None or holds(_phrases(kb, "corrects"), plain_row(kb, text))


def takes_back(kb: KnowledgeBase, text: str) -> bool:
    """Whether the words correct something, or may: "no, the other side"."""
    words = plain_row(kb, text)
    begins = bool(words) and (words[0] in small_words(kb) or words[0] == "no")
    sided = bool(side_of(kb, text)) or holds(_phrases(kb, "other_side"), words)
    return corrects(kb, text) or (sided and (begins or words[:1] == ("its",)) and len(words) <= _SHORT)


def agreed(kb: KnowledgeBase, text: str) -> bool | None:
    """Whether the words say yes, or no, and nothing else; None where they say neither."""
    words = plain_row(kb, text)
    idle = kb.lexicon.ignored | small_words(kb)
    for answer, rows in ((True, _phrases(kb, "agrees")), (False, _phrases(kb, "disagrees"))):
        for said in rows.get(words[0], ()) if words else ():
            if words[: len(said)] == said and idle.issuperset(words[len(said) :]):
                return answer
    return None


def side_told(kb: KnowledgeBase, text: str, finding: Finding) -> str:
    """The side, "both" or "other" where the words say only that of the mark, or correct it; empty where they do not."""
    words = plain_row(kb, text)
    told = side_of(kb, text)
    other = not told and holds(_phrases(kb, "other_side"), words)
    if not told and not other:
        return ""
    of_sides = {word for row in _sides(kb) for word in row}
    plain = [one for one in words if one not in of_sides and one not in kb.lexicon.ignored | small_words(kb) | {"no"}]
    about = {
        word for phrase in (kb.zones[finding.zone].name, kb.signs[finding.sign].name) for word in plain_row(kb, phrase)
    }
    if all(one in about for one in plain) or corrects(kb, text):
        return told or "other"
    return ""


def scale_spoken_of(kb: KnowledgeBase, text: str, scales: Sequence[str]) -> tuple[str, ...]:
    """Those of the scales that the words call by name, or by what is measured for them ("the length")."""
    words = plain_row(kb, text)
    measures = kb.lexicon.speech.sizing.measures.values()
    by_measure = {
        scale for one in measures if holds(index(kb, one.words), words) for scale in (*one.scales, *one.beside)
    }
    called = [
        scale
        for scale in scales
        if scale in kb.scales and not set(plain_row(kb, kb.scales[scale].name)).difference(kb.lexicon.ignored, words)
    ]
    return tuple(called) or tuple(scale for scale in scales if scale in by_measure)


def without_what_was_wrong(kb: KnowledgeBase, text: str) -> tuple[str, tuple[str, ...]]:
    """The text with "not 5 cm" and "not port" blanked out, and the numbers that were there."""
    was = tuple(found["number"] for found in _wrong(kb).finditer(text) if found["number"])
    return _wrong(kb).sub(lambda found: " " * len(found[0]), text), was


def place_said(kb: KnowledgeBase, text: str) -> str:
    """The place that the words clearly mean, or name by more words than any other; empty where there is none."""
    if (zone := understand(text, kb).zone) is not None:
        return zone
    named = places_named(kb).named(token.stem for token in tokens_of(text, kb))
    most = max(named.values(), default=0)
    best = [zone for zone, count in named.items() if count == most]
    return best[0] if len(best) == 1 else ""


def without_what_is_not(kb: KnowledgeBase, text: str) -> str:
    """The text without what it says that it is not: "not the shroud anchor", up to the end of its clause."""
    return _denied(kb).sub(" ", text)


@per_knowledge
def _denied(kb: KnowledgeBase) -> re.Pattern[str]:
    said = "|".join(sorted(map(re.escape, kb.lexicon.speech.replies.instead), key=len, reverse=True))
    return re.compile(
        rf"\b(?:{said}|isn['’]t|it['’]?s not)\s[^,.;]*?(?=[,.;]|$|\bits\b|\bit['’]s\b|\bbut\b)", re.IGNORECASE
    )


@per_knowledge
def _wrong(kb: KnowledgeBase) -> re.Pattern[str]:
    said = "|".join(sorted(map(re.escape, kb.lexicon.speech.replies.instead), key=len, reverse=True))
    side = "|".join(sorted((re.escape(" ".join(row)) for row in _sides(kb)), key=len, reverse=True))
    number = r"(?P<number>\d+(?:[.,]\d+)?(?:\s?(?:mm|cm|m|in|inch|inches|ft|foot|feet|litres?|liters?|l)(?![a-z]))?)"
    return re.compile(
        rf"\b(?:{said})\s+(?:(?:on|at|to|the|a|about)\s+)*(?:{number}|(?:{side})\b)(?:\s+side\b)?", re.IGNORECASE
    )


@per_knowledge
def _sides(kb: KnowledgeBase) -> tuple[tuple[str, ...], ...]:
    """The words that name a side."""
    lexicon = kb.lexicon
    said = [*lexicon.speech.replies.other_side, "port", "starboard"]
    said += [one for ways in (lexicon.sides, lexicon.speech.sides) for some in ways.values() for one in some]
    return tuple(dict.fromkeys(words_of(one, {}) for one in said))


def plain_row(kb: KnowledgeBase, text: str) -> tuple[str, ...]:
    """The words of a text, each in one spelling."""
    return words_of(text, kb.lexicon.speech.variants)


@per_knowledge
def small_words(kb: KnowledgeBase) -> frozenset[str]:
    """Words that may stand beside any answer and say nothing."""
    return frozenset(word for phrase in kb.lexicon.speech.replies.opens for word in phrase.split())


@per_knowledge
def _phrases(kb: KnowledgeBase, name: str) -> Index:
    said: Sequence[str] = getattr(kb.lexicon.speech.replies, name)
    return index(kb, said)


@per_knowledge
def _commands(kb: KnowledgeBase) -> Mapping[str, frozenset[tuple[str, ...]]]:
    commands = kb.lexicon.speech.replies.commands
    return {name: frozenset(plain_row(kb, one) for one in said) for name, said in commands.items()}
