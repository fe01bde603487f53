"""Answering a question about a mark or the boat, correcting what was answered, and choosing what to talk about."""

from __future__ import annotations

from functools import partial

from triage.asking.told import answer_of, question_of
from triage.concluding.assess import assess_survey
from triage.dialogue.answers import answered, answers_to, askable
from triage.dialogue.edits import Edit, RemoveFinding, SetFact, SetReading, apply, find
from triage.dialogue.following import change, named, next_about, other_open, sends
from triage.dialogue.hearing_answers import HearingAnswers, spoken_of
from triage.dialogue.interview import next_question, question_about, values_of
from triage.dialogue.messages import Asked, Choices, Ended, Left, Line, Message, Noted, Refused, Report
from triage.dialogue.moves import Move, Option, Outcome, Says, option_said
from triage.dialogue.question import Done
from triage.dialogue.state import DESCRIBE, Asking, State
from triage.dialogue.suspecting import next_sought, seek
from triage.dialogue.wondering import answer_to
from triage.knowledge.model import KnowledgeBase
from triage.listening.offering import likest, plainly_worst
from triage.listening.saying import agreed, corrects
from triage.listening.understand import could_not_tell
from triage.parsing.text import same
from triage.phrases import conversation as phrases
from triage.phrases import hearing
from triage.phrases.words import capital
from triage.survey.model import COULD_NOT_TELL, Finding, Reading, Survey
from triage.survey.readings import NotUnderstood, accepted, none_given, quoted, reading_of, without_unit


