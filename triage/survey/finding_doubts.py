"""What can be said of one finding: its place, its sign, its side, and what was read of it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from triage.knowledge.model import NOTHING_SEEN, SIDES, KnowledgeBase, Scale
from triage.parsing.documents import Path
from triage.survey.doubt import Doubt, date_doubts, text_doubts
from triage.survey.model import Boat, Finding, Reading
from triage.survey.names import scale_names, sign_names, zone_names
from triage.survey.readings import NotUnderstood, accepted, reading_of

LONGEST_BOAT = 10_000.0
"""Millimetres. Longer than any boat this knowledge is about; used while the boat's own length is unknown."""

MAX_PHOTOS, MAX_ID, MAX_NOTE = 50, 80, 5000
"""Photographs, and characters."""


class FindingDoubts:
    """What can be said of one finding. ``longest`` (mm) is what no length on the boat can exceed."""

    def __init__(self, kb: KnowledgeBase, boat: Boat, finding: Finding, here: Path, longest: float) -> None:
        self.kb, self.boat, self.finding, self.here, self.longest = kb, boat, finding, here, longest

    def doubts(self) -> Iterator[Doubt]:
        """All of them, in the order in which a finding is written."""
        finding = self.finding
        yield from self.words()
        yield from text_doubts((*self.here, "id"), finding.id, MAX_ID)
        yield from text_doubts((*self.here, "note"), finding.note, MAX_NOTE, lines=True)
        yield from date_doubts((*self.here, "on"), finding.seen_on)
        if len(finding.photos) > MAX_PHOTOS:
            yield Doubt((*self.here, "photos"), "these are too many", f"There may be {MAX_PHOTOS} at most.")
        for number, photo in enumerate(finding.photos):
            yield from text_doubts((*self.here, "photos", number), photo, MAX_NOTE)

    def words(self) -> Iterator[Doubt]:
        """Place, sign, side and levels: all that the rules read."""
        finding = self.finding
        yield from self.zone_and_sign()
        yield from self.place()
        for scale, reading in finding.readings.items():
            yield from self.reading((*self.here, "readings", scale), scale, reading)

    def zone_and_sign(self) -> Iterator[Doubt]:
        """A zone or a sign that there is not, or a sign that is not offered in its zone."""
        finding, kb = self.finding, self.kb
        offered = kb.offers.get(finding.zone)
        there = f"There it can be: {', '.join(offered)}." if offered else ""
        if offered is None:
            some = " or ".join(f"“{zone.name}”" for zone in list(kb.zones.values())[:2])
            hint = f"Name a part of the boat, such as {some}."
            yield Doubt((*self.here, "zone"), *zone_names(kb).unknown(finding.zone, hint))
        if finding.sign not in kb.signs:
            yield Doubt((*self.here, "sign"), *sign_names(kb).unknown(finding.sign, there))
        elif offered is not None and finding.sign not in offered:
            what = f"“{kb.signs[finding.sign].name}” is not a sign that is met at “{kb.zones[finding.zone].name}”"
            yield Doubt((*self.here, "sign"), what, there)

    def place(self) -> Iterator[Doubt]:
        """A place that this boat does not have, or a side of a part that is one."""
        zone, side, facts = self.kb.zones.get(self.finding.zone), self.finding.side, self.boat.facts
        if side is not None and side not in SIDES:
            yield Doubt((*self.here, "side"), f'"side" cannot be "{side}"', "It can be: port, starboard.")
        if zone is None:
            return
        if not self.boat.has(zone):
            missing = next(fact for fact, value in zone.only_if.items() if facts.get(fact, value) != value)
            what = f"a mark at “{zone.name}”, yet {missing} is “{facts[missing]}”: these two cannot both be"
            yield Doubt((*self.here, "zone"), what, "Mend the fact about the boat, or look where the mark is.")
        if side and not zone.sided:
            hint = "Take the line out, and say in the note where on it the mark is."
            yield Doubt((*self.here, "side"), f"“{zone.name}” is one part, not one on each side", hint)

    def reading(self, path: Path, name: str, reading: Reading) -> Iterator[Doubt]:
        """A scale that does not apply, or levels and quantities that do not fit it."""
        scale = self.kb.scales.get(name)
        offered = self.finding.sign in self.kb.offers.get(self.finding.zone, ())
        if scale is None or not scale.observed:
            yield Doubt(path, *scale_names(self.kb).unknown(name))
        elif offered and name not in self.kb.applicable(self.finding.zone, self.finding.sign):
            yield self.does_not_apply(path, scale)
        elif reading.low is None or reading.high is None:
            if reading.low is not reading.high:
                yield Doubt(path, f"“{scale.name}” has one end only", "Give both, or neither.")
        elif not 0 <= reading.low <= reading.high <= scale.top:
            steps = "; ".join(f"{number} = {level.name}" for number, level in enumerate(scale.levels))
            yield Doubt(path, f"“{scale.name}” has no level {reading.low} to {reading.high}", f"It has {steps}.")
        elif reading.measured and (doubt := self.measure(scale, reading.measured)):
            yield Doubt(path, f"“{scale.name}” {doubt}: {reading.said}", "Measure again, or take the line out.")
        elif not _means(scale, reading):
            yield Doubt(path, f'“{scale.name}”: "{reading.said}" does not mean that', accepted(scale))
        elif offered:
            yield from self.can_be(path, scale, reading, reading.low, reading.high)

    def does_not_apply(self, path: Path, scale: Scale) -> Doubt:
        """The reading belongs to another sign: which."""
        kb, zone = self.kb, self.finding.zone
        offered = [s for s in kb.offers[zone] if scale.id in kb.applicable(zone, s) and s != NOTHING_SEEN]
        closest = sorted(offered, key=lambda s: (scale.id not in kb.about(zone, s), list(kb.signs).index(s)))
        hint = "It belongs to no sign at this place: take the line out, or record it at the place it belongs to."
        if closest:
            hint = f"Record it as a finding of its own here, as {' or '.join(closest[:3])}."
        return Doubt(path, f"“{scale.name}” does not belong to “{kb.signs[self.finding.sign].name}”", hint)

    def measure(self, scale: Scale, measured: tuple[float, float]) -> str:
        """Why the quantity cannot be; empty if it can."""
        least, most = measured
        assert scale.measure is not None
        if math.isinf(most):
            most = least  # "at least 40 mm" says no more than that
        if least < 0:
            return "cannot be less than nothing"
        if scale.measure.unit == "mm" and most > self.longest:
            return f"is longer than {'the boat' if self.longest < LONGEST_BOAT else 'any boat of this kind'}"
        if scale.measure.most is not None and most > scale.measure.most:
            return f"is more than can be believed ({scale.measure.most:g} {scale.measure.unit})"
        return ""

    def can_be(self, path: Path, scale: Scale, reading: Reading, low: int, high: int) -> Iterator[Doubt]:
        """Whether the sign allows the levels; what it does not is another sign."""
        mark = self.kb.signs[self.finding.sign]
        cap = mark.caps.get(scale.id)
        if reading.measured and reading.measured[1] == 0 and scale.id in mark.above_zero:
            what = f"“{mark.name}”, yet “{scale.name}” is nothing at all: {reading.said}"
            yield Doubt(path, what, "Measure again; if there is nothing, it is not this sign.")
        elif cap is not None and high > cap.level:
            other = self.kb.signs[cap.otherwise]
            what = f"“{mark.name}” with “{scale.name}” at “{scale.levels[high].name}” would be another sign"
            yield Doubt(path, what, f"Look at {other.id} ({other.name}): {other.picture}")
        elif high < self.kb.best(mark.id, scale.id):
            what = f"“{mark.name}”, yet “{scale.name}” is “{scale.levels[low].name}”: these two cannot both be"
            told = " ".join(part for part in (mark.picture, mark.not_this) if part)
            yield Doubt(path, what, f"{told} If that is not what is there, it is another sign.")


def _means(scale: Scale, reading: Reading) -> bool:
    """Whether the words of the answer mean its levels, so that it can be written down and read again."""
    try:
        meant = reading_of(scale, reading.said)
    except NotUnderstood:
        return False
    return (meant.low, meant.high) == (reading.low, reading.high)
