"""A part that was looked at without a mark, in a conversation: what would pass it, and that nothing else is asked."""

from __future__ import annotations

from triage.asking.effort import WITH_ALL, Resources
from triage.asking.suggest import Option
from triage.asking.told import answer_of
from triage.concluding.looks import would_pass
from triage.conclusions.ranges import range_between, range_of
from triage.conclusions.values import Range
from triage.dialogue.judged import JudgedBoat, judged_boat
from triage.dialogue.question import Choice, Done, View, find
from triage.inference.evaluation import Presumed
from triage.inference.whatif import WhatIf
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.phrases import conversation as phrases
from triage.phrases.words import in_words
from triage.survey.model import Survey


def view_of(kb: KnowledgeBase, survey: Survey, finding: str) -> View:
    """The view of a finding on a boat that is judged once for all its marks."""
    boat = judged_boat(kb, survey)
    return LookView(boat, finding) if find(boat.survey, finding).is_look else View(boat, finding)


class LookView(View):
    """One look of a survey: it raises nothing, and may be passed by trying the part."""

    def __init__(self, boat: JudgedBoat, finding: str) -> None:
        self.kb, self.survey = boat.kb, boat.survey
        self.finding = find(self.survey, finding)
        self.whatif = WhatIf(self.kb, self.survey.boat, self.finding, (*self.survey.marks, self.finding))
        self.passed = boat.coverage.passes_alone(self.finding)

    def options(self, means: Resources = WITH_ALL) -> tuple[Option, ...]:
        """What would still pass the part."""
        if self.passed:
            return ()
        return would_pass(self.kb, self.survey.boat, self.finding, means)

    @property
    def presumed(self) -> tuple[Presumed, ...]:
        """Nothing is taken for granted of a part that was only looked at."""
        return ()

    def interval(self, scale: str) -> Range:
        """At its best: a look raises nothing."""
        return range_between(self.kb, scale, 0, 0)

    @property
    def reasons(self) -> tuple[str, ...]:
        """None: nothing was found."""
        return ()

    def says(self) -> str:
        """Whether the part is passed."""
        return phrases.PASSED if self.passed else phrases.NOT_TRIED

    def choice(self, ask: str, one: int | str) -> Choice:
        """One answer: at its best there is still no mark, else the part has one."""
        named = self.kb.scales[ask].levels[one].name if isinstance(one, int) else one
        then = in_words(range_of(self.kb, self.whatif.judged({ask: one}), VERDICT)) if one else phrases.STILL_NO_MARK
        return Choice(named, answer_of(self.kb, ask, one), then)

    def done(self) -> Done:
        """The end: passed, or looked at and not tried."""
        return Done(self.finding.id, True, phrases.NOTHING_MORE, (), (), self.standing(0))
