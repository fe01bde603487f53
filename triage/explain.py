"""Why a finding is judged as it is: from the trace of the engine to sentences."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from triage.assessment import Contradiction, Presumption, Range, Step, Told, Turn
from triage.inference.outcome import End, Firing, Judged
from triage.inference.whatif import WhatIf
from triage.knowledge.model import AFLOAT, NOTHING_SEEN, TOW, VERDICT, Basis, KnowledgeBase
from triage.survey.model import Finding


def range_of(kb: KnowledgeBase, judged: Judged, scale: str) -> Range:
    """Both ends of a derived scale, by name."""
    best, worst = judged.range(scale)
    return Range(kb.level_name(scale, best), kb.level_name(scale, worst), best == worst)


def basis_words(basis: Basis) -> str:
    return f"published: {basis.source}, {basis.where}" if basis.kind == "published" else basis.kind


def place_of(kb: KnowledgeBase, finding: Finding) -> str:
    """The place in plain words, with its side."""
    name = kb.zones[finding.zone].name
    return f"{name}, {finding.side}" if finding.side else name


def told(kb: KnowledgeBase, finding: Finding) -> tuple[Told, ...]:
    """The readings as they were understood, in the order of the scales."""
    found = []
    for id_, scale in kb.scales.items():
        reading = finding.readings.get(id_)
        if reading is None:
            continue
        level = None if reading.level is None else scale.levels[reading.level]
        phrase = f"{scale.name}: could not tell" if level is None else level.phrase
        measured = "" if reading.value is None else reading.said
        found.append(Told(id_, scale.name, level.name if level else None, phrase, measured))
    return tuple(found)


def _support(kb: KnowledgeBase, end: End, scale: str, level: int) -> Iterator[Firing]:
    """The rules that brought the scale to this level, those they rest on first."""
    firing = _raiser(end, scale, level)
    for read, needed in firing.clause.levels:
        if not kb.scales[read].observed:
            yield from _support(kb, end, read, needed)
    yield firing


def _raiser(end: End, scale: str, level: int) -> Firing:
    """The first rule that raised the scale to this level or beyond."""
    return next(f for f in end.firings if any(s == scale and to >= level for s, _, to in f.raised))


class Explanation:
    """The reasons for one finding."""

    def __init__(self, kb: KnowledgeBase, judged: Judged, whatif: WhatIf, places: Mapping[str, str]) -> None:
        """``places`` tells every finding of the boat by its place and mark, for rules that look elsewhere."""
        self.kb, self.judged, self.whatif, self.places = kb, judged, whatif, places
        self.finding = judged.finding

    def chain(self, end: End, scale: str) -> tuple[Step, ...]:
        """The rules that brought a derived scale to its level at this end, from readings to conclusion."""
        level = end.level(scale)
        if level == 0:
            return ()
        firings = dict.fromkeys(_support(self.kb, end, scale, level))
        return tuple(self._step(end, firing) for firing in firings)

    def because(self, end: End, scale: str) -> str:
        """The one reason that brought a derived scale to its level at this end; empty at level 0."""
        level = end.level(scale)
        return "" if level == 0 else _raiser(end, scale, level).rule.because

    def _step(self, end: End, firing: Firing) -> Step:
        rests_on = []
        if firing.clause.signs is not None and self.finding.sign != NOTHING_SEEN:
            rests_on.append(f"the mark: {self.kb.signs[self.finding.sign].name}")
        for scale, _ in firing.clause.levels:
            if self.kb.scales[scale].observed:
                rests_on.append(self._phrase(scale, end.level(scale)) + self._how_known(scale, end.level(scale)))
        for word, _ in firing.clause.words:
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
                rests_on=tuple(self._phrase(s, self.finding.answered[s]) for s in self._answers_of(used.presumption)),
                because=used.presumption.because,
                basis=basis_words(used.presumption.basis),
            )
            for used in self.judged.presumed
        )

    def _answers_of(self, presumption: object) -> list[str]:
        rests_on: tuple[str, ...] = getattr(presumption, "rests_on", ())
        return [scale for scale in rests_on if scale in self.finding.answered]

    def pulls_apart(self) -> tuple[Contradiction, ...]:
        """Answers that contradict each other in the light of a presumption."""
        found: dict[str, Contradiction] = {}
        for withdrawn in self.judged.withdrawn:
            good = [self._phrase(s, self.finding.answered[s]) for s in self._answers_of(withdrawn.presumption)]
            bad = [self._phrase(scale, self.judged.floor.level(scale)) for scale in withdrawn.against]
            if good:
                says = f"Your answers pull apart: {_list(good)}, yet {_list(bad)}. Repeat both checks."
                found.setdefault(says, Contradiction(withdrawn.presumption.id, says))
        return tuple(found.values())

    def _phrase(self, scale: str, level: int) -> str:
        return self.kb.scales[scale].levels[level].phrase

    def why_not_milder(self) -> tuple[str, ...]:
        """Which answers hold the verdict up; none when it is at its mildest."""
        verdict = self.judged.floor.level(VERDICT)
        if verdict == 0:
            return ()
        mildest = {scale: self.whatif.levels(scale)[0] for scale in self.finding.answered}
        needed = [s for s, n in mildest.items() if self.whatif.judged({s: n}).floor.level(VERDICT) < verdict]
        if needed:
            return tuple(f"It rests on this: {self._phrase(s, self.finding.answered[s])}." for s in needed)
        alone = WhatIf(self.kb, self.whatif.boat, self.finding, [self.finding])
        if alone.judged({}).floor.level(VERDICT) < verdict:
            return ("It rests on what was found elsewhere on the boat.",)
        if self.whatif.judged(mildest).floor.level(VERDICT) >= verdict:
            return ("The mark itself, at this place, is enough.",)
        return ("More than one answer holds it up, each enough by itself.",)

    def checked(self) -> tuple[str, ...]:
        """The good answers that keep the verdict from being graver than it is."""
        worst_now = self.judged.ceiling.level(VERDICT)
        found = []
        for scale, level in self.finding.answered.items():
            worst = self.whatif.levels(scale)[-1]
            if worst > level and self.whatif.judged({scale: worst}).floor.level(VERDICT) > worst_now:
                found.append(self._phrase(scale, level))
        return tuple(found)

    def would_change(self) -> tuple[Turn, ...]:
        """For each unanswered scale the mildest reading that would change a settled verdict."""
        now = self.judged.range(VERDICT)
        found = []
        for scale in self.whatif.unanswered:
            for level in self.whatif.levels(scale):
                then = self.whatif.judged({scale: level})
                if then.range(VERDICT) != now:
                    found.append(Turn(scale, self._phrase(scale, level), range_of(self.kb, then, VERDICT)))
                    break
        return tuple(found)


def outcome(judged: Judged) -> tuple[tuple[int, int], ...]:
    """Both ends of verdict, afloat and tow: what a check can change for the person with the boat."""
    return tuple(judged.range(scale) for scale in (VERDICT, AFLOAT, TOW))


def is_open(judged: Judged) -> bool:
    """Whether verdict, afloat or tow is not settled."""
    return any(best != worst for best, worst in outcome(judged))


def _list(phrases: list[str]) -> str:
    return phrases[0] if len(phrases) == 1 else ", ".join(phrases[:-1]) + " and " + phrases[-1]
