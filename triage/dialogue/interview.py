"""A conversation about one mark, as a pure step: from the survey so far to the next question, or to the end.

    survey, mark = add_finding(kb, survey, "chainplate", "fastener_cracks", side="port")
    while isinstance(step := next_question(kb, survey, mark), Question):
        survey = answer(kb, survey, mark, step.ask, input(step.text))

Nothing is remembered between calls but the survey itself, so a conversation can be kept in a file, undone or taken
over by somebody else at any point.
"""

from __future__ import annotations

from collections.abc import Mapping

from triage.asking.effort import WITH_ALL, Resources
from triage.asking.probabilities import damaged_chance, verdict_chances
from triage.asking.suggest import Option
from triage.dialogue.edits import AddFinding, SetFact, SetReading, apply, find, with_id
from triage.dialogue.looking import view_of
from triage.dialogue.question import Done, Question
from triage.errors import BadSurvey, Place, Problem
from triage.knowledge.model import BUOYANCY, VERDICT, KnowledgeBase
from triage.parsing.text import same
from triage.phrases import conversation as phrases
from triage.phrases.words import in_words
from triage.survey.model import COULD_NOT_TELL, Finding, Survey
from triage.survey.readings import NotUnderstood, none_given, reading_of

HERE: Place = Place("your answer")

MOST, MORE_OFTEN_THAN_NOT = 0.75, 0.55
"""From which share of imagined boats on a verdict is called what most marks turn out, or more of them than not."""


def add_finding(
    kb: KnowledgeBase,
    survey: Survey,
    zone: str,
    sign: str,
    *,
    side: str | None = None,
    said: Mapping[str, str] | None = None,
    note: str = "",
) -> tuple[Survey, str]:
    """The survey with one more finding, and the finding's id. ``said`` holds readings as people give them.

    Raises BadSurvey when the sign is not met there or a reading cannot be.
    """
    if sign not in kb.offers[zone]:
        what = f"{kb.signs[sign].name} is not met at “{kb.zones[zone].name}”"
        raise BadSurvey([Problem(HERE, what, "Name another place or another mark.")])
    finding = with_id(survey, Finding("", zone, sign, side, note=note))
    taken, _ = apply(kb, survey, AddFinding(finding))
    for scale, words in (said or {}).items():
        taken = answer(kb, taken, finding.id, scale, words)
    return taken, finding.id


def answer(kb: KnowledgeBase, survey: Survey, finding: str, ask: str, said: str) -> Survey:
    """The survey with one more answer: a choice, a measurement with its unit, or "could not tell".

    Raises BadSurvey, saying what can be answered, when it is none of these.
    """
    mark = find(survey, finding)
    if ask in kb.scales:
        try:
            reading = reading_of(kb.scales[ask], said)
        except NotUnderstood as error:
            raise BadSurvey([Problem(HERE, error.what, error.hint)]) from None
        return apply(kb, survey, SetReading(finding, ask, reading))[0]
    values = {same(value): value for value in values_of(kb, ask)}
    if not none_given(said) and same(said) not in values:
        hint = f"Answer with {', '.join(values.values())}, or: {COULD_NOT_TELL}."
        raise BadSurvey([Problem(HERE, f'this cannot be "{said}"', hint)])
    value = COULD_NOT_TELL if none_given(said) else values[same(said)]
    return apply(kb, survey, SetFact(ask, value, mark.zone))[0]


def next_question(kb: KnowledgeBase, survey: Survey, finding: str, means: Resources = WITH_ALL) -> Question | Done:
    """What to ask next about a finding; Done once it is settled, or once no question can change it."""
    view = view_of(kb, survey, finding)
    options = view.options(means)
    return view.question(options[0], len(options)) if options else view.done()


def question_about(kb: KnowledgeBase, survey: Survey, finding: str, ask: str, means: Resources = WITH_ALL) -> Question:
    """A question out of turn: any scale by which the mark is judged there, or any boat fact."""
    view = view_of(kb, survey, finding)
    checks = kb.checks_for(ask, view.finding.zone) if ask in kb.scales else ()
    check = next((one for one in checks if means.suffice(one)), next(iter(checks), None))
    answers = tuple(view.whatif.levels(ask)) if ask in kb.scales else values_of(kb, ask)
    return view.question(Option(ask, check, answers, 0.0, 0.0), len(view.options(means)))


def change_in_verdict(kb: KnowledgeBase, before: Survey, after: Survey, finding: str) -> str:
    """What the last answer did to the range of the verdict, and why, in a sentence or two."""
    old, new = view_of(kb, before, finding), view_of(kb, after, finding)
    was, now = old.interval(VERDICT), new.interval(VERDICT)
    if was == now:
        return phrases.NO_MOVE
    told = phrases.change(in_words(now), in_words(was))
    if now.levels[0] > was.levels[0] or now.levels[1] > was.levels[1]:
        return f"{told} {new.because}".strip()
    spoken = {used.presumption.id for used in old.presumed}
    presumed = next((used for used in new.presumed if used.presumption.id not in spoken), None)
    return f"{told} {presumed.presumption.because if presumed else ''}".strip()


def typical_outcome(kb: KnowledgeBase, survey: Survey, finding: str) -> str:
    """What most marks like this turn out to be; empty when none of the verdicts still open stands out.

    An estimate from how often things are met, told in words; it is no promise and it clears nothing. Of what is no
    damage at all, however it turns out, it says nothing.
    """
    view = view_of(kb, survey, finding)
    if view.interval(VERDICT).settled or not damaged_chance(kb, view.whatif.finding):
        return ""
    unanswered = (*view.whatif.unanswered, *view.whatif.attempted)
    shares = verdict_chances(kb, view.whatif.outlook, unanswered)
    level, share = max(shares.items(), key=lambda item: item[1])
    if share < MORE_OFTEN_THAN_NOT:
        return ""
    return phrases.typical(kb.level_name(VERDICT, level), most=share >= MOST)


def values_of(kb: KnowledgeBase, fact: str) -> tuple[str, ...]:
    """What a fact about the boat can be."""
    return ("yes", "no") if fact == BUOYANCY else tuple(kb.facts[fact].values)
