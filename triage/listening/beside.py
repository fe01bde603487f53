"""What a clause says that is no mark: what is well, what is not there, what nobody looked at."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.knowledge.model import KnowledgeBase
from triage.listening.choosing import ear
from triage.listening.manner import side_of
from triage.listening.naming import likeliest_named, marks_named
from triage.listening.parts import standing
from triage.listening.passing import Spoken, passed_in, places_passed
from triage.listening.scope import Scoped, Span, denying
from triage.listening.statements import Denied, NotLooked, Passed, Side, Statement
from triage.listening.whereabouts import ranked


def beside(kb: KnowledgeBase, text: str, heard: Scoped, places: Sequence[str], spoken: Spoken) -> Iterator[Statement]:
    """``places`` are those that the clause names, or that are spoken of; ``text`` is the whole story."""
    tokens = heard.clause.tokens
    place = places[0] if places else ""
    for scale, span, zones in passed_in(kb, heard, spoken):
        for zone in zones or ("",):
            yield Passed(*_where(heard, span), 0.8 if zone else 0.4, zone, scale, _side(kb, text, heard, zone))
    denies = False
    for span in (*heard.denied, *(() if ranked(kb, tokens, spoken.around) else denying(kb, heard))):
        if span in heard.denied and any(span[0] <= start <= span[0] + 2 for _, (start, _) in heard.passing):
            continue  # "without any knock" is a pass, and said once where its part is named
        stems = [token.stem for token in tokens[span[0] : span[1]] if token.word not in kb.lexicon.ignored]
        if marks_named(kb).named(stems):
            denies = True
            yield Denied(*_where(heard, span), 0.9, *likeliest_named(kb, stems, places))
        elif "water" in heard.clause.words[span[0] : span[1]] and (wet := marks_named(kb).named(stems, sized=True)):
            scores = ear(kb).signs.scores([(stem, 1.0) for stem in stems])
            yield Denied(*_where(heard, span), 0.5, max(wet, key=lambda one: (scores.get(one, 0.0), one)), place)
    if heard.not_looked and not denies:
        yield NotLooked(tokens[0].start, tokens[-1].end, 0.8, place)
    elif heard.praised and not heard.passing and not marks_named(kb).named(standing(kb, heard).names):
        for zone in places_passed(kb, heard, spoken, heard.praised):
            yield Passed(tokens[0].start, tokens[-1].end, 0.6, zone, "", _side(kb, text, heard, zone))


def _side(kb: KnowledgeBase, text: str, heard: Scoped, zone: str) -> Side:
    tokens = heard.clause.tokens
    sided = zone and kb.zones[zone].sided
    return side_of(kb, text[tokens[0].start : tokens[-1].end]) if sided else ""


def _where(heard: Scoped, span: Span) -> tuple[int, int]:
    tokens = heard.clause.tokens
    return tokens[span[0]].start, tokens[span[1] - 1].end
