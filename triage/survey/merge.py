"""Two people who began with the same survey: what both found, mark by mark and answer by answer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from triage.knowledge.model import BUOYANCY
from triage.survey.model import COULD_NOT_TELL, Boat, Finding, Happened, Survey

K = TypeVar("K")


@dataclass(frozen=True)
class Clash:
    """Both said something else: about ``ask``, a scale, a fact or another word of a survey, at the mark ``mark``.

    ``kept`` is what the survey says now and ``other`` what it does not; empty for an answer or a mark taken out.
    """

    mark: str
    ask: str
    kept: str
    other: str


def merge(base: Survey, mine: Survey, theirs: Survey) -> tuple[Survey, tuple[Clash, ...]]:
    """What both made of ``base``, and where they clash. Mine is the newer and stands; what only one took out stays
    where the other changed it. Where the conversation was left is mine.
    """
    clashes: list[Clash] = []
    visit = _both(_visit(base), _visit(mine), _visit(theirs), "", clashes)
    history = _both(base.history, mine.history, theirs.history, "", clashes)
    boat = _boat(base.boat, mine.boat, theirs.boat, clashes)
    findings = _findings(base, mine, theirs, clashes)
    events = _both(_events(base), _events(mine), _events(theirs), "", clashes)
    told = {"seen_on": None, "by": "", "note": "", "asked": "", **visit}
    both = replace(mine, boat=boat, findings=findings, history=history, events=tuple(events.values()), **told)
    return both, tuple(clashes)


def _visit(survey: Survey) -> dict[str, Any]:
    return {"seen_on": survey.seen_on, "by": survey.by, "note": survey.note, "asked": survey.asked}


def _events(survey: Survey) -> dict[str, Happened]:
    return {told.event: told for told in survey.events}


def _both(
    base: Mapping[K, Any], mine: Mapping[K, Any], theirs: Mapping[K, Any], mark: str, clashes: list[Clash]
) -> dict[K, Any]:
    """Three-way, word by word. A word that is not there was taken out, or never said."""
    found = {}
    for word in dict.fromkeys((*mine, *theirs)):
        was, my, their = base.get(word), mine.get(word), theirs.get(word)
        kept = their if my == was else my
        if my not in (was, their) and their != was:
            kept = their if my is None else my
            clashes.append(Clash(mark, _name(word), _told(kept), _told(my if my is None else their)))
        if kept is not None:
            found[word] = kept
    return found


def _name(word: object) -> str:
    return str(word[0] if isinstance(word, tuple) else word)


def _told(value: object) -> str:
    if isinstance(value, Happened):
        words = (value.force, value.when, str(value.on or ""), value.side or "")
        return ", ".join(word for word in words if word) or "told"
    return "" if value is None else str(getattr(value, "said", value))


def _boat(base: Boat, mine: Boat, theirs: Boat, clashes: list[Clash]) -> Boat:
    facts = _both(_answers(base), _answers(mine), _answers(theirs), "", clashes)
    boat = Boat(facts.pop(("name", "")), length=facts.pop(("length", ""), None))
    for (fact, zone), value in facts.items():
        boat = boat.knowing(fact, None if value == COULD_NOT_TELL else value, zone)
    return boat


def _answers(boat: Boat) -> dict[tuple[str, str], Any]:
    """Everything said of a boat, what was tried in vain included, by fact and place."""
    return {
        ("name", ""): boat.name,
        ("length", ""): boat.length,
        **{(fact, ""): value for fact, value in boat.facts.items()},
        **{(BUOYANCY, zone): value for zone, value in boat.encloses_buoyancy.items()},
        **dict.fromkeys(sorted(boat.attempted), COULD_NOT_TELL),
    }


def _findings(base: Survey, mine: Survey, theirs: Survey, clashes: list[Clash]) -> tuple[Finding, ...]:
    was, my, their = ({one.id: one for one in survey.findings} for survey in (base, mine, theirs))
    found: list[Finding] = []
    for mark in dict.fromkeys((*my, *their)):
        one, other, before = my.get(mark), their.get(mark), was.get(mark)
        if one is None or other is None:
            left = one or other
            assert left is not None
            if left != before:
                found.append(left)
                if before is not None:
                    clashes.append(Clash(mark, "", left.sign, ""))
        elif _seat(one) == _seat(other):
            found.append(_finding(before, one, other, clashes))
        elif before in (one, other):  # one of them says that it is another mark, or elsewhere
            found.append(other if one == before else one)
        else:
            found += [other, replace(one, id=_free(mark, my.keys() | their.keys()))]
    return tuple(found)


def _seat(finding: Finding) -> dict[str, Any]:
    return {"zone": finding.zone, "sign": finding.sign, "side": finding.side}


def _free(mark: str, taken: set[str]) -> str:
    number = 2
    while f"{mark}.{number}" in taken:
        number += 1
    return f"{mark}.{number}"


def _finding(before: Finding | None, one: Finding, other: Finding, clashes: list[Clash]) -> Finding:
    readings = _both(before.readings if before else {}, one.readings, other.readings, one.id, clashes)
    words = _both(_words(before) if before else {}, _words(one), _words(other), one.id, clashes)
    return replace(
        one,
        readings=readings,
        note=words.get("note", ""),
        photos=words.get("photos", ()),
        seen_on=words.get("seen_on"),
    )


def _words(finding: Finding) -> dict[str, Any]:
    told = {"note": finding.note, "photos": finding.photos, "seen_on": finding.seen_on}
    return {word: value for word, value in told.items() if value}
