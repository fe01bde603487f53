"""Turning what a person wrote into the words and levels of the knowledge, and asking back when it cannot be."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from triage.knowledge.model import KnowledgeBase, Measure, Scale
from triage.parsing.documents import Document, Path
from triage.parsing.quantities import NotAQuantity, UnknownUnit, in_unit, looks_measured, unit_names
from triage.parsing.text import did_you_mean, nearest, same
from triage.survey.model import Reading

COULD_NOT_TELL = "could not tell"
_NO_ANSWER = {COULD_NOT_TELL, "couldn't tell", "cannot tell", "can't tell", "not tried", "unknown", "don't know", "?"}

LONGEST_BOAT = 10_000.0
"""Millimetres. Longer than any boat this knowledge is about; used while the boat's own length is unknown."""


def none_given(said: str) -> bool:
    """Whether this says that nobody could tell."""
    return same(said) in {same(word) for word in _NO_ANSWER}


class Names:
    """Zones, signs or scales by their id, plain name and trade names."""

    def __init__(self, entries: Iterable[tuple[str, Iterable[str]]]) -> None:
        self.ids: dict[str, str] = {}
        self.spelt: dict[str, str] = {}
        for id_, names in entries:
            for name in (id_, *names):
                self.ids.setdefault(same(name), id_)
                self.spelt.setdefault(same(name), name.strip())

    def find(self, text: str) -> str | None:
        return self.ids.get(same(text))

    def hint(self, text: str) -> str:
        """The nearest known names, one for each thing that is called so."""
        first: dict[str, str] = {}
        for name in nearest(same(text), self.ids, at_most=5):
            first.setdefault(self.ids[name], self.spelt[name])
        told = list(first.values())[:3]
        return "Did you mean " + " or ".join(f'"{name}"' for name in told) + "?" if told else ""


def zone_names(kb: KnowledgeBase) -> Names:
    return Names((zone.id, (zone.name, *zone.trade.split(","))) for zone in kb.zones.values())


def sign_names(kb: KnowledgeBase) -> Names:
    return Names((sign.id, (sign.name,)) for sign in kb.signs.values())


def scale_names(kb: KnowledgeBase) -> Names:
    return Names((scale.id, (scale.name,)) for scale in kb.scales.values() if scale.observed)


