"""What another answer would make of a finding: the same boat, judged again with one reading or fact changed.

The compiled engine is asked: it judges again only what the answer changes, so that asking many such questions stays
quick and the answers stay exact.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from triage.inference.compiled import Judgement
from triage.inference.evaluation import Evaluation
from triage.inference.outlook import Outlook
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding


class WhatIf:
    """Other answers to one finding on one boat."""

    def __init__(
        self,
        kb: KnowledgeBase,
        boat: Boat,
        finding: Finding,
        findings: Sequence[Finding],
        judgement: Judgement | None = None,
    ) -> None:
        """``findings``: all that are looked at together, the finding among them; ``judgement``: theirs, if made."""
        self.kb, self.boat, self.finding = kb, boat, finding
        self._judgement = judgement or Judgement.of(kb, boat, findings)
        self._known: dict[tuple[tuple[str, int | str], ...], Evaluation] = {}

    def judged(self, answers: Mapping[str, int | str]) -> Evaluation:
        """The finding with these scales answered so and these facts told so, all else as it is."""
        key = tuple(sorted(answers.items()))
        if key not in self._known:
            judgement, levels = self._judgement, {}
            for name, answer in answers.items():
                if isinstance(answer, int):
                    levels[name] = answer
                else:
                    judgement = judgement.knowing(name, answer, self.finding.zone)
            self._known[key] = judgement.answering(self.finding, levels)
        return self._known[key]

    @cached_property
    def outlook(self) -> Outlook:
        """The same questions with what they hang on."""
        return Outlook(self._judgement, self.finding)

    @cached_property
    def applicable(self) -> tuple[str, ...]:
        """The scales by which the mark is judged at its place."""
        return self.kb.applicable(self.finding.zone, self.finding.sign)

    @cached_property
    def unanswered(self) -> tuple[str, ...]:
        """Scales that apply and were neither answered nor tried in vain."""
        return tuple(scale for scale in self.applicable if scale not in self.finding.readings)

    @cached_property
    def attempted(self) -> tuple[str, ...]:
        """Scales whose answer leaves them open: "could not tell", or one that may mean several levels."""
        lower, upper = self.finding.lower, self.finding.upper
        here = (scale for scale in self.applicable if scale in self.finding.readings)
        return tuple(scale for scale in here if scale not in upper or lower[scale] < upper[scale])

    def levels(self, scale: str) -> range:
        """Every level that the sign allows on the scale, from the mildest its picture shows."""
        sign = self.finding.sign
        return range(self.kb.best(sign, scale), self.kb.worst(sign, scale) + 1)

    def possible(self, scale: str) -> range:
        """The levels that the scale may still be at: as the sign allows, and within what was answered."""
        levels = self.levels(scale)
        return range(
            max(levels.start, self.finding.lower.get(scale, 0)), self.finding.upper.get(scale, levels.stop - 1) + 1
        )


def what_ifs(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> list[WhatIf]:
    """Other answers to each finding of a boat, in their order; the boat is judged once for all of them."""
    judgement = Judgement.of(kb, boat, findings)
    return [WhatIf(kb, boat, finding, findings, judgement) for finding in findings]
