"""What was described or told, put into the survey: marks with their readings, what happened, what a test has passed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from triage.dialogue.amending import carried_over
from triage.dialogue.cards import Card
from triage.dialogue.edits import (
    AddFinding,
    Edit,
    RemoveFinding,
    SetFact,
    SetNote,
    SetReading,
    TellEvent,
    apply_all,
    with_id,
)
from triage.dialogue.following import named
from triage.dialogue.messages import Line, Message
from triage.dialogue.noting import noted
from triage.dialogue.state import Asking
from triage.dialogue.stories import Story, sizes_heard
from triage.dialogue.suspecting import demanded
from triage.errors import BadSurvey
from triage.knowledge.model import NOTHING_SEEN, SIDES, KnowledgeBase
from triage.listening.statements import Passed
from triage.listening.understand import Meant, readings_meant
from triage.phrases import conversation as phrases
from triage.phrases import describing
from triage.survey.model import Finding, Reading, Survey
from triage.survey.readings import NotUnderstood, reading_of


@dataclass(frozen=True)
class Recorded:
    """A survey with what was told in it, what takes that back, what is said of it, and the first of the marks."""

    survey: Survey
    backs: tuple[Edit, ...]
    says: tuple[Message, ...]
    first: str


def description_recorded(kb: KnowledgeBase, survey: Survey, draft: Asking) -> Recorded:
    """The marks that were described, perhaps in place of another. Raises BadSurvey when they cannot be."""
    says, backs, marks = list[Message](), tuple[Edit, ...](), list[str]()
    wrong = next((one for one in survey.findings if one.id == draft.mark), None)
    if wrong is not None:
        survey, backs = apply_all(kb, survey, [RemoveFinding(wrong.id)])
        says = [Line(describing.told_instead(named(kb, wrong)))]
    for side in _sides(kb, draft.zone, draft.side):
        found = (draft.zone, draft.sign, side)
        mark = next((one.id for one in survey.findings if (one.zone, one.sign, one.side) == found), None)
        if mark is None:
            adding = AddFinding(with_id(survey, Finding("", *found, note=draft.text)))
            survey, back = apply_all(kb, survey, [adding])
            backs, mark = (*back, *backs), adding.finding.id
        else:
            says.append(Line(describing.ALREADY_THERE))
        if wrong is not None:
            survey, kept = carried_over(kb, survey, mark, wrong)
            backs = (*kept, *backs)
        survey, sized, told = _measured(kb, survey, mark, draft)
        backs, marks = (*sized, *backs), [*marks, mark]
        says += [line for line in told if line not in says]
    if len(marks) > 1:
        says.append(Line(describing.TWO_MARKS))
    return Recorded(survey, backs, tuple(says), marks[0])


def sizes_of(kb: KnowledgeBase, draft: Asking) -> tuple[Meant, ...]:
    """The sizes in the words, as readings of the mark; none when they were left out."""
    if not draft.sized:
        return ()
    meant = {one.scale: one for one in readings_meant(kb, draft.text, draft.zone, draft.sign)}
    for one in sizes_heard(kb, draft.text, draft.zone, draft.sign):
        if not any(one.said in other.said or other.said in one.said for other in meant.values()):
            meant.setdefault(one.scale, one)
    return tuple(meant.values())


def _measured(
    kb: KnowledgeBase, survey: Survey, mark: str, draft: Asking
) -> tuple[Survey, tuple[Edit, ...], list[Message]]:
    """The sizes as readings of the mark; one that cannot be is left out and told."""
    backs, told = tuple[Edit, ...](), list[Message]()
    for size in sizes_of(kb, draft):
        edit = SetReading(mark, size.scale, reading_of(kb.scales[size.scale], size.answer))
        try:
            survey, back = apply_all(kb, survey, [edit])
        except BadSurvey as error:
            told.append(Line(describing.size_left_out(error.problems[0].what, error.problems[0].hint)))
        else:
            backs = (*back, *backs)
    return survey, backs, told


def story_recorded(kb: KnowledgeBase, survey: Survey, story: Story) -> Recorded:
    """The marks, facts and events of a story of which everything is clear."""
    beside = [TellEvent(event) for event in story.events]
    facts = [SetFact(one.fact, one.value) for one in story.facts]
    survey, backs = apply_all(kb, survey, [*beside, *facts])
    survey, before = noted(kb, survey, (*story.without_a_mark, *story.notes))
    backs = (*before, *backs)
    says, first = list[Message](), ""
    for card in story.kept:
        for side in _sides(kb, card.zone, card.side):
            survey, more, mark = _marked(kb, survey, card, side)
            survey, read, lines = _read(kb, survey, card, mark)
            backs, says, first = (*read, *more, *backs), [*says, *lines], first or mark
    if places := demanded(kb, survey, frozenset(event.event for event in story.events)):
        says.append(Line(phrases.before_she_sails(places)))
    return Recorded(survey, backs, tuple(says), first)


def _marked(kb: KnowledgeBase, survey: Survey, card: Card, side: str | None) -> tuple[Survey, tuple[Edit, ...], str]:
    """The mark of a card; where it is there already, what was told of it more."""
    there = next(
        (one for one in survey.findings if (one.zone, one.sign, one.side) == (card.zone, card.sign, side)), None
    )
    if there is None:
        finding = with_id(survey, Finding("", card.zone, card.sign, side, note=card.note))
        return *apply_all(kb, survey, [AddFinding(finding)]), finding.id
    note = "; ".join(filter(None, [there.note, card.note]))
    return *apply_all(kb, survey, [SetNote(there.id, note)]), there.id


def _read(kb: KnowledgeBase, survey: Survey, card: Card, mark: str) -> tuple[Survey, tuple[Edit, ...], list[Message]]:
    """What was told of the mark, as readings; one that cannot be is left out and said."""
    backs, says = tuple[Edit, ...](), list[Message]()
    for scale, said in card.readings(kb):
        try:
            survey, back = apply_all(kb, survey, [SetReading(mark, scale, reading_of(kb.scales[scale], said))])
        except (BadSurvey, NotUnderstood) as error:
            says.append(Line(describing.size_left_out(str(error).splitlines()[0], "")))
        else:
            backs = (*back, *backs)
    return survey, backs, says


def pass_recorded(kb: KnowledgeBase, survey: Survey, one: Passed, words: str) -> tuple[Survey, tuple[Edit, ...]]:
    """The reading at its best on every side that it is said of: of a mark there, else of a part without one.

    Raises BadSurvey where that cannot be.
    """
    backs = tuple[Edit, ...]()
    for side in _sides(kb, one.zone, one.side):
        there = [found for found in survey.findings if (found.zone, found.side) == (one.zone, side)]
        judged = [found for found in there if one.scale in kb.applicable(found.zone, found.sign)]
        if judged:
            edit: Edit = SetReading(judged[0].id, one.scale, best(kb, one.scale))
        else:
            look = Finding("", one.zone, NOTHING_SEEN, side, {one.scale: best(kb, one.scale)}, note=words)
            edit = AddFinding(with_id(survey, look))
        survey, back = apply_all(kb, survey, [edit])
        backs = (*back, *backs)
    return survey, backs


def best(kb: KnowledgeBase, scale: str) -> Reading:
    """The reading that passes."""
    return reading_of(kb.scales[scale], kb.scales[scale].levels[0].name)


def _sides(kb: KnowledgeBase, zone: str, side: str) -> Iterable[str | None]:
    """The sides it is on; a part on the centreline has none, whatever was said."""
    if side == "both" and kb.zones[zone].sided:
        return SIDES
    return (side if side in SIDES and kb.zones[zone].sided else None,)
