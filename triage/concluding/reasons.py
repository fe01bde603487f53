"""Why a finding is judged as it is: from the trace of the engine to reasons as data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.conclusions.ranges import answered, estimated, not_looked_at, range_of, reached, reported, supposed
from triage.conclusions.reasons import Conflict, Counterfactual, HeldUp, Known, Premise, PresumptionUsed, Step
from triage.conclusions.values import EstimatedScale, Reached, ReportedReading
from triage.inference.evaluation import Evaluation, Firing, Fixpoint
from triage.inference.whatif import WhatIf
from triage.knowledge.model import NOTHING_SEEN, VERDICT, KnowledgeBase, Presumption


def raiser(end: Fixpoint, scale: str, level: int) -> Firing:
    """The first rule that raised the scale to this level or beyond."""
    return next(f for f in end.firings if any(s == scale and to >= level for s, _, to in f.raised))


def _support(kb: KnowledgeBase, end: Fixpoint, scale: str, level: int) -> Iterator[Firing]:
    """The rules that brought the scale to this level, those they rest on first."""
    firing = raiser(end, scale, level)
    for read, needed in firing.conjunct.levels:
        if not kb.scales[read].observed:
            yield from _support(kb, end, read, needed)
    yield firing


class Explanation:
    """The reasons for one finding."""

    def __init__(self, kb: KnowledgeBase, judged: Evaluation, whatif: WhatIf) -> None:
        self.kb, self.judged, self.whatif = kb, judged, whatif
        self.finding = judged.finding

    def chain(self, end: Fixpoint, scale: str) -> tuple[Step, ...]:
        """The rules that brought a derived scale to its level at this end, from readings to conclusion."""
        level = end.level(scale)
        if level == 0:
            return ()
        firings = dict.fromkeys(_support(self.kb, end, scale, level))
        return tuple(self._step(end, firing) for firing in firings)

    def because(self, end: Fixpoint, scale: str) -> tuple[str, str]:
        """The rule that brought a derived scale to its level at this end, and its reason; empty at level 0."""
        level = end.level(scale)
        if level == 0:
            return "", ""
        rule = raiser(end, scale, level).rule
        return rule.id, rule.because

    def _step(self, end: Fixpoint, firing: Firing) -> Step:
        return Step(
            rule=firing.rule.id,
            rests_on=tuple(self._premises(end, firing)),
            concludes=tuple(reached(self.kb, scale, to) for scale, _, to in firing.raised),
            because=firing.rule.because,
            basis=firing.rule.basis,
            elsewhere=firing.witnesses,
        )

    def _premises(self, end: Fixpoint, firing: Firing) -> Iterator[Premise]:
        sign = self.kb.signs[self.finding.sign]
        if firing.conjunct.signs is not None and sign.id != NOTHING_SEEN:
            yield Premise("mark", sign.id, None, sign.name, "answered")
        for scale, _ in firing.conjunct.levels:
            if self.kb.scales[scale].observed:
                level = end.level(scale)
                yield Premise("level", scale, level, self._words(scale, level), self._known(scale, level))
        for fact, _ in firing.conjunct.words:
            if fact in self.kb.facts and fact not in self.whatif.boat.facts:
                yield Premise("fact", fact, None, self.kb.facts[fact].asks, "unsaid")

    def _known(self, scale: str, level: int) -> Known:
        if scale in self.finding.answered:
            return "answered"
        return "shown by the mark" if level <= self.kb.best(self.finding.sign, scale) else "unchecked"

    def presumed(self) -> tuple[PresumptionUsed, ...]:
        """What was taken for granted."""
        return tuple(
            PresumptionUsed(
                rule=used.presumption.id,
                presumes=tuple(not_looked_at(self.kb, scale, level) for scale, level in used.levels),
                rests_on=self._answers_of(used.presumption),
                because=used.presumption.because,
                basis=used.presumption.basis,
            )
            for used in self.judged.presumed
        )

    def _answers_of(self, presumption: Presumption) -> tuple[Reached, ...]:
        return tuple(self._answer(scale) for scale in presumption.rests_on if scale in self.finding.answered)

    def _answer(self, scale: str) -> Reached:
        return answered(self.kb, self.finding, scale)

    def pulls_apart(self) -> tuple[Conflict, ...]:
        """Answers that contradict each other in the light of a presumption."""
        found: dict[tuple[object, object], Conflict] = {}
        for defeated in self.judged.defeated:
            good = self._answers_of(defeated.presumption)
            bad = tuple(self._worst_known(scale) for scale in defeated.against)
            if good:
                found.setdefault((good, bad), Conflict(defeated.presumption.id, good, bad))
        return tuple(found.values())

    def _worst_known(self, scale: str) -> Reached:
        shown = self.judged.lower.level(scale)
        if shown <= self.finding.upper.get(scale, -1):
            return self._answer(scale)
        return not_looked_at(self.kb, scale, shown)

    def _words(self, scale: str, level: int) -> str:
        if scale in self.finding.answered:
            return self._answer(scale).phrase
        return self.kb.scales[scale].named(level)

    def held_up(self) -> HeldUp:
        """Which answers hold the verdict up."""
        verdict = self.judged.lower.level(VERDICT)
        if verdict == 0:
            return HeldUp("nothing")
        mildest = {scale: self.whatif.levels(scale)[0] for scale in self.finding.answered}
        needed = [s for s, n in mildest.items() if self.whatif.judged({s: n}).lower.level(VERDICT) < verdict]
        if needed:
            return HeldUp("answers", tuple(self._answer(scale) for scale in needed))
        alone = WhatIf(self.kb, self.whatif.boat, self.finding, [self.finding])
        if alone.judged({}).lower.level(VERDICT) < verdict:
            return HeldUp("elsewhere")
        if self.whatif.judged(mildest).lower.level(VERDICT) >= verdict:
            return HeldUp("mark")
        return HeldUp("several")

    def checked(self) -> tuple[ReportedReading, ...]:
        """The good answers that keep the verdict from being graver than it is."""
        worst_now = self.judged.upper.level(VERDICT)
        found = []
        for reading in reported(self.kb, self.finding):
            worst = self.whatif.levels(reading.scale)[-1]
            if reading.high is None or worst <= reading.high:
                continue
            if self.whatif.judged({reading.scale: worst}).lower.level(VERDICT) > worst_now:
                found.append(reading)
        return tuple(found)

    def estimated(self, checked: Sequence[ReportedReading]) -> tuple[EstimatedScale, ...]:
        """The scales with limits of our own on which a settled verdict rests: by an answer that a rule or a presumption
        hears, or by a good one without which it would be graver (``checked``).
        """
        heard = {one.id for step in self.chain(self.judged.lower, VERDICT) for one in step.rests_on}
        granted = {scale for used in self.judged.presumed for scale in used.presumption.rests_on}
        good = {reading.scale for reading in checked}
        return estimated(self.kb, (heard | granted | good) & self.finding.answered)

    def would_change(self) -> tuple[Counterfactual, ...]:
        """For each unanswered scale the mildest reading that would change a settled verdict."""
        now = self.judged.interval(VERDICT)
        found = []
        for scale in self.whatif.unanswered:
            for level in self.whatif.possible(scale):
                then = self.whatif.judged({scale: level})
                if then.interval(VERDICT) != now:
                    found.append(
                        Counterfactual(scale, supposed(self.kb, scale, level), range_of(self.kb, then, VERDICT))
                    )
                    break
        return tuple(found)