class Answering:
    """What can be asked and answered about the marks of a survey."""

    def __init__(self, kb: KnowledgeBase, state: State) -> None:
        self.kb, self.state, self.survey, self.asking = kb, state, state.survey, state.asking

    def present(self) -> tuple[Message, ...]:
        """What is asked now."""
        choices = tuple(option.text for option in self.options())
        match self.asking.what:
            case "answer":
                return (self.asked(choices),)
            case "answers":
                return (Choices(phrases.WHICH_ANSWER, choices),)
            case "marks":
                return (Choices(phrases.WHICH_MARK, choices),)
            case "ended":
                done = next_question(self.kb, self.survey, self.asking.mark, self.state.means)
                if isinstance(done, Done):
                    sent = sends(self.kb, self.survey, done.finding)
                    return (Ended(done, sent, phrases.WHAT_NEXT, choices),)
        return (Choices(phrases.WHAT_DO_YOU_SEE),)

    def options(self) -> list[Option]:
        """The choices, in their order."""
        asking = self.asking
        match asking.what:
            case "answer":
                return [
                    Option(one.text, partial(self.record, one.said))
                    for one in answers_to(self.kb, self.survey, asking.mark, asking.ask)
                ]
            case "answers":
                return self.anything(self.finding)
            case "marks":
                marks = self.survey.in_walk_order(self.kb).findings
                others = [Option(named(self.kb, one), partial(self.focus, one.id)) for one in marks]
                return [*others, Option(phrases.SOMETHING_NEW, lambda: Move(DESCRIBE))]
            case "ended":
                return self.after_the_end()
        return []

    @property
    def finding(self) -> Finding:
        """The mark that is talked about. Raises BadSurvey when none is."""
        return find(self.survey, self.asking.mark)

    def asked(self, choices: tuple[str, ...]) -> Asked:
        """The question of this moment, with what was answered before."""
        mark, ask = self.asking.mark, self.asking.ask
        question = question_about(self.kb, self.survey, mark, ask, self.state.means)
        place = named(self.kb, self.finding)
        before = answered(self.kb, self.survey, self.finding, ask) or ""
        return Asked(question, place, choices, before, question.how.name not in self.state.explained)

    def anything(self, finding: Finding) -> list[Option]:
        """Everything that can be answered about the mark or the boat, with what was; and the mark's removal."""
        options = []
        for ask in askable(self.kb, finding):
            name = self.kb.scales[ask].name if ask in self.kb.scales else question_of(self.kb, ask)
            told = answered(self.kb, self.survey, finding, ask) or ""
            options.append(Option(phrases.answered(name, told), partial(self.change, finding.id, ask)))
        return [*options, Option(phrases.TAKE_MARK_OUT, partial(self.remove, finding.id))]

    def after_the_end(self) -> list[Option]:
        """What can be done once nothing more is asked about the mark."""
        mark = self.asking.mark
        options = [
            Option(phrases.THE_REPORT, self.report),
            Option(phrases.SOMETHING_ELSE, lambda: Move(Asking("answers", mark))),
        ]
        if (other := other_open(self.kb, self.survey, mark)) is not None:
            options.append(Option(phrases.next_open(named(self.kb, other)), partial(self.focus, other.id)))
        if (sought := next_sought(self.kb, self.survey)) is not None:
            place, sign = self.kb.zones[sought.zone].name, self.kb.signs[sought.sign].name
            says = phrases.look_for(place, sought.side, sign)
            options.append(Option(says, partial(seek, self.kb, self.survey, sought)))
        return [*options, Option(phrases.LEAVE, lambda: (Left(),))]

    def heard(self, text: str) -> Outcome | None:
        """Words in answer to what is asked; None when they say nothing about it."""
        if self.asking.what == "answer":
            return self.answer_said(text)
        chosen = option_said(self.options(), text)
        return chosen.then() if chosen else None

    def answer_said(self, text: str) -> Outcome | None:
        """An answer in words: a level, an observation, a measurement, one of the choices, or that nobody could tell."""
        kb, ask = self.kb, self.asking.ask
        if none_given(text):
            return self.record(COULD_NOT_TELL)
        if (chosen := option_said(self.options(), text, words=2)) is not None:  # "one" would be "one side moves"
            return chosen.then()
        if ask not in kb.scales:
            value = next((one for one in values_of(kb, ask) if same(one) == same(text)), None)
            return self.in_a_sentence(text) if value is None else self.record(value)
        try:
            reading = reading_of(kb.scales[ask], text)
        except NotUnderstood as error:
            if (outcome := self.in_a_sentence(text)) is not None:
                return outcome
            if (worst := plainly_worst(kb, ask, text, self.choosable())) is not None:
                return self.read(reading_of(kb.scales[ask], worst))
            if near := self.likest(text):
                return self.refused(hearing.unsure_of(text), hearing.nearest(near))
            plain_hint = error.hint.removesuffix(accepted(kb.scales[ask])).strip()
            hint = plain_hint or phrases.said_instead(kb.scales[ask])
            return self.refused(error.what if error.what.endswith("?") else f"{error.what}.", hint)
        if reading.measured is None and without_unit(text):
            return self.refused(phrases.of_what(text))  # the number of a level is shown nowhere, so it is not meant
        return self.read(reading)

    def likest(self, text: str) -> tuple[str, ...]:
        """The choices that the words are likest, where they speak of what is asked."""
        return likest(self.kb, self.asking.ask, text, self.choosable())

    def choosable(self) -> dict[str, str]:
        """The answers that tell something, by what is recorded, each with the words it is chosen by."""
        answers = answers_to(self.kb, self.survey, self.asking.mark, self.asking.ask)
        return {one.said: one.text for one in answers if one.said is not None and one.said != COULD_NOT_TELL}

    def in_a_sentence(self, text: str) -> Outcome | None:
        """What a sentence answers, to this question and beyond it; None when it answers nothing."""
        kb, ask, values = self.kb, self.asking.ask, values_of(self.kb, self.asking.ask) if self.asks_a_fact else ()
        if set(values) == {"yes", "no"} and (yes := agreed(kb, text)) is not None:
            return self.record("yes" if yes else "no")
        mark = spoken_of(kb, self.state, text) if corrects(kb, text) else self.asking.mark
        outcome = HearingAnswers(kb, self.state, mark, ask if mark == self.asking.mark else "").heard(text)
        return self.record(COULD_NOT_TELL) if outcome is None and could_not_tell(kb, text) else outcome

    @property
    def asks_a_fact(self) -> bool:
        """Whether what is asked is a fact of the boat, or of the place."""
        return self.asking.ask not in self.kb.scales

    def refused(self, what: str, hint: str = "") -> Says:
        """That this is no answer, with the choices once more."""
        return (Refused(capital(what), hint, tuple(option.text for option in self.options())),)

    def between(self, first: int, last: int, *, pressed: bool = False) -> Outcome:
        """It lies between two of the choices; typed where it may be measured, it could as well be a quantity."""
        ask = self.asking.ask
        if ask in self.kb.scales and self.kb.scales[ask].measure and not pressed:
            return self.refused(phrases.of_what(f"{first} to {last}"))
        answers = answers_to(self.kb, self.survey, self.asking.mark, ask)[first - 1 : last]
        if ask not in self.kb.scales or any(one.said in (None, COULD_NOT_TELL) for one in answers):
            return self.refused(phrases.not_between(question_of(self.kb, ask)))
        return self.read(reading_of(self.kb.scales[ask], f"{answers[0].said} to {answers[-1].said}"))

    def record(self, said: str | None) -> Outcome:
        """The answer that was chosen, or none any more."""
        ask = self.asking.ask
        if ask in self.kb.scales:
            return self.read(None if said is None else reading_of(self.kb.scales[ask], said))
        after, back = apply(self.kb, self.survey, SetFact(ask, said, self.finding.zone))
        phrase = "" if said in (None, COULD_NOT_TELL) else answer_of(self.kb, ask, str(said))
        return self.noted(after, (back,), said, phrase)

    def read(self, reading: Reading | None) -> Outcome:
        """The survey with this reading, and what it did; None takes the reading out."""
        scale = self.kb.scales[self.asking.ask]
        after, back = apply(self.kb, self.survey, SetReading(self.asking.mark, scale.id, reading))
        phrase = "" if reading is None else quoted(scale, reading)
        return self.noted(after, (back,), reading.said if reading else None, phrase)

    def noted(self, after: Survey, backs: tuple[Edit, ...], said: str | None, phrase: str) -> Outcome:
        """The answer is told as it was understood, with what it did; then the next question."""
        mark = self.asking.mark
        told = phrases.CLEARED if said is None else phrases.noted(phrase) if phrase else phrases.ATTEMPTED
        change_told, usual = change(self.kb, self.survey, after, mark)
        asking = next_about(self.kb, after, mark, self.state.means)
        return Move(asking, (Noted(told, change_told), *usual), after, backs)

    def change(self, mark: str, ask: str) -> Outcome:
        """Ask something out of turn."""
        if ask not in askable(self.kb, find(self.survey, mark)):
            return (Refused(phrases.NOT_ASKED_THERE),)
        return Move(Asking("answer", mark, ask))

    def clear(self, mark: str, ask: str) -> Outcome:
        """Take an answer out."""
        if ask not in askable(self.kb, find(self.survey, mark)):
            return (Refused(phrases.NOT_ASKED_THERE),)
        asking = Asking("answer", mark, ask)
        return Answering(self.kb, State(self.survey, asking, means=self.state.means)).record(None)

    def anything_about(self, mark: str) -> Outcome:
        """Everything that can be answered about a mark, to choose one."""
        return Move(Asking("answers", find(self.survey, mark).id)) if mark else (Refused(phrases.NO_MARK),)

    def focus(self, mark: str) -> Outcome:
        """Go on with a mark."""
        return Move(next_about(self.kb, self.survey, find(self.survey, mark).id, self.state.means))

    def remove(self, mark: str) -> Outcome:
        """Take a mark out."""
        if not mark:
            return self.which_to_take_out()
        gone = find(self.survey, mark)
        after, back = apply(self.kb, self.survey, RemoveFinding(mark))
        asking = DESCRIBE if self.asking.mark == mark else self.asking
        return Move(asking, (Line(phrases.taken_out(named(self.kb, gone))),), after, (back,))

    def which_to_take_out(self) -> Outcome:
        """Ask which mark is meant, when there is one."""
        if not self.survey.findings:
            return (Refused(phrases.NO_MARK),)
        return Move(Asking("marks"), (Line(phrases.WHICH_TO_TAKE_OUT),))

    def report(self) -> Says:
        """Everything so far, concluded."""
        if not self.survey.findings:
            return (Line(phrases.NOTHING_TO_REPORT),)
        return (Report(assess_survey(self.survey, self.kb)),)

    def wondered(self, question: str) -> Says:
        """The plain answer to a question about the boat as she stands."""
        return tuple(Line(one) for one in answer_to(self.kb, self.survey, self.asking.mark, question))
