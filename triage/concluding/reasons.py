"""Why a finding is judged as it is: from the trace of the engine to sentences."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from triage.conclusions.assessment import Conflict, Presumption, Step, Told, Turn
from triage.conclusions.ranges import basis_words, range_of
from triage.inference.evaluation import Evaluation, Firing, Fixpoint
from triage.inference.whatif import WhatIf
from triage.knowledge.model import NOTHING_SEEN, VERDICT, KnowledgeBase
from triage.survey.model import Finding


def told(kb: KnowledgeBase, finding: Finding) -> tuple[Told, ...]:
    """The readings as they were understood, in the order of the scales."""
    found = []
    for id_, scale in kb.scales.items():
        reading = finding.readings.get(id_)
        if reading is None:
            continue
        level = None if reading.high is None else scale.levels[reading.high]
        phrase = f"{scale.name}: could not tell" if level is None else level.phrase
        measured = "" if reading.measured is None else reading.said
        found.append(Told(id_, scale.name, level.name if level else None, phrase, measured))
    return tuple(found)


def _support(kb: KnowledgeBase, end: Fixpoint, scale: str, level: int) -> Iterator[Firing]:
    """The rules that brought the scale to this level, those they rest on first."""
    firing = _raiser(end, scale, level)
    for read, needed in firing.conjunct.levels:
        if not kb.scales[read].observed:
            yield from _support(kb, end, read, needed)
    yield firing


def _raiser(end: Fixpoint, scale: str, level: int) -> Firing:
    """The first rule that raised the scale to this level or beyond."""
    return next(f for f in end.firings if any(s == scale and to >= level for s, _, to in f.raised))


class Explanation:
    """The reasons for one finding."""

    def __init__(self, kb: KnowledgeBase, judged: Evaluation, whatif: WhatIf, places: Mapping[str, str]) -> None:
        """``places`` tells every finding of the boat by its place and mark, for rules that look elsewhere."""
        self.kb, self.judged, self.whatif, self.places = kb, judged, whatif, places
        self.finding = judged.finding

    def chain(self, end: Fixpoint, scale: str) -> tuple[Step, ...]:
        """The rules that brought a derived scale to its level at this end, from readings to conclusion."""
        level = end.level(scale)
        if level == 0:
            return ()
        firings = dict.fromkeys(_support(self.kb, end, scale, level))
        return tuple(self._step(end, firing) for firing in firings)

    def because(self, end: Fixpoint, scale: str) -> str:
        """The one reason that brought a derived scale to its level at this end; empty at level 0."""
        level = end.level(scale)
        return "" if level == 0 else _raiser(end, scale, level).rule.because

    def _step(self, end: Fixpoint, firing: Firing) -> Step:
        rests_on = []
        if firing.conjunct.signs is not None and self.finding.sign != NOTHING_SEEN:
            rests_on.append(f"the mark: {self.kb.signs[self.finding.sign].name}")
        for scale, _ in firing.conjunct.levels:
            if self.kb.scales[scale].observed:
                rests_on.append(self._phrase(scale, end.level(scale)) + self._how_known(scale, end.level(scale)))
        for word, _ in firing.conjunct.words:
            if word in self.kb.facts and word not in self.whatif.boat.facts:
                rests_on.append(f"{self.kb.facts[word].asks} (nobody has said)")
        concludes = [self.kb.scales[scale].levels[to].phrase for scale, _, to in firing.raised]
        return Step(
            rule=firing.rule.id,
            rests_on=tuple(rests_on),
            concludes=tuple(concludes),
            because=firing.rule.because,
            basis=basis_words(firing.rule.basis),
            elsewhere=tuple(self.places[id_] for id_ in firing.witnesses),
        )

    def _how_known(self, scale: str, level: int) -> str:
        if scale in self.finding.answered:
            return ""
        shown = level <= self.kb.best(self.finding.sign, scale)
        return " (the best that this mark allows)" if shown else " (nobody has checked)"

    def presumed(self) -> tuple[Presumption, ...]:
        """What was taken for granted."""
        return tuple(
            Presumption(
                rule=used.presumption.id,
                presumes=tuple(self._phrase(scale, level) for scale, level in used.levels),
                rests_on=tuple(self._phrase(s, self.finding.upper[s]) for s in self._answers_of(used.presumption)),
                because=used.presumption.because,
                basis=basis_words(used.presumption.basis),
            )
            for used in self.judged.presumed
        )

    def _answers_of(self, presumption: object) -> list[str]:
        rests_on: tuple[str, ...] = getattr(presumption, "rests_on", ())
        return [scale for scale in rests_on if scale in self.finding.answered]

    def pulls_apart(self) -> tuple[Conflict, ...]:
        """Answers that contradict each other in the light of a presumption."""
        found: dict[str, Conflict] = {}
        for defeated in self.judged.defeated:
            good = [self._phrase(s, self.finding.upper[s]) for s in self._answers_of(defeated.presumption)]
            bad = [self._phrase(scale, self.judged.lower.level(scale)) for scale in defeated.against]
            if good:
                says = f"Your answers pull apart: {_list(good)}, yet {_list(bad)}. Repeat both checks."
                found.setdefault(says, Conflict(defeated.presumption.id, says))
        return tuple(found.values())

    def _phrase(self, scale: str, level: int) -> str:
        return self.kb.scales[scale].levels[level].phrase

    def why_not_milder(self) -> tuple[str, ...]:
        """Which answers hold the verdict up; none when it is at its mildest."""
        verdict = self.judged.lower.level(VERDICT)
        if verdict == 0:
            return ()
        mildest = {scale: self.whatif.levels(scale)[0] for scale in self.finding.answered}
        needed = [s for s, n in mildest.items() if self.whatif.judged({s: n}).lower.level(VERDICT) < verdict]
        if needed:
            return tuple(f"It rests on this: {self._phrase(s, self.finding.upper[s])}." for s in needed)
        alone = WhatIf(self.kb, self.whatif.boat, self.finding, [self.finding])
        if alone.judged({}).lower.level(VERDICT) < verdict:
            return ("It rests on what was found elsewhere on the boat.",)
        if self.whatif.judged(mildest).lower.level(VERDICT) >= verdict:
            return ("The mark itself, at this place, is enough.",)
        return ("More than one answer holds it up, each enough by itself.",)

    def checked(self) -> tuple[str, ...]:
        """The good answers that keep the verdict from being graver than it is."""
        worst_now = self.judged.upper.level(VERDICT)
        found = []
        for scale, level in self.finding.upper.items():
            worst = self.whatif.levels(scale)[-1]
            if worst > level and self.whatif.judged({scale: worst}).lower.level(VERDICT) > worst_now:
                found.append(self._phrase(scale, level))
        return tuple(found)

    def would_change(self) -> tuple[Turn, ...]:
        """For each unanswered scale the mildest reading that would change a settled verdict."""
        now = self.judged.interval(VERDICT)
        found = []
        for scale in self.whatif.unanswered:
            for level in self.whatif.levels(scale):
                then = self.whatif.judged({scale: level})
                if then.interval(VERDICT) != now:
                    found.append(Turn(scale, self._phrase(scale, level), range_of(self.kb, then, VERDICT)))
                    break
        return tuple(found)


def _list(phrases: list[str]) -> str:
    return phrases[0] if len(phrases) == 1 else ", ".join(phrases[:-1]) + " and " + phrases[-1]
