"""Ranked causes as conclusions: what speaks for each and against it, and whether it is still at work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from triage.causes.evidence import Evidence
from triage.causes.rank import Ranked
from triage.conclusions.diagnosis import CauseHypothesis, StillAtWork, Support
from triage.coverage import Coverage
from triage.knowledge.model import cause as known
from triage.survey.model import Finding


class Descriptions:
    """What the ranking of the causes of one survey comes to."""

    def __init__(
        self, coverage: Coverage, weights: known.Weights, evidence: Evidence, ranked: Sequence[Ranked]
    ) -> None:
        self.kb, self.findings = coverage.kb, coverage.survey.findings
        self.weights, self.evidence, self.ranked = weights, evidence, ranked

    def causes(self) -> tuple[CauseHypothesis, ...]:
        """Every cause that something speaks for, likeliest first."""
        return tuple(
            CauseHypothesis(
                id=one.cause.id,
                name=one.cause.name,
                likelihood=one.word,
                worth_telling=one.word != self.weights.words[-1][1],
                happens=one.cause.happens,
                alike=tuple(other.name for other in one.alike),
                speaks_for=tuple(self.speaks_for(one)),
                speaks_against=tuple(self.speaks_against(one)),
                findings=tuple(finding.id for finding in self.left_by(one)),
                ask=one.cause.ask,
                answer=self.answer(one.cause),
                still_at_work=self.still_at_work(one.cause),
                basis=one.cause.basis,
            )
            for one in self.ranked
        )

    def answer(self, cause: known.Cause) -> str:
        """What is known of the cause from somebody's word; it need not be asked for then."""
        as_good = self.evidence.told.get(cause.id, 0.0) >= self.weights.yes_if_so / self.weights.yes_if_not
        return "yes" if as_good else self.evidence.stated.get(cause.id, "")

    def left_by(self, one: Ranked) -> list[Finding]:
        """The findings that the cause may have left, in the order of the walk-round."""
        left = {finding.id for entry in one.found for finding in self.evidence.found[entry.mark]}
        return [finding for finding in self.findings if finding.id in left]

    def strongest(self, one: Ranked) -> tuple[known.Mark, Finding]:
        """The mark that speaks most for a cause that left some, and the finding behind it."""
        mark = self._strongest_first(one.found)[0].mark
        return mark, self.evidence.found[mark][0]

    def speaks_for(self, one: Ranked) -> Iterator[Support]:
        """Somebody's word, what happened, and the marks that it leaves, strongest first."""
        if self.evidence.stated.get(one.cause.id) == "yes":
            yield Support("said")
        for event in self.evidence.by_events.get(one.cause.id, ()):
            yield Support("told", event=self.kb.happenings.events[event].name)
        for entry in self._strongest_first(one.found):
            for finding in self.evidence.found[entry.mark]:
                yield Support("found", finding=finding.id, how_often=self.how_often(entry))

    def speaks_against(self, one: Ranked) -> Iterator[Support]:
        """Somebody's word, what was there before, the marks that were looked for in vain, and a likelier cause of all
        that speaks for it.
        """
        if self.evidence.stated.get(one.cause.id) == "no":
            yield Support("said")
        older = self.evidence.older.get(one.cause.id, ())
        for entry in self._strongest_first(one.cause.leaves):
            for finding in self.evidence.found[entry.mark] if entry.mark in older else ():
                yield Support("older", place=self.kb.zones[finding.zone].name, mark=self.kb.signs[finding.sign].name)
        for entry in self._strongest_first(one.missing):
            place, mark = self.kb.zones[entry.zone].name, self.kb.signs[entry.sign].name
            yield Support("absent", place=place, mark=mark, how_often=self.how_often(entry))
        likelier = self._explained_better(one)
        if likelier:
            yield Support("likelier", cause=likelier.cause.name)

    def _explained_better(self, one: Ranked) -> Ranked | None:
        """A likelier cause, by more than chance, of the same marks."""
        marks = {entry.mark for entry in one.found}
        for other in self.ranked:
            if other is one or other.cause in one.alike:
                continue
            if other.chance > one.chance and marks and marks <= {entry.mark for entry in other.found}:
                return other
        return None

    def _strongest_first(self, entries: Iterable[known.Leaves]) -> list[known.Leaves]:
        return sorted(entries, key=lambda entry: -self.weights.strengths[entry.strength].chance)

    def how_often(self, entry: known.Leaves) -> str:
        """How often the cause leaves this mark, as a word that stands before a verb."""
        return self.weights.strengths[entry.strength].says

    def still_at_work(self, cause: known.Cause) -> StillAtWork | None:
        """How to tell that the cause goes on, and the findings that show it."""
        at_work = cause.still_at_work
        if at_work is None:
            return None
        shown = tuple(finding.id for finding in self.findings if (finding.zone, finding.sign) in at_work.shown_by)
        return StillAtWork(shown, at_work.tell, at_work.cure)
