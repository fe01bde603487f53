"""A text of any length as statements: what was found, measured, denied, passed, told and asked, each with its words.

Nothing here is recorded. What comes out is to be shown, and kept by whoever told it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from triage.errors import BadInput, Place, Problem
from triage.knowledge.model import KnowledgeBase
from triage.listening.asides import asked_in, facts_in, guessed, leads_to_a_question, times_in
from triage.listening.beside import beside
from triage.listening.choosing import MOST_ASKED, choose
from triage.listening.clauses import Clause, Sentence, sentences
from triage.listening.events import told_in
from triage.listening.figures import Figure, figures_in
from triage.listening.findings import found_in, is_guess, most
from triage.listening.measuring import measured
from triage.listening.naming import marks_named, places_named
from triage.listening.parts import WET, Part, only_done, standing, tells_of_a_mark
from triage.listening.passing import Spoken, may_be_read
from triage.listening.pointing import points_back, tells_more
from triage.listening.sameness import Before, lets_water_in
from triage.listening.scope import scoped
from triage.listening.sides import with_sides
from triage.listening.statements import Asked, Denied, Found, Passed, Statement, Story, Unheard
from triage.listening.tokens import tokens_of
from triage.listening.whereabouts import everywhere_told, likeliest, places_told, ranked

MOST = 100_000
"""Characters. A story that long takes seconds; nobody tells one."""

_BEFORE = 1.0
"""What the sentence before says about the place counts, where a sentence names none."""

_EVER = 0.5
"""What the rest of the story says about it there: people name the part once, and not always first."""

_STILL = 0.35
"""What it says where the sentence names another: the next sentence is more often than not about the same part."""

_LIKELY = 0.6
"""How likely one of the candidates must be for words that name nothing to ask which of them is meant."""

_BEGINS = 4
"""Words at the beginning of a sentence among which what somebody did to find out stands: "when I pressed it"."""

_SAID_WELL = 2
"""Words that say something in a clause that only praises a part: "the mast is fine"."""

_FEW = 3
"""Words that say something, from which on what was not understood is quoted back."""


class TooLong(BadInput):
    """More text than anybody tells."""


@dataclass
class _Hearing:
    """What has been heard so far."""

    kb: KnowledgeBase
    text: str
    figures: Sequence[Figure]
    statements: list[Statement] = field(default_factory=list)
    found: list[Found] = field(default_factory=list)
    around: Mapping[str, float] = field(default_factory=dict)
    everywhere: Mapping[str, float] = field(default_factory=dict)
    told: set[str] = field(default_factory=set)
    """The stems of the words in which marks were told of."""
    goes_on: bool = False
    """Whether no other part was spoken of since the last mark."""


def hear(text: str, kb: KnowledgeBase, *, country: str = "") -> Story:
    """What a story tells, in the order of its words. Raises TooLong when it is longer than anybody's."""
    if len(text) > MOST:
        what = f"{len(text):,} characters are more than are read at once, which is {MOST:,}"
        raise TooLong([Problem(Place("what was told"), what, "Tell it in parts, one part of the boat after another.")])
    told = sentences(text, kb)
    hearing = _Hearing(kb, text, figures_in(text, kb, country), everywhere=everywhere_told(kb, told))
    for sentence in told:
        _sentence(hearing, sentence)
    if not any(isinstance(one, (Found, Passed, Denied, Asked)) for one in hearing.statements):
        hearing.statements = [_at_least_the_place(hearing, one) for one in hearing.statements]
    return with_sides(kb, text, sorted(hearing.statements, key=lambda one: (one.start, -one.end)))


def _at_least_the_place(hearing: _Hearing, one: Statement) -> Statement:
    """Where nothing else was understood, words that name a place ask which of the marks there is meant."""
    if not isinstance(one, Unheard):
        return one
    tokens = tokens_of(hearing.text[one.start : one.end], hearing.kb)
    stems = [(token.stem, 1.0) for token in tokens if token.word not in hearing.kb.lexicon.ignored]
    pairs = choose(hearing.kb, stems).pairs[:MOST_ASKED]
    likely = one.zone or sum(pair.sure for pair in pairs) >= _LIKELY
    return Found(one.start, one.end, pairs[0].sure, pairs, "", "seen", clear=False) if pairs and likely else one


