"""One mark of a survey, judged, and everything a conversation says about it: its standing, its questions, its end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from triage.asking.effort import WITH_ALL, Resources
from triage.asking.settles import suggestions
from triage.asking.suggest import Option, ranked
from triage.asking.told import answer_of, open_check, question_of, supposed
from triage.concluding.reasons import Explanation
from triage.conclusions.checks import OpenCheck
from triage.conclusions.ranges import is_open, range_of
from triage.conclusions.values import Range
from triage.dialogue.judged import JudgedBoat
from triage.inference.evaluation import Presumed
from triage.inference.whatif import WhatIf
from triage.knowledge.model import AFLOAT, TOW, VERDICT
from triage.phrases import conversation as phrases
from triage.phrases.findings import NOTHING_RAISES_IT, outcomes
from triage.phrases.words import in_words
from triage.survey.model import Finding, Survey


@dataclass(frozen=True)
class Standing:
    """Where a finding stands. ``says`` is one or two sentences; ``left`` counts the questions that still matter."""

    verdict: Range
    afloat: Range
    tow: Range
    says: str
    left: int


@dataclass(frozen=True)
class Choice:
    """One answer: what to hand to `answer`, what it means, and what the verdict would then be."""

    answer: str
    phrase: str
    then: str


@dataclass(frozen=True)
class Question:
    """The next question about a finding. ``ask`` is a scale or a boat fact; in ``unit`` it may be measured instead,
    or told as in ``examples``.

    ``how`` to find the answer; ``made``: that check was made already, for another reading.
    """

    finding: str
    ask: str
    about: Literal["mark", "boat"]
    text: str
    choices: tuple[Choice, ...]
    unit: str
    examples: tuple[str, ...]
    why: tuple[str, ...]
    how: OpenCheck
    made: bool
    standing: Standing


@dataclass(frozen=True)
class Done:
    """Nothing more to ask. ``would_change`` says what would still change the answer, or what could settle it.

    ``why`` holds the reasons for the verdict, or for the worse end of its range, from what was found to the conclusion.
    """

    finding: str
    settled: bool
    says: str
    why: tuple[str, ...]
    would_change: tuple[str, ...]
    standing: Standing


class View:
    """One mark of a survey, judged, with all that can be said about it."""

    def __init__(self, boat: JudgedBoat, finding: str) -> None:
        self.kb, self.survey = boat.kb, boat.survey
        self.finding = find(self.survey, finding)
        self.judged = next(one for one in boat.evaluations if one.finding is self.finding)
        self.whatif = WhatIf(self.kb, self.survey.boat, self.finding, self.survey.marks, boat.judgement)

    @cached_property
    def explanation(self) -> Explanation:
        """The reasons for how it is judged."""
        return Explanation(self.kb, self.judged, self.whatif)

    def options(self, means: Resources = WITH_ALL) -> tuple[Option, ...]:
        """The questions that still matter, the most useful first."""
        return ranked(self.kb, self.judged, self.whatif, means)

    @property
    def presumed(self) -> tuple[Presumed, ...]:
        """What was taken for granted."""
        return self.judged.presumed

    def interval(self, scale: str) -> Range:
        """Both ends of a derived scale, by name."""
        return range_of(self.kb, self.judged, scale)

    @cached_property
    def because(self) -> str:
        """The main reason for the verdict, or for the worse end of its range; empty when that is its mildest."""
        return next(iter(self.reasons), "")

    @cached_property
    def reasons(self) -> tuple[str, ...]:
        """The reasons for the verdict, or for the worse end of its range, the main one first."""
        end = self.judged.lower if self.interval(VERDICT).settled else self.judged.upper
        return tuple(step.because for step in self.explanation.chain(end, VERDICT))

    def standing(self, left: int) -> Standing:
        """Where it stands, with this many questions left."""
        return Standing(self.interval(VERDICT), self.interval(AFLOAT), self.interval(TOW), self.says(), left)

    def says(self) -> str:
        """Where it stands, in a sentence or two."""
        verdict = self.interval(VERDICT)
        if verdict.settled:
            return phrases.settled(verdict.best, self.because or self.harmless())
        return phrases.still_open(verdict.best, verdict.worst, self.because, self.meanwhile())

    def meanwhile(self) -> str:
        """Whether she may be sailed while it is open; empty where nothing speaks against it."""
        best, worst = self.judged.interval(AFLOAT)
        levels = self.kb.scales[AFLOAT].levels
        if best < worst and worst == len(levels) - 1:
            return phrases.NOT_BEFORE
        return phrases.until_known(levels[worst].phrase) if worst else ""

    def harmless(self) -> str:
        """Why such a mark is only looks when nothing raises it."""
        return self.kb.signs[self.finding.sign].harmless or NOTHING_RAISES_IT

    def question(self, option: Option, left: int) -> Question:
        """The question that an option is, with its choices and how to answer it."""
        kb, scale = self.kb, self.kb.scales.get(option.ask)
        answers = self.whatif.levels(option.ask) if scale else option.answers
        reads = option.check.reads if option.check else ()
        return Question(
            finding=self.finding.id,
            ask=option.ask,
            about="mark" if scale else "boat",
            text=question_of(kb, option.ask),
            choices=tuple(choice for one in answers for choice in self.choices(option.ask, one)),
            unit=scale.measure.unit if scale and scale.measure else "",
            examples=scale.ways.examples if scale else (),
            why=self.why(option),
            how=open_check(kb, self.finding, option.ask, option.check),
            made=any(other in self.finding.answered for other in reads if other != option.ask),
            standing=self.standing(left),
        )

    def choices(self, ask: str, one: int | str) -> tuple[Choice, ...]:
        """The ways of giving one answer, each with the verdict that it would come to."""
        then = self.then(ask, one)
        if isinstance(one, int):
            return tuple(Choice(said, words, then) for said, words in self.kb.scales[ask].choices(one))
        return (Choice(one, answer_of(self.kb, ask, one), then),)

    def then(self, ask: str, one: int | str) -> str:
        """The verdict that an answer would come to."""
        return in_words(range_of(self.kb, self.whatif.judged({ask: one}), VERDICT))

    def why(self, option: Option) -> tuple[str, ...]:
        """What hangs on it, both ways."""
        kb, zone = self.kb, self.kb.zones[self.finding.zone]
        lines = []
        if any(option.ask in way for way in kb.named_sets(zone.id, self.finding.sign)):
            lines.append(phrases.named_check(zone.how_passed))
        if self.because and not self.interval(VERDICT).settled:
            lines.append(phrases.could_be(self.because))
        ends = [option.answers[0], self.whatif.levels(option.ask)[-1] if option.check else option.answers[-1]]
        lines += [phrases.if_so(supposed(kb, option.ask, one), self.then(option.ask, one)) for one in ends]
        return tuple(lines)

    def done(self) -> Done:
        """The end: what holds, and what would still change it or could settle it."""
        settled = not is_open(self.judged)
        if settled:
            turns = self.explanation.would_change()
            would = tuple(phrases.if_so(turn.reading.phrase, in_words(turn.verdict)) for turn in turns)
            return Done(self.finding.id, True, phrases.NOTHING_MORE, self.reasons, would, self.standing(0))
        checks = _that_settle(suggestions(self.kb, self.judged, self.whatif))
        would = tuple(f"{check.name}: {check.question} {outcomes(check)}" for check in checks)
        says = phrases.decided_by(checks[0].name) if checks else phrases.CANNOT_SETTLE
        return Done(self.finding.id, False, says, self.reasons, would, self.standing(0))


def _that_settle(checks: Sequence[OpenCheck]) -> Sequence[OpenCheck]:
    """Those of which some answer settles the mark, where there are any."""
    return [one for one in checks if any(outcome.verdict.settled for outcome in one.outcomes)] or checks


def find(survey: Survey, finding: str) -> Finding:
    """The finding with this id."""
    return next(one for one in survey.findings if one.id == finding)
