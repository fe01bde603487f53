"""Ranked causes in words: what speaks for each and against it, and whether it is still at work."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from triage.causes.evidence import Evidence
from triage.causes.rank import Ranked
from triage.conclusions.diagnosis import Cause, StillAtWork
from triage.conclusions.ranges import basis_words, place_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model import cause as known
from triage.survey.model import Finding


class Teller:
    """Tells what the ranking of the causes of one survey comes to."""

    def __init__(
        self,
        kb: KnowledgeBase,
        weights: known.Weights,
        findings: Sequence[Finding],
        evidence: Evidence,
        ranked: Sequence[Ranked],
    ) -> None:
        self.kb, self.weights, self.findings, self.evidence, self.ranked = kb, weights, findings, evidence, ranked

    def causes(self) -> tuple[Cause, ...]:
        """Every cause that something speaks for, likeliest first."""
        return tuple(
            Cause(
                id=one.cause.id,
                name=one.cause.name,
                likelihood=one.word,
                happens=one.cause.happens,
                alike=tuple(other.name for other in one.alike),
                speaks_for=tuple(self.speaks_for(one)),
                speaks_against=tuple(self.speaks_against(one)),
                findings=tuple(finding.id for finding in self.left_by(one)),
                ask=one.cause.ask,
                answer=self.evidence.said.get(one.cause.id, ""),
                still_at_work=self.still_at_work(one.cause),
                basis=basis_words(one.cause.basis),
            )
            for one in self.ranked
        )

    def left_by(self, one: Ranked) -> list[Finding]:
        """The findings that the cause may have left, in the order of the walk-round."""
        left = {finding.id for entry in one.found for finding in self.evidence.found[entry.mark]}
        return [finding for finding in self.findings if finding.id in left]

    def strongest(self, one: Ranked) -> tuple[known.Mark, Finding]:
        """The mark that speaks most for a cause that left some, and the finding behind it."""
        mark = self._strongest_first(one.found)[0].mark
        return mark, self.evidence.found[mark][0]

    def speaks_for(self, one: Ranked) -> Iterable[str]:
        if self.evidence.said.get(one.cause.id) == "yes":
            yield "Somebody who knows the boat says so."
        for entry in self._strongest_first(one.found):
            for finding in self.evidence.found[entry.mark]:
                yield f"{self.mark(finding)}. {self.how_often(entry)}"

    def speaks_against(self, one: Ranked) -> Iterable[str]:
        if self.evidence.said.get(one.cause.id) == "no":
            yield "Somebody who knows the boat says that it has not happened."
        for entry in self._strongest_first(one.missing):
            place, sign = self.kb.zones[entry.zone].name, self.kb.signs[entry.sign].name
            yield f"{place}: no “{sign}” was found. {self.how_often(entry)}"
        likelier = self._explained_better(one)
        if likelier:
            yield f"All that speaks for it can come from a likelier cause as well: {likelier.cause.name}."

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
        return f"This cause {self.weights.strengths[entry.strength].says} leaves it."

    def mark(self, finding: Finding) -> str:
        return f"{place_of(self.kb, finding)}: {self.kb.signs[finding.sign].name}"

    def still_at_work(self, cause: known.Cause) -> StillAtWork | None:
        at_work = cause.still_at_work
        if at_work is None:
            return None
        shown = [finding for finding in self.findings if (finding.zone, finding.sign) in at_work.shown_by]
        return StillAtWork(tuple(self.mark(finding) for finding in shown), at_work.tell, at_work.cure)
