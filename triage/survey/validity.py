"""What can be: the one set of tests that every survey passes, however it was made.

A survey may come from a file, a form, a conversation, another program or a generator of random boats. `doubts` tells
everything that cannot be, each with its path in the survey; `admit` is the same as a gate before inference.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.errors import BadSurvey, Place, Problem
from triage.knowledge.model import BUOYANCY, OTHER_SIDE, KnowledgeBase
from triage.parsing.documents import Path, path_text
from triage.parsing.text import did_you_mean
from triage.survey.doubt import Doubt, date_doubts, text_doubts
from triage.survey.event_doubts import event_doubts
from triage.survey.finding_doubts import LONGEST_BOAT, MAX_NOTE, FindingDoubts
from triage.survey.model import Boat, Finding, Survey
from triage.survey.names import cause_names, zone_names

SHORTEST, LONGEST = 2.0, 8.0
"""Metres. Outside these a boat is not the kind of small open dinghy that the knowledge is about."""

MAX_FINDINGS, MAX_NAME = 300, 200
"""Findings, and characters."""


def doubts(kb: KnowledgeBase, survey: Survey) -> Iterator[Doubt]:
    """Everything about the survey that cannot be, in reading order."""
    yield from _BoatDoubts(kb, survey.boat).doubts()
    yield from text_doubts(("visit", "by"), survey.by, MAX_NAME)
    yield from text_doubts(("visit", "note"), survey.note, MAX_NOTE, lines=True)
    yield from text_doubts(("visit", "asked"), survey.asked, MAX_NOTE, lines=True)
    yield from date_doubts(("visit", "on"), survey.seen_on)
    for cause, answer in survey.history.items():
        if cause not in kb.causation.causes:
            yield Doubt(("history", cause), *cause_names(kb).unknown(cause))
        if answer not in ("yes", "no", "unknown"):
            yield Doubt(("history", cause), f'{cause} cannot be "{answer}"', "Answer with yes, no or unknown.")
    yield from event_doubts(kb, survey)
    if len(survey.findings) > MAX_FINDINGS:
        what = f"{len(survey.findings)} findings are more than a survey holds (at most {MAX_FINDINGS})"
        yield Doubt(("findings",), what, "Make a second survey of the others.")
    longest = LONGEST_BOAT if survey.boat.length is None else survey.boat.length * 1000
    first: dict[str, int] = {}
    for number, finding in enumerate(survey.findings):
        here: Path = ("findings", number)
        if finding.id and first.setdefault(finding.id, number) != number:
            what = f'the id "{finding.id}" is already that of the finding'
            hint = "Give each its own, or take the line out."
            yield Doubt((*here, "id"), what, hint, ("findings", first[finding.id]))
        yield from FindingDoubts(kb, survey.boat, finding, here, longest).doubts()
        if finding.seen_on and survey.seen_on and finding.seen_on > survey.seen_on:
            what = f"seen on {finding.seen_on}, after the visit on {survey.seen_on}"
            yield Doubt((*here, "on"), what, "Check both dates.")


def doubts_of(kb: KnowledgeBase, boat: Boat, finding: Finding) -> Iterator[Doubt]:
    """Everything about one finding that cannot be on this boat."""
    yield from FindingDoubts(
        kb, boat, finding, (), LONGEST_BOAT if boat.length is None else boat.length * 1000
    ).doubts()


def admit(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> None:
    """Let pass what the rules can judge. Raises BadSurvey for words and levels that the knowledge does not have."""
    known = kb.fact_values
    if all(pair in known for pair in boat.facts.items()) and all(_judgeable(kb, finding) for finding in findings):
        return
    found = [*_BoatDoubts(kb, boat).doubts()]
    for number, finding in enumerate(findings):
        found += FindingDoubts(kb, boat, finding, ("findings", number), LONGEST_BOAT).words()
    raise BadSurvey(problem_of(doubt) for doubt in found)


def problem_of(doubt: Doubt, source: str = "the survey") -> Problem:
    """A doubt about a survey that stands in no file."""
    what = f"{doubt.what} at {path_text(doubt.beside)}" if doubt.beside else doubt.what
    return Problem(Place(f"{source}: {path_text(doubt.path)}"), what, doubt.hint)


def _judgeable(kb: KnowledgeBase, finding: Finding) -> bool:
    """Whether the rules can be asked about it at all: quick, because every engine asks it of every finding."""
    if finding.sign not in kb.offers.get(finding.zone, ()) or not (finding.side is None or finding.side in OTHER_SIDE):
        return False
    applicable, scales = kb.applicable(finding.zone, finding.sign), kb.scales
    return all(
        scale in applicable
        and (reading.low is None or 0 <= reading.low <= (reading.high or 0) <= len(scales[scale].levels) - 1)
        for scale, reading in finding.readings.items()
    )


class _BoatDoubts:
    """What can be said of a boat."""

    def __init__(self, kb: KnowledgeBase, boat: Boat) -> None:
        self.kb, self.boat = kb, boat

    def doubts(self) -> Iterator[Doubt]:
        boat = self.boat
        if not boat.name.strip():
            yield Doubt(("boat", "name"), "the boat has no name", "Give her one, if only “my boat”.")
        yield from text_doubts(("boat", "name"), boat.name, MAX_NAME)
        if boat.length is not None and not SHORTEST <= boat.length <= LONGEST:
            hint = f"This knowledge is about open sailing dinghies of {SHORTEST:g} to {LONGEST:g} m."
            yield Doubt(("boat", "length"), f"a boat of {boat.length:g} m?", hint)
        for key, value in boat.facts.items():
            yield from self.fact(key, value)
        for zone, value in boat.encloses_buoyancy.items():
            path: Path = ("boat", "encloses_buoyancy", zone)
            if zone not in self.kb.zones:
                yield Doubt(path, *zone_names(self.kb).unknown(zone))
            if value not in ("yes", "no"):
                yield Doubt(path, f'this cannot be "{value}"', "Answer with yes, no or could not tell.")
        for key, zone in boat.attempted:
            told = boat.encloses_buoyancy if key == BUOYANCY else boat.facts
            if (zone or key) in told:
                path = ("boat", key, zone) if zone else ("boat", "facts", key)
                yield Doubt(path, f'"{zone or key}" is answered twice', "Keep one of the answers.")

    def fact(self, key: str, value: str) -> Iterator[Doubt]:
        path: Path = ("boat", "facts", key)
        fact = self.kb.facts.get(key)
        if fact is None:
            yield Doubt(path, f'no boat fact is called "{key}"', did_you_mean(key, self.kb.facts))
        elif value not in fact.values:
            told = "; ".join(f"{name} = {meaning}" for name, meaning in fact.values.items())
            yield Doubt(path, f'{key} cannot be "{value}"', f"It can be {told}; or unknown.")
