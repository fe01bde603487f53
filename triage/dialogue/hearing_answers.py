"""An answer in a sentence: what is asked and more, corrections too, each said back as it was taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from triage.asking.told import answer_of
from triage.dialogue.describing import Describing
from triage.dialogue.edits import (
    AddFinding,
    Edit,
    RemoveFinding,
    SetFact,
    SetNote,
    SetReading,
    TellEvent,
    apply_all,
    find,
    with_id,
)
from triage.dialogue.following import change, named, next_about
from triage.dialogue.messages import Line, Message, Noted, Points
from triage.dialogue.moves import Move, Outcome
from triage.dialogue.state import Asking, State
from triage.dialogue.stories import told
from triage.dialogue.wondering import answer_to
from triage.errors import BadSurvey
from triage.knowledge.model import SIDES, KnowledgeBase, Scale
from triage.listening.answered import Given, Reply
from triage.listening.naming import marks_named, places_named
from triage.listening.replies import reply
from triage.listening.saying import OTHER_SIDE, corrects, place_said, plain_row, scale_spoken_of, without_what_is_not
from triage.listening.statements import Found
from triage.listening.story import hear
from triage.listening.tokens import tokens_of
from triage.listening.understand import understand
from triage.phrases import conversation as phrases
from triage.phrases import describing
from triage.survey.model import Finding, Reading
from triage.survey.readings import NotUnderstood, quoted, reading_of


class HearingAnswers:
    """What is said of one mark, ``asked`` being the scale or fact in question, if any."""

    def __init__(self, kb: KnowledgeBase, state: State, mark: str, asked: str = "") -> None:
        self.kb, self.state, self.asked = kb, state, asked
        self.survey, self.mark = state.survey, mark
        self.backs: tuple[Edit, ...] = ()
        self.taken: list[str] = []
        self.left: list[Message] = []
        self.by_itself = ""

    @property
    def finding(self) -> Finding:
        """The mark as it stands now."""
        return find(self.survey, self.mark)

    @property
    def stays(self) -> bool:
        """Whether the mark is the same that it was before, and not on another side."""
        return any(one.id == self.mark for one in self.state.survey.findings)

    def heard(self, text: str) -> Outcome | None:
        """What comes of a sentence; None when nothing of it can be kept or asked again."""
        answers = reply(self.kb, text, self.finding, self.asked)
        if not answers.given and not answers.side and (instead := self.instead(text)) is not None:
            return instead
        if answers.side:
            self.move(answers.side)
        for given in answers.given:
            self.read(given)
        for event in answers.events:
            self.do([TellEvent(event)], phrases.noted_event(self.kb, event).removeprefix("Noted: "))
        for fact in answers.facts:
            asks = self.kb.facts[fact.fact].asks
            told_so = f"{asks} {answer_of(self.kb, fact.fact, fact.value)}"
            self.do([SetFact(fact.fact, fact.value)], told_so)
        other = next((one for one in answers.rest if self.tells_of_another(one)), "")
        if self.taken or self.by_itself or self.left or (other and self.asked):
            return self.outcome(answers, other)
        if corrects(self.kb, text):
            return self.again(text)
        told_more = self.asked and answers.loose and answers.loose != (" ".join(text.split()),)
        return Move(self.state.asking, tuple(self.noted([text])), self.survey, self.backs) if told_more else None

    def do(self, edits: Sequence[Edit], told: str) -> None:
        """Change the survey so, and say so; or say why that cannot be."""
        try:
            self.survey, backs = apply_all(self.kb, self.survey, edits)
        except BadSurvey as error:
            problem = error.problems[0]
            self.left.append(Line(describing.size_left_out(problem.what, problem.hint)))
        else:
            self.backs = (*backs, *self.backs)
            self.taken.append(told)

    def read(self, given: Given) -> None:
        """One answer of a scale; a part that carries main loads is passed only when it is asked for."""
        scale = self.kb.scales[given.scale]
        try:
            reading = reading_of(scale, given.answer)
        except NotUnderstood as error:
            self.left.append(Line(describing.size_left_out(error.what, error.hint)))
            return
        primary = self.kb.zones[self.finding.zone].criticality == "primary"
        if primary and not reading.high and reading.measured is None and given.scale != self.asked:
            self.by_itself = given.scale
            self.left.append(Line(phrases.asked_by_itself(scale.name)))
            return
        self.do(
            [SetReading(self.mark, given.scale, reading)],
            phrases.given(scale.name, taken(scale, given, reading), given.words),
        )

    def move(self, side: str) -> None:
        """The mark is on another side, or on both."""
        finding, zone = self.finding, self.kb.zones[self.finding.zone]
        if side == "other":
            side = OTHER_SIDE.get(finding.side or "", "")
        if not zone.sided:
            self.left.append(Line(phrases.SAME_PART))
            return
        if side == "both":
            side = OTHER_SIDE.get(finding.side or "", "")
            twin = replace(finding, id="", side=side, readings={}, photos=())
            if side in SIDES and not self.is_there(twin):
                self.do([AddFinding(with_id(self.survey, twin))], phrases.on_both(named(self.kb, twin)))
            return
        moved = replace(finding, id="", side=side)
        if side not in SIDES or side == finding.side:
            return
        if self.is_there(moved):
            self.left.append(Line(phrases.there_already(named(self.kb, moved))))
            return
        rest = replace(self.survey, findings=tuple(one for one in self.survey.findings if one.id != finding.id))
        moved = with_id(rest, moved)
        self.do([RemoveFinding(finding.id), AddFinding(moved)], phrases.moved_over(named(self.kb, moved)))
        self.mark = moved.id

    def is_there(self, one: Finding) -> bool:
        """Whether the survey has that mark."""
        there = (one.zone, one.sign, one.side)
        return any((other.zone, other.sign, other.side) == there for other in self.survey.findings)

    def outcome(self, answers: Reply, other: str) -> Outcome:
        """What was taken and what was not, what it did, the answers to what was asked, and what comes next."""
        says: list[Message] = []
        if self.taken:
            did, usual = change(self.kb, self.state.survey, self.survey, self.mark) if self.stays else ("", ())
            one = len(self.taken) == 1
            says.append(
                Noted(phrases.noted(self.taken[0]), did) if one else Points(phrases.TAKEN_SO, tuple(self.taken))
            )
            says += [*([] if one or not did else [Line(did)]), *usual]
        says += [*self.left, *self.noted([*answers.loose, *(one for one in answers.rest if one != other)])]
        says += [Line(phrases.ANOTHER_MARK)] if other else []
        for about in answers.questions:
            says += [Line(one) for one in answer_to(self.kb, self.survey, self.mark, about)]
        return Move(self.following(other), tuple(says), self.survey, self.backs)

    def noted(self, rest: Sequence[str]) -> list[Message]:
        """Words of which nothing was made stay with the mark as they were said."""
        if not rest:
            return []
        note = "; ".join(filter(None, [self.finding.note, *rest]))
        try:
            self.survey, backs = apply_all(self.kb, self.survey, [SetNote(self.mark, note)])
        except BadSurvey:  # the note is full
            return [Line(phrases.not_taken(one)) for one in rest]
        self.backs = (*backs, *self.backs)
        return [Line(phrases.kept_as_note(one)) for one in rest]

    def following(self, other: str) -> Asking:
        """Another mark that was told of is shown first; then what must be asked by itself; then the next question."""
        if other:
            clear = told(self.kb, other).cards[0].found.clear
            return Asking("story", text=other) if clear else Asking("which", ask="0", text=other, sure=True)
        if self.by_itself:
            return Asking("answer", self.mark, self.by_itself)
        return next_about(self.kb, self.survey, self.mark, self.state.means)

    def tells_of_another(self, words: str) -> bool:
        """Whether the words tell of a mark at another place, which they name."""
        found = [one for one in hear(words, self.kb) if isinstance(one, Found)]
        at = places_named(self.kb).named(token.stem for token in tokens_of(words, self.kb))
        return any(one.zone in at and one.zone != self.finding.zone for one in found)

    def instead(self, text: str) -> Outcome | None:
        """It is at another place, or another mark: shown before anything is changed. None where it is not said so."""
        kb, finding = self.kb, self.finding
        if not corrects(kb, text) and plain_row(kb, text)[:1] != ("no",):
            return None
        if scale_spoken_of(kb, text, tuple(finding.readings)):
            return None
        meant = without_what_is_not(kb, text)
        stems = [token.stem for token in tokens_of(meant, kb)]
        places, marks = places_named(kb).named(stems), marks_named(kb).named(stems)
        draft = Asking("confirm", self.mark, text=f"{finding.note}; {text}", side=finding.side or "", sized=False)
        says = (Line(describing.told_instead(named(kb, finding))),)
        zone = place_said(kb, meant) if places and not marks else finding.zone
        if zone not in ("", finding.zone):
            return replace(
                self.moving(Describing(kb, self.state).at(replace(draft, zone=zone, sign=finding.sign))), says=says
            )
        sign = understand(meant, kb, zone=finding.zone).sign
        if marks and (not places or finding.zone in places) and sign not in (None, finding.sign):
            return Move(replace(draft, zone=finding.zone, sign=sign or ""), says)
        return None

    @staticmethod
    def moving(outcome: Outcome) -> Move:
        """What asks for something next."""
        assert isinstance(outcome, Move)
        return outcome

    def again(self, text: str) -> Outcome:
        """Something was wrong, and nobody has said yet what is right: it is asked anew."""
        finding = self.finding
        readings = tuple(finding.readings)
        spoken = scale_spoken_of(self.kb, text, readings) or (readings if len(readings) == 1 else ())
        spoken = spoken or scale_spoken_of(self.kb, text, self.kb.applicable(finding.zone, finding.sign))
        if len(spoken) == 1:
            return Move(Asking("answer", self.mark, spoken[0]), (Line(phrases.SAY_ANEW),))
        return Move(Asking("answers", self.mark), (Line(phrases.WHAT_WAS_WRONG),))


def taken(scale: Scale, given: Given, reading: Reading) -> str:
    """What an answer was taken as, in words; a quantity with what it means."""
    level = reading.high or 0
    if reading.measured is None:
        phrase = quoted(scale, reading)
        return scale.levels[level].name if phrase == scale.named(level) else phrase
    quantity = f"{given.answer}, our estimate" if given.estimated else given.answer
    means = scale.words(level)
    return quantity if means == scale.named(level) else f"{quantity}; {means}"


def spoken_of(kb: KnowledgeBase, state: State, text: str) -> str:
    """The mark that a correction is about: the one in hand, the one at the place it names, or the last talked about."""
    marks = {one.id: one for one in state.survey.findings}
    named_here = places_named(kb).named(token.stem for token in tokens_of(text, kb))
    at = [one.id for one in marks.values() if one.zone in named_here]
    if state.asking.mark in marks and (state.asking.mark in at or len(at) != 1):
        return state.asking.mark
    if len(at) == 1 or len(marks) == 1:
        return at[0] if at else next(iter(marks))
    talked = [one.asking.mark for one in reversed(state.undo)]
    return next((mark for mark in talked if mark in marks), "")