class Answers:
    """Reads the answers of one survey; problems go to its document."""

    def __init__(self, kb: KnowledgeBase, document: Document) -> None:
        self.kb, self.document = kb, document
        self.zones, self.signs, self.scales = zone_names(kb), sign_names(kb), scale_names(kb)

    def ask(self, path: Path, what: str, hint: str = "") -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def word(self, path: Path, text: str, names: Names, what: str, otherwise: str = "") -> str | None:
        """The id of what is called so; None after asking back, with ``otherwise`` as advice when nothing is near."""
        found = names.find(text)
        if found is None:
            hint = names.hint(text) or otherwise or "Say it in another word, or take it out and put it in the note."
            self.ask(path, f'no {what} is called "{text}"', hint)
        return found

    def readings(
        self, path: Path, mark: tuple[str, str] | None, said: dict[str, int | float | str], longest: float
    ) -> Iterator[tuple[str, Reading]]:
        """The readings of a finding, by scale. ``longest`` (mm) is what no length on the boat can exceed.

        ``mark`` is its zone and sign; while these are not understood, each reading is looked at by itself.
        """
        seen: dict[str, str] = {}
        for key, answer in said.items():
            here = (*path, key)
            name = self.word(here, key, self.scales, "reading")
            if name is None:
                continue
            if name in seen:
                self.ask(here, f'"{key}" and "{seen[name]}" are the same reading', "Keep one of them.")
            seen[name] = key
            scale = self.kb.scales[name]
            if mark is not None and name not in self.kb.applicable(*mark):
                self.does_not_apply(here, *mark, scale)
                continue
            reading = self.reading(here, scale, answer, longest)
            if reading is not None and (mark is None or self.can_be(here, mark[1], scale, reading)):
                yield name, reading

    def does_not_apply(self, path: Path, zone: str, sign: str, scale: Scale) -> None:
        offered = [s for s in self.kb.offers[zone] if scale.id in self.kb.applicable(zone, s) and s != "nothing_seen"]
        closest = sorted(offered, key=lambda s: (scale.id not in self.kb.about(zone, s), list(self.kb.signs).index(s)))
        what = f"“{scale.name}” does not belong to “{self.kb.signs[sign].name}”"
        if closest:
            hint = f"Record it as a finding of its own here, as {' or '.join(closest[:3])}."
        else:
            hint = "It belongs to no sign at this place: take the line out, or record it at the place it belongs to."
        self.ask(path, what, hint)

    def reading(self, path: Path, scale: Scale, answer: int | float | str, longest: float) -> Reading | None:
        """One answer as a level; None after asking back."""
        said = str(answer).strip()
        if none_given(said):
            return Reading(None, COULD_NOT_TELL)
        names = {same(level.name): number for number, level in enumerate(scale.levels)}
        if same(said) in names:
            return Reading(names[same(said)], said)
        if re.fullmatch(r"\d{1,2}", said) and int(said) <= scale.top:
            return Reading(int(said), said)
        if looks_measured(said):
            return self.measured(path, scale, said, longest)
        self.ask(path, f'“{scale.name}” cannot be "{said}"', self.accepted(scale))
        return None

    def measured(self, path: Path, scale: Scale, said: str, longest: float) -> Reading | None:
        if scale.measure is None:
            self.ask(path, f"“{scale.name}” is not measured in figures", self.accepted(scale))
            return None
        try:
            value = in_unit(said, scale.measure.unit)
        except UnknownUnit as error:
            self.ask(path, str(error), did_you_mean(error.unit, unit_names()) or self.accepted(scale))
            return None
        except NotAQuantity as error:
            bare = re.fullmatch(r"[-−]?[\d.,]+", said)
            self.ask(path, f"{said} of what?" if bare else f"“{scale.name}”: {error}", self.accepted(scale))
            return None
        if doubt := self.doubt(scale.measure, value, longest):
            self.ask(path, f"“{scale.name}” {doubt}: {said}", "Measure again, or take the line out.")
            return None
        return Reading(scale.measure.level(value), said, value)

    def accepted(self, scale: Scale) -> str:
        """Every answer that the scale understands."""
        steps = "; ".join(f"{number} = {level.name}" for number, level in enumerate(scale.levels))
        measured = f", or a measurement in {scale.measure.unit}" if scale.measure else ""
        return f"Answer with {steps}{measured}, or: {COULD_NOT_TELL}."

    def can_be(self, path: Path, sign: str, scale: Scale, reading: Reading) -> bool:
        """Whether the reading is possible for this sign; what is not is asked about."""
        mark = self.kb.signs[sign]
        if reading.value == 0 and scale.id in mark.above_zero:
            what = f"“{mark.name}”, yet “{scale.name}” is nothing at all: {reading.said}"
            self.ask(path, what, "Measure again; if there is nothing, it is not this sign.")
            return False
        if reading.level is None:
            return True
        cap = mark.caps.get(scale.id)
        if cap is not None and reading.level > cap.level:
            other = self.kb.signs[cap.otherwise]
            what = f"“{mark.name}” with “{scale.name}” at “{scale.levels[reading.level].name}” would be another sign"
            hint = f"Look at {other.id} ({other.name}): {other.picture}"
            self.ask(path, what, hint)
            return False
        if reading.level < self.kb.best(mark.id, scale.id):
            level = scale.levels[reading.level].name
            what = f"“{mark.name}”, yet “{scale.name}” is “{level}”: these two cannot both be"
            told = " ".join(part for part in (mark.picture, mark.not_this) if part)
            self.ask(path, what, f"{told} If that is not what is there, it is another sign.")
            return False
        return True

    def doubt(self, measure: Measure, value: float, longest: float) -> str:
        """Why the value cannot be; empty if it can."""
        if value < 0:
            return "cannot be less than nothing"
        if measure.unit == "mm" and value > longest:
            return f"is longer than {'the boat' if longest < LONGEST_BOAT else 'any boat of this kind'}"
        if measure.most is not None and value > measure.most:
            return f"is more than can be believed ({measure.most:g} {measure.unit})"
        return ""
