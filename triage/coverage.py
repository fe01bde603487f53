"""What was looked at on a boat: the one account of it, place by place, side by side, check by check.

A part that was looked at without a mark is *passed* only when a whole way of passing it was tried and left nothing
open; a look without a reading clears nothing. Where neither a mark nor a suspicion is, a shorter way may pass it too,
but that clears nothing else. Suspicions, the evidence on causes, the plan, the list of what nobody
looked at and the answer for the whole boat ask here, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from typing import Literal

from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import NOTHING_SEEN, SIDES, VERDICT, KnowledgeBase, Zone
from triage.survey.model import Finding, Survey

PlaceStatus = Literal["not looked at", "partly", "nothing found", "passed", "marked"]
"""Partly: on one of its two sides only. Nothing found: looked at, not tried. Marked: something was found there."""

CheckStatus = Literal["not made", "partly", "attempted", "answered"]
"""Partly: some of what it reads there is still unanswered. Attempted: tried, and nobody could tell."""

ONE = ""
"""The side of a part that is one."""


class Coverage:
    """What the findings of one survey say of where somebody looked, and what was tried there."""

    def __init__(self, kb: KnowledgeBase, survey: Survey, evaluations: Sequence[Evaluation]) -> None:
        """``evaluations`` are the marks of the survey as they were judged."""
        self.kb, self.survey, self.evaluations = kb, survey, evaluations

    def sides(self, zone: str) -> tuple[str, ...]:
        """The sides of the place; `ONE` alone for a part that is one."""
        return SIDES if self.kb.zones[zone].sided else (ONE,)

    def place(self, zone: str, side: str | None = None) -> PlaceStatus:
        """How the place stands on this side, or altogether."""
        if side is None:
            each = [self.place(zone, one) for one in self.sides(zone)]
            if "not looked at" in each and len(set(each)) > 1:
                return "partly"
            return next(status for status in ("marked", "not looked at", "nothing found", "passed") if status in each)
        here = [finding for finding in self._by_zone.get(zone, ()) if finding.side in (None, side) or side == ONE]
        if not here:
            return "not looked at"
        if any(not finding.is_look for finding in here):
            return "marked"  # on an unknown side: somebody has looked there, and may have meant this one
        return "passed" if self.passed(zone, side) else "nothing found"

    def passed(self, zone: str, side: str) -> bool:
        """Whether the part was looked at there without a mark, tried in one whole way, and nothing is left open."""
        return any(finding.id in self._passed for finding in self._at(zone, side))

    def passes(self, look: Finding) -> bool:
        """Whether this look passes its part, whatever is suspected there."""
        return look.id in self._passed

    def passes_alone(self, look: Finding) -> bool:
        """Whether it does where nothing is suspected: by a shorter way too, unless a mark is there."""
        if self.passes(look):
            return True
        facts = self.survey.boat.facts
        marked = any(self.place(look.zone, side) == "marked" for side in self._sides_of(look))
        return not marked and any(
            look.answered >= set(way.by) and all(facts.get(fact) == value for fact, value in way.where.items())
            for way in self.kb.zones[look.zone].passed_alone
        )

    @cached_property
    def _passed(self) -> frozenset[str]:
        return frozenset(look.id for look in self.survey.looks if self._tried(look))

    def _tried(self, look: Finding) -> bool:
        """One whole way was tried, and what it leaves unanswered could raise nothing."""
        if not any(look.answered >= set(way) for way in self.kb.zones[look.zone].passed_by):
            return False
        (judged,) = evaluate(self.kb, self.survey.boat, [look])
        return judged.interval(VERDICT) == (0, 0)

    def _sides_of(self, look: Finding) -> tuple[str, ...]:
        return (look.side,) if look.side in self.sides(look.zone) else self.sides(look.zone)

    def check(self, zone: str, check: str, side: str) -> CheckStatus:
        """How far the check was made there: of what it reads, all that the findings there can answer."""
        here = list(self._at(zone, side))
        applicable = {scale for finding in here for scale in self.kb.applicable(zone, finding.sign)}
        return self._status(here, applicable.intersection(self.kb.checks[check].reads))

    def reading(self, zone: str, scale: str, side: str) -> CheckStatus:
        """Whether the scale was answered there."""
        return self._status(list(self._at(zone, side)), {scale})

    def found(self, zone: str, sign: str, side: str) -> bool:
        """Whether the sign was recorded there; on an unknown side it may be on this one."""
        return any(
            finding.zone == zone and finding.sign == sign and (finding.side in (None, side) or side == ONE)
            for finding in self.survey.findings
        )

    def tells(self, zone: str, sign: str) -> tuple[str, ...]:
        """The scales by which somebody looks there for the sign: those it is about, else a way of passing the part."""
        return self.kb.about(zone, sign) or self.kb.zones[zone].passed_by[0]

    def looked_for(self, zone: str, sign: str, side: str) -> bool:
        """Whether somebody looked there for the sign: found it, answered all that tells of it, or passed the part."""
        return (
            self.found(zone, sign, side)
            or self.passed(zone, side)
            or all(self.reading(zone, scale, side) == "answered" for scale in self.tells(zone, sign))
        )

    def absent(self, zone: str, sign: str) -> bool:
        """Whether somebody looked there for the sign on every side, and it was on none."""
        return all(self._absent(zone, sign, side) for side in self.sides(zone))

    def _absent(self, zone: str, sign: str, side: str) -> bool:
        if self.found(zone, sign, side):
            return False
        mild = {scale for finding in self._at(zone, side) for scale, level in finding.upper.items() if level == 0}
        worse = {scale for finding in self._at(zone, side) for scale, level in finding.upper.items() if level > 0}
        return self.passed(zone, side) or set(self.tells(zone, sign)) <= mild - worse

    def unlooked(self, zone: str, sign: str, sides: Iterable[str]) -> tuple[str, ...]:
        """Those of these sides on which nobody has looked for the sign."""
        wanted = set(sides)
        return tuple(
            side
            for side in self.sides(zone)
            if (side in wanted or side == ONE) and not self.looked_for(zone, sign, side)
        )

    def not_looked_at(self) -> Iterator[tuple[Zone, tuple[str, ...]]]:
        """The places she has at which nobody looked, with the sides on which that is so, in walk order."""
        for zone in self.kb.zones.values():
            sides = tuple(side for side in self.sides(zone.id) if self.place(zone.id, side) == "not looked at")
            if sides and self.survey.boat.has(zone):
                yield zone, sides

    def _at(self, zone: str, side: str) -> Iterator[Finding]:
        """The findings there. A part passed as a whole counts on both its sides, a mark on an unknown side on none."""
        for finding in self._by_zone.get(zone, ()):
            whole = finding.side is None and finding.sign == NOTHING_SEEN
            if side == ONE or whole or finding.side == side:
                yield finding

    @cached_property
    def _by_zone(self) -> dict[str, list[Finding]]:
        found: dict[str, list[Finding]] = {}
        for finding in self.survey.findings:
            found.setdefault(finding.zone, []).append(finding)
        return found

    @staticmethod
    def _status(here: Sequence[Finding], scales: set[str]) -> CheckStatus:
        answered = scales.intersection(scale for finding in here for scale in finding.answered)
        attempted = scales.intersection(scale for finding in here for scale in finding.readings) - answered
        if not answered:
            return "attempted" if attempted else "not made"
        return "answered" if answered == scales else "partly"
