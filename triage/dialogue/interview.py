"""A conversation about one mark, as a pure step: from the survey so far to the next question, or to the end.

    survey, mark = add_finding(kb, survey, "chainplate", "fastener_cracks", side="port")
    while isinstance(step := next_question(kb, survey, mark), Question):
        survey = answer(kb, survey, mark, step.ask, input(step.text))

Nothing is remembered between calls but the survey itself, so a conversation can be kept in a file, undone or taken
over by somebody else at any point.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from triage.asking.probabilities import verdict_chances
from triage.asking.suggest import WITH_ALL, Option, Resources, in_words, ranked
from triage.dialogue.question import Done, Question, View, find
from triage.errors import BadSurvey, Place, Problem
from triage.knowledge.model import BUOYANCY, VERDICT, KnowledgeBase
from triage.parsing.text import same
from triage.survey.model import Finding, Survey
from triage.survey.read import with_ids
from triage.survey.readings import COULD_NOT_TELL, NotUnderstood, none_given, reading_of
from triage.survey.validity import doubts_of

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
    known = {finding.id for finding in survey.findings}
    taken = with_ids(replace(survey, findings=(*survey.findings, Finding("", zone, sign, side, note=note))))
    new = next(finding.id for finding in taken.findings if finding.id not in known)
    for scale, words in (said or {}).items():
        taken = answer(kb, taken, new, scale, words)
    return taken, new


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
        answered = replace(mark, readings={**mark.readings, ask: reading})
        problems = [Problem(HERE, doubt.what, doubt.hint) for doubt in doubts_of(kb, survey.boat, answered)]
        if problems:
            raise BadSurvey(problems)
        return _with(survey, answered)
    values = {"yes": "yes", "no": "no"} if ask == BUOYANCY else {same(value): value for value in kb.facts[ask].values}
    if none_given(said):
        return replace(survey, boat=survey.boat.knowing(ask, None, mark.zone))
    if same(said) not in values:
        hint = f"Answer with {', '.join(values.values())}, or: {COULD_NOT_TELL}."
        raise BadSurvey([Problem(HERE, f'this cannot be "{said}"', hint)])
    return replace(survey, boat=survey.boat.knowing(ask, values[same(said)], mark.zone))


def next_question(kb: KnowledgeBase, survey: Survey, finding: str, means: Resources = WITH_ALL) -> Question | Done:
    """What to ask next about a finding; Done once it is settled, or once no question can change it."""
    view = View(kb, survey, finding)
    options = ranked(kb, view.judged, view.whatif, means)
    return view.question(options[0], len(options)) if options else view.done()


def _with(survey: Survey, finding: Finding) -> Survey:
    return replace(survey, findings=tuple(finding if one.id == finding.id else one for one in survey.findings))


def question_about(kb: KnowledgeBase, survey: Survey, finding: str, ask: str) -> Question:
    """A question out of turn: any scale by which the mark is judged there, or any boat fact."""
    view = View(kb, survey, finding)
    checks = kb.checks_for(ask, view.finding.zone) if ask in kb.scales else ()
    answers = tuple(view.whatif.levels(ask)) if ask in kb.scales else _values(kb, ask)
    option = Option(ask, next(iter(checks), None), answers, 0.0, 0.0)
    return view.question(option, len(ranked(kb, view.judged, view.whatif)))


def change_in_verdict(kb: KnowledgeBase, before: Survey, after: Survey, finding: str) -> str:
    """What the last answer did to the range of the verdict, and why, in a sentence or two."""
    old, new = View(kb, before, finding), View(kb, after, finding)
    was, now = old.judged.interval(VERDICT), new.judged.interval(VERDICT)
    if was == now:
        return "That alone does not move it."
    told = f"Now {in_words(new.interval(VERDICT))}; before, {in_words(old.interval(VERDICT))}."
    if now[0] > was[0] or now[1] > was[1]:
        return f"{told} {new.because}".strip()
    spoken = {used.presumption.id for used in old.judged.presumed}
    presumed = next((used for used in new.judged.presumed if used.presumption.id not in spoken), None)
    return f"{told} {presumed.presumption.because if presumed else ''}".strip()


def typical_outcome(kb: KnowledgeBase, survey: Survey, finding: str) -> str:
    """What most marks like this turn out to be; empty when none of the verdicts still open stands out.

    An estimate from how often things are met, told in words; it is no promise and it clears nothing.
    """
    view = View(kb, survey, finding)
    if view.interval(VERDICT).settled:
        return ""
    unanswered = (*view.whatif.unanswered, *view.whatif.attempted)
    shares = verdict_chances(kb, view.whatif.outlook, unanswered)
    level, share = max(shares.items(), key=lambda item: item[1])
    if share < MORE_OFTEN_THAN_NOT:
        return ""
    often = "Most marks like this turn out" if share >= MOST else "Marks like this turn out, more often than not,"
    return f"{often} as “{kb.level_name(VERDICT, level)}”. That is our estimate of what is usual; it clears nothing."


def outcome_sentence(kb: KnowledgeBase, scale: str, best: str, worst: str, because: str) -> str:
    """May she, in one sentence: yes or no, and why. ``best`` and ``worst`` are the ends of the range, by name."""
    levels = kb.scales[scale].levels
    names = [level.name for level in levels]
    phrase = levels[names.index(worst)].phrase
    why = f", because {because[:1].lower()}{because[1:]}" if because else "."
    if worst == names[0]:
        return f"Yes: {phrase}."
    if best != worst:
        return f"Not yet: until this is settled, {phrase}{why}"
    return f"{'No' if worst == names[-1] else 'Yes, but'}: {phrase}{why}"


def _values(kb: KnowledgeBase, fact: str) -> tuple[str, ...]:
    return ("yes", "no") if fact == BUOYANCY else tuple(kb.facts[fact].values)
