"""What somebody says while a question is asked: answers in a sentence, to it and to others.

Nothing is taken that is not plain: a figure by what it measures or by what is asked, an observation when nothing else
is said in its clause. What is left over is quoted back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from triage.knowledge.model import KnowledgeBase
from triage.listening.answered import Given, Reply
from triage.listening.asides import asked_in, facts_in
from triage.listening.choosing import Choice
from triage.listening.clauses import Clause, sentences
from triage.listening.events import told_in
from triage.listening.figures import Figure, figures_in
from triage.listening.measuring import measured, scales_of
from triage.listening.naming import marks_named, places_named
from triage.listening.observing import observed
from triage.listening.saying import corrects, plain_row, scale_spoken_of, side_told, small_words, without_what_was_wrong
from triage.listening.statements import BoatFact, Found, Measured
from triage.listening.tokens import Token
from triage.listening.understand import asked_for
from triage.parsing.amounts import unit_in, widened
from triage.parsing.quantities import NotAQuantity, in_unit
from triage.survey.model import Finding, Happened

_FEW = 2
"""Words that say something, from which on what was not understood is quoted back."""


@dataclass
class _Listening:
    """What has been heard so far of a reply about a mark."""

    kb: KnowledgeBase
    text: str
    finding: Finding
    asked: str
    figures: tuple[Figure, ...]
    was: tuple[str, ...]
    corrected: tuple[str, ...]
    given: list[Given] = field(default_factory=list)
    loose: list[str] = field(default_factory=list)


def reply(kb: KnowledgeBase, text: str, finding: Finding, asked: str = "") -> Reply:
    """What the words say of the mark, of the boat and of what happened; ``asked`` is the scale or fact in question."""
    meant, was = without_what_was_wrong(kb, text)
    hearing = _Listening(kb, meant, finding, asked, figures_in(meant, kb), was, _corrected(kb, text, finding))
    events: list[Happened] = []
    facts: list[BoatFact] = []
    questions: list[str] = []
    rest: list[str] = []
    side, unheard = "", False
    for sentence in sentences(meant, kb):
        if len(sentence) > 1 and _observes(hearing, [one for clause in sentence for one in clause.tokens], whole=True):
            continue
        told, known = list(told_in(kb, sentence)), list(facts_in(kb, sentence))
        events += [Happened(one.event, force=one.force, when=one.ago, said=meant[one.start : one.end]) for one in told]
        facts += known
        for clause in sentence:
            start, end = clause.tokens[0].start, clause.tokens[-1].end
            if about := asked_in(kb, clause):
                questions += [one.about for one in about]
            elif here := side_told(kb, meant[start:end], finding):
                side = here
            elif not _answers(hearing, clause) and not any(start <= one.start < end for one in (*told, *known)):
                rest += [words] if (words := _left(kb, meant[start:end])) else []
                unheard = unheard or bool(_content(kb, meant[start:end]))
    given = _one_each(hearing.given)
    if unheard:
        rest += [one.words for one in given if _passes(kb, one)]
        given = tuple(one for one in given if not _passes(kb, one))
    return Reply(given, side, tuple(events), tuple(facts), tuple(questions), tuple(hearing.loose), tuple(rest))


def question_in(kb: KnowledgeBase, text: str) -> str:
    """What the words ask for, where they ask something that is understood and say nothing else; else empty."""
    if outcome := asked_for(kb, text):
        return outcome
    idle = kb.lexicon.ignored | small_words(kb)
    clauses = [clause for sentence in sentences(text, kb) for clause in sentence]
    asked = [asked_in(kb, clause) for clause in clauses if not idle.issuperset(clause.words)]
    about = [one.about for some in asked for one in some]
    return about[0] if asked and all(asked) and all(about) else ""


def only_asks(kb: KnowledgeBase, text: str) -> bool:
    """Whether all that the words do is to ask, and neither what for is understood nor any mark is named."""
    clauses = [clause for sentence in sentences(text, kb) for clause in sentence]
    asked = [asked_in(kb, clause) for clause in clauses]
    stems = [token.stem for clause in clauses for token in clause.tokens if token.word not in kb.lexicon.ignored]
    understood = any(one.about for some in asked for one in some)
    return bool(asked) and all(asked) and not understood and not marks_named(kb).named(stems)


def _answers(hearing: _Listening, clause: Clause) -> bool:
    """Take what the clause answers; whether it says anything of this mark."""
    kb, finding, text = hearing.kb, hearing.finding, hearing.text
    start, end = clause.tokens[0].start, clause.tokens[-1].end
    if _is_elsewhere(hearing, clause.tokens):
        return False
    own = [figure for figure in hearing.figures if start <= figure.start < end]
    if own:
        here = (Choice(finding.zone, finding.sign, 1.0),)
        mark = Found(start, end, 1.0, here, "", "seen", clear=True)
        for one in measured(kb, text, own, clause.tokens, mark):
            _size(hearing, one)
        _observes_beside(hearing, clause, own)
        return True
    return _observes(hearing, clause.tokens)


def _observes(hearing: _Listening, tokens: Sequence[Token], *, whole: bool = False) -> bool:
    """Take the one observation that the words make; of a ``whole`` sentence, only of what is asked."""
    kb, finding = hearing.kb, hearing.finding
    scales = kb.applicable(finding.zone, finding.sign)
    first = [hearing.asked] if hearing.asked in scales else []
    others = [] if whole else [one for one in scales if one not in first]
    if whole and _is_elsewhere(hearing, tokens):
        return False
    heard = observed(kb, [token.word for token in tokens], finding, [*first, *others], hearing.asked)
    if heard is not None:
        hearing.given.append(Given(*heard, words=hearing.text[tokens[0].start : tokens[-1].end]))
    return heard is not None


def _observes_beside(hearing: _Listening, clause: Clause, figures: Sequence[Figure]) -> None:
    """Take what the words beside the figures observe, where that is no answer to what a figure has answered."""
    tokens = [one for one in clause.tokens if not any(own.start <= one.start < own.end for own in figures)]
    measured_here = {one.scale for one in hearing.given}
    if tokens and _observes(hearing, tokens) and hearing.given[-1].scale in measured_here:
        hearing.given.pop()


def _is_elsewhere(hearing: _Listening, tokens: Sequence[Token]) -> bool:
    """Whether the words name a place, and not that of the mark."""
    named = places_named(hearing.kb).named(token.stem for token in tokens)
    return bool(named) and hearing.finding.zone not in named


def _passes(kb: KnowledgeBase, given: Given) -> bool:
    """Whether it is an answer at its best that nobody measured: too good to be heard in half of a sentence."""
    best = kb.scales[given.scale].levels[0]
    return given.answer in (best.name, *(one.say for one in best.observations))


def _size(hearing: _Listening, one: Measured) -> None:
    scale = _scale_of(hearing, one)
    start, end = widened(hearing.text, one.start, one.end)
    words = " ".join(hearing.text[start:end].split())
    if not scale:
        hearing.loose.append(words)
        return
    answer = f"about {one.quantity}" if one.estimated else one.answer
    hearing.given.append(Given(scale, answer, words, one.estimated))


def _scale_of(hearing: _Listening, one: Measured) -> str:
    """What is asked, if the figure measures that or nobody says what; else what it measures; else what it corrects."""
    kb, finding, asked = hearing.kb, hearing.finding, hearing.asked
    told = kb.lexicon.speech.sizing.measures.get(one.measure)
    can_be = [scale for scale in kb.applicable(finding.zone, finding.sign) if _is_in(kb, scale, one.unit)]
    was = [scale for scale in can_be if any(_was_read(hearing, scale, said, one) for said in hearing.was)]
    if len(was) == 1:
        return was[0]
    vague = told is None or (one.estimated and one.measure == "patch")
    wrong = [scale for scale in can_be if scale in hearing.corrected]
    if vague and len(wrong) == 1:
        return wrong[0]
    if asked in can_be and (vague or asked in scales_of(kb, one.measure)):
        return asked
    if one.scale:
        return one.scale
    if not vague:
        return ""
    known = [scale for scale in can_be if scale in finding.readings and finding.readings[scale].measured]
    about = [scale for scale in can_be if scale in kb.about(finding.zone, finding.sign)]
    return next((some[0] for some in (known, about) if len(some) == 1), "")


def _corrected(kb: KnowledgeBase, text: str, finding: Finding) -> tuple[str, ...]:
    """What a correction may be about: the readings that it calls by name, else all that were measured."""
    if not corrects(kb, text):
        return ()
    named = scale_spoken_of(kb, text, kb.applicable(finding.zone, finding.sign))
    return named or tuple(scale for scale, reading in finding.readings.items() if reading.measured)


def _was_read(hearing: _Listening, scale: str, said: str, beside: Measured) -> bool:
    """Whether that is what was read of the scale before; a number without a unit is in that of the one beside it."""
    measure, reading = hearing.kb.scales[scale].measure, hearing.finding.readings.get(scale)
    if measure is None or reading is None or reading.measured is None:
        return False
    for unit in dict.fromkeys(["", unit_in(reading.said), unit_in(hearing.text[beside.start : beside.end])]):
        try:
            value = in_unit(f"{said} {unit}".strip(), measure.unit)
        except NotAQuantity:
            continue
        if 0.99 * reading.measured[0] <= value <= 1.01 * reading.measured[1]:
            return True
    return False


def _is_in(kb: KnowledgeBase, scale: str, unit: str) -> bool:
    measure = kb.scales[scale].measure
    try:
        return measure is not None and in_unit(f"1 {unit}", measure.unit) is not None
    except NotAQuantity:
        return False


def _one_each(given: Sequence[Given]) -> tuple[Given, ...]:
    """One answer for each scale; where there are two, nobody knows which is meant."""
    counts = [one.scale for one in given]
    return tuple(one for one in given if counts.count(one.scale) == 1)


def _left(kb: KnowledgeBase, text: str) -> str:
    """What is left over of a clause, if it says anything."""
    return " ".join(text.split()) if len(_content(kb, text)) >= _FEW and not corrects(kb, text) else ""


def _content(kb: KnowledgeBase, text: str) -> list[str]:
    """The words that say something."""
    return [word for word in plain_row(kb, text) if word not in kb.lexicon.ignored | small_words(kb)]