def _sentence(hearing: _Hearing, sentence: Sentence) -> None:
    kb = hearing.kb
    count = len(hearing.statements)
    own = places_told(kb, sentence)
    around = own or most(
        {zone: _BEFORE * value for zone, value in hearing.around.items()},
        {zone: _EVER * value for zone, value in hearing.everywhere.items()},
    )
    parts: list[Part] = []
    passed: set[str] = set()
    told, times = tuple(told_in(kb, sentence)), tuple(times_in(kb, sentence))
    spoken = Spoken((), (), hearing.found[-1] if hearing.found else None, hearing.around, around)
    for number, clause in enumerate(sentence):
        named = ranked(kb, clause.tokens, around)[:1] or spoken.here[:1]
        heard = scoped(kb, clause, may_be_read(kb, clause.tokens, spoken))
        asked = guessed(kb, clause, asked_in(kb, clause))
        hearing.statements.extend(asked)
        said = beside(kb, hearing.text, heard, tuple(dict.fromkeys((*named, *likeliest(around)))), spoken)
        spoken = spoken.then(kb, clause.tokens)
        hearing.statements.extend(one for one in said if not (asked and isinstance(one, Passed)))
        if clause.words[0] in kb.lexicon.speech.scope.turns:
            passed.clear()
            if parts and not ranked(kb, clause.tokens, {}):
                parts[-1] = replace(parts[-1], turned=frozenset(scale for scale, _ in heard.passing))
        passed.update(scale for scale, _ in heard.passing if not asked)
        first, last = clause.tokens[0].start, clause.tokens[-1].end
        sizes = [figure for figure in hearing.figures if first <= figure.start < last]
        part = standing(kb, heard, told, sizes, times)
        well = heard.praised or heard.denied
        idle = heard.not_looked or (well and not part.wet and _says_no_more(kb, part))
        asks = asked or leads_to_a_question(kb, sentence[number:])
        if part.tokens and not asks and not (idle and not marks_named(kb).named(part.names)):
            part = replace(part, more=_tells_more(hearing, clause, parts))
            if not (part.more and hearing.found and all(one.more for one in parts)):
                parts.append(part)
    hearing.statements.extend((*told, *facts_in(kb, sentence), *times))
    if all(only_done(kb, part, told, times) for part in parts):
        parts = []
    near = {zone: _STILL * value for zone, value in hearing.around.items()} if own else around
    _marks(hearing, sentence, parts, near, frozenset(passed))
    if len(hearing.statements) == count:
        _note(hearing, sentence, own)
    if own:
        hearing.around = own


def _marks(
    hearing: _Hearing,
    sentence: Sentence,
    parts: Sequence[Part],
    beside: Mapping[str, float],
    passed: frozenset[str],
) -> None:
    """The marks of a sentence, and their sizes; what is but guessed at is a note."""
    kb = hearing.kb
    own = places_told(kb, sentence)
    before = Before(
        hearing.found[-1] if hearing.found else None,
        points_back(kb, sentence[0].words) if hearing.goes_on else "",
        not kb.lexicon.speech.scope.tests.isdisjoint(sentence[0].words[:_BEGINS]),
    )
    heard = found_in(kb, parts, beside, before, hearing.text, passed)
    found = [one for one in heard if not _is_guess(hearing, sentence, one)]
    place = max(own, key=lambda zone: own[zone], default="")
    hearing.statements += [Unheard(one.start, one.end, 1.0, place) for one in heard if one not in found]
    hearing.goes_on = bool(found) or (hearing.goes_on and not own)
    hearing.found += found
    hearing.told.update(token.stem for clause in sentence for token in clause.tokens if found)
    hearing.statements += found
    hearing.statements += _sizes(hearing, sentence, found)


def _is_guess(hearing: _Hearing, sentence: Sentence, mark: Found) -> bool:
    """Whether the words hardly speak for the mark; so many litres speak for one that lets water in."""
    kb = hearing.kb
    here = [token for clause in sentence for token in clause.tokens if mark.start <= token.start < mark.end]
    sized = [figure for figure in hearing.figures if mark.start <= figure.start < mark.end]
    if lets_water_in(kb, mark) and any(figure.unit in WET for figure in sized):
        return False
    return is_guess(kb, mark, [token.stem for token in here if token.word not in kb.lexicon.ignored], sized=bool(sized))


def _tells_more(hearing: _Hearing, clause: Clause, parts: Sequence[Part]) -> bool:
    """Whether a clause tells more of a mark before it, in its sentence or in one before."""
    kb = hearing.kb
    if not hearing.found and not any(tells_of_a_mark(kb, part) for part in parts):
        return False
    before = hearing.told.union(token.stem for part in parts for token in part.tokens)
    return tells_more(kb, clause.words, before, begins=not parts)


def _says_no_more(kb: KnowledgeBase, part: Part) -> bool:
    """Whether beside the name of the part there is but a word of praise: "the mast step is solid"."""
    longest = max(places_named(kb).named(part.names).values(), default=0)
    return len(part.stems) <= max(_SAID_WELL, longest + 1)


def _sizes(hearing: _Hearing, sentence: Sentence, found: Sequence[Found]) -> Iterator[Statement]:
    """The figures of a sentence, each by the words of its clause, as sizes of the mark it stands with."""
    begin, end = sentence[0].tokens[0].start, sentence[-1].tokens[-1].end
    here = [figure for figure in hearing.figures if begin <= figure.start < end]
    if not here:
        return
    tokens = [token for clause in sentence for token in clause.tokens]
    for clause in sentence:
        first, last = clause.tokens[0].start, clause.tokens[-1].end
        own = [figure for figure in here if first <= figure.start < last]
        mark = next((one for one in reversed(found) if one.start <= first < one.end), None)
        mark = mark or (found[0] if found else hearing.found[-1] if hearing.found else None)
        alone = measured(hearing.kb, hearing.text, own, clause.tokens, mark)
        yield from alone if all(one.measure for one in alone) else measured(hearing.kb, hearing.text, own, tokens, mark)


def _note(hearing: _Hearing, sentence: Sentence, places: Mapping[str, float]) -> None:
    """Words of which nothing was made are quoted back."""
    tokens = [token for clause in sentence for token in clause.tokens]
    if sum(token.word not in hearing.kb.lexicon.ignored for token in tokens) >= _FEW or places:
        zone = max(places, key=lambda one: places[one], default="")
        hearing.statements.append(Unheard(tokens[0].start, tokens[-1].end, 1.0, zone))
