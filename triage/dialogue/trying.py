"""A part that a story says is well: asked for by itself, with the test that passes it."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from triage.dialogue.answering import Answering
from triage.dialogue.edits import Edit, SetReading, apply_all
from triage.dialogue.following import begun, named
from triage.dialogue.messages import Choices, Line, Message
from triage.dialogue.moves import Move, Option, Outcome, option_said
from triage.dialogue.noting import noted
from triage.dialogue.recording import best, pass_recorded
from triage.dialogue.state import DESCRIBE, State
from triage.dialogue.stories import Story, told
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.listening.saying import agreed
from triage.listening.statements import Passed
from triage.phrases import hearing, story_screen
from triage.survey.model import Finding, Survey


class Trying:
    """One pass of a story whose marks are in the survey: ``state.asking.ask`` is its number."""

    def __init__(self, kb: KnowledgeBase, state: State) -> None:
        self.kb, self.state, self.draft = kb, state, state.asking
        self.told: Story = told(kb, state.asking.text, state.asking.offered)

    @property
    def number(self) -> int:
        """Which pass is asked about."""
        return int(self.draft.ask or 0)

    @property
    def one(self) -> Passed:
        """The pass that is asked about."""
        return self.told.passes[self.number]

    def present(self) -> tuple[Message, ...]:
        """What is asked now."""
        choices = tuple(option.text for option in self.options())
        return (Choices(story_screen.was_it_tried(self.kb, self.one, self.told.words(self.one)), choices),)

    def options(self) -> list[Option]:
        """The choices, in their order."""
        of_marks = [
            Option(story_screen.tried_there(named(self.kb, mark)), partial(self.passed_of, mark.id))
            for mark in self.may_be_of(self.one)
        ]
        return [Option(story_screen.TRIED_SO, self.passed), *of_marks, Option(story_screen.NOT_TRIED_SO, self.dropped)]

    def heard(self, text: str) -> Outcome | None:
        """Words in answer: one of the choices, yes or no, or None."""
        options, yes = self.options(), agreed(self.kb, text)
        if (chosen := option_said(options, text)) is not None:
            return chosen.then()
        return None if yes is None else options[0 if yes else -1].then()

    def next_pass(
        self, number: int, survey: Survey, backs: tuple[Edit, ...] = (), says: tuple[Message, ...] = ()
    ) -> Move:
        """Ask for this one of the parts that are said to be well, or go on with the first mark."""
        draft = self.draft
        if number < len(self.told.passes):
            return Move(replace(draft, what="tried", ask=str(number)), says, survey, backs)
        state = replace(self.state, survey=survey, asking=replace(draft, what="ended"))
        says = (*says, *(line for asked in self.told.questions for line in Answering(self.kb, state).wondered(asked)))
        if draft.mark and any(one.id == draft.mark for one in survey.findings):
            asking, standing = begun(self.kb, survey, draft.mark, self.state.means)
            return Move(asking, (*says, *standing), survey, backs)
        return Move(DESCRIBE, says, survey, backs)

    def may_be_of(self, one: Passed) -> list[Finding]:
        """The marks of the story at other places of which the same may have been said."""
        told_of = {(card.zone, card.sign) for card in self.told.kept if card.zone != one.zone}
        return [
            mark
            for mark in self.state.survey.marks
            if (mark.zone, mark.sign) in told_of
            and one.scale in self.kb.applicable(mark.zone, mark.sign)
            and one.scale not in mark.readings
            and not self.kb.best(mark.sign, one.scale)
        ]

    def passed(self) -> Outcome:
        """The part was tried so: a reading of the mark there, else of a part without one."""
        try:
            survey, backs = pass_recorded(self.kb, self.state.survey, self.one, self.told.plain(self.one))
        except BadSurvey as error:
            said = Line(f"{error.problems[0].what}. {error.problems[0].hint}".strip())
            return self.next_pass(self.number + 1, self.state.survey, says=(said,))
        return self.next_pass(self.number + 1, survey, backs)

    def passed_of(self, mark: str) -> Outcome:
        """It was tried so, and said of this mark."""
        reading = best(self.kb, self.one.scale)
        survey, backs = apply_all(self.kb, self.state.survey, [SetReading(mark, self.one.scale, reading)])
        return self.next_pass(self.number + 1, survey, backs)

    def dropped(self) -> Outcome:
        """It was not tried so, and passes nothing; the words are kept as a note."""
        words = hearing.noted(self.kb, self.one, self.told.words(self.one))
        return self.next_pass(self.number + 1, *noted(self.kb, self.state.survey, [words]))
