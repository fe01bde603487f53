"""Which part of the boat a clean result is of: "I pressed it and it does not move", "port tank and bow tank held air".

It is of the part that stands before it in its clause; a denial is of the one that it leads to ("no play in the
tiller"); and where neither names any, of what was spoken of before, the nearest first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from triage.knowledge.model import KnowledgeBase
from triage.listening.naming import places_named
from triage.listening.scope import Scoped, Span
from triage.listening.statements import Found
from triage.listening.tokens import Token
from triage.listening.whereabouts import fitting, likeliest, ranked

_LIST = 3
"""Words that say something in a clause that but names one part of several: "port tank and bow tank held air"."""

Places = tuple[str, ...]


@dataclass(frozen=True)
class Spoken:
    """What is spoken of. ``here``: places that the sentence named so far, the last first; ``listed``: those of clauses
    that only name a part and go on in this one; ``mark``: the mark before, unless another part was spoken of since;
    ``before``: how much the sentences before speak for each place; ``around``: how much this one does.
    """

    here: Places
    listed: Places
    mark: Found | None
    before: Mapping[str, float]
    around: Mapping[str, float]

    def then(self, kb: KnowledgeBase, tokens: Sequence[Token]) -> Spoken:
        """What is spoken of after these words."""
        named = ranked(kb, tokens, self.around)
        only = len([one for one in tokens if one.word not in kb.lexicon.ignored]) <= _LIST
        stems = [token.stem for token in tokens if token.word not in kb.lexicon.ignored]
        lists = bool(named) and only and places_named(kb).all_told(stems)
        listed = (*self.listed, named[0]) if lists else ()
        return Spoken((*named[:1], *self.here), listed, None if named else self.mark, self.before, self.around)


def may_be_read(kb: KnowledgeBase, tokens: Sequence[Token], spoken: Spoken) -> frozenset[str] | None:
    """The scales that a clean result in a clause may be a reading of; None where no place is known."""
    here = (*ranked(kb, tokens, spoken.around), *_context(kb, spoken, ""), *spoken.listed)
    return frozenset().union(*(fitting(kb, one) for one in here)) if here else None


def places_passed(kb: KnowledgeBase, heard: Scoped, spoken: Spoken, span: Span, scale: str = "") -> Places:
    """The parts that the words of the span say are well; of those that may be meant the first that can be read so."""
    for one in _groups(kb, heard, spoken, span, scale):
        fits = [zone for zone in one if not scale or scale in fitting(kb, zone)]
        if fits:
            also = [zone for zone in spoken.listed if not scale or scale in fitting(kb, zone)]
            return tuple(dict.fromkeys((*also, fits[0]))) if one is not spoken.here else tuple(fits[:1])
    return ()


def _groups(kb: KnowledgeBase, heard: Scoped, spoken: Spoken, span: Span, scale: str) -> Iterator[Places]:
    tokens, words = heard.clause.tokens, heard.clause.words
    scope = kb.lexicon.speech.scope
    begin = max((end for _, (_, end) in heard.passing if end <= span[0]), default=0)
    ahead = ranked(kb, tokens[begin : span[1]], spoken.around) or ranked(kb, tokens[: span[0]], spoken.around)
    after = span[1] + (words[span[1] : span[1] + 1] != () and words[span[1]] in scope.everywhere)
    leads = words[after : after + 1] != () and words[after] in scope.leads_to
    behind = ranked(kb, tokens[after:], spoken.around) if leads else ()
    if ahead:
        yield ahead
        if leads:
            yield behind
        return
    context = _context(kb, spoken, scale)
    if behind and scope.points_back.isdisjoint(words[: span[0]]):
        yield behind
        return
    yield from (context, behind)
    yield ranked(kb, tokens[span[1] :], spoken.around)
    yield likeliest(spoken.around)


def _context(kb: KnowledgeBase, spoken: Spoken, scale: str) -> Places:
    """Places spoken of before the clause, the nearest first."""
    mark = spoken.mark
    own = (mark.zone,) if mark and (not scale or scale in kb.applicable(mark.zone, mark.sign)) else ()
    return (*spoken.here, *own, *likeliest(spoken.before), *([] if spoken.before else likeliest(spoken.around)))


def passed_in(kb: KnowledgeBase, heard: Scoped, spoken: Spoken) -> Iterator[tuple[str, Span, Places]]:
    """The clean results of a clause, each with its parts; of the same words a part has one reading, the first that it
    is judged by: "is straight" of a mast.
    """
    kept: list[tuple[Span, Places]] = []
    for scale, span in heard.passing:
        places = places_passed(kb, heard, spoken, span, scale)
        taken = [zones for other, zones in kept if other[0] < span[1] and span[0] < other[1]]
        rest = tuple(zone for zone in places if all(zone not in zones for zones in taken))
        if rest or not (places or taken or ranked(kb, heard.clause.tokens, spoken.around)):
            kept.append((span, rest))
            yield scale, span, rest
