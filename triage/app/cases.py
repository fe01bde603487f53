"""A case as a screen shows it: the mark with its scale, where it is, the story, and checks to be pressed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from triage.drawing.boat.draw import draw_place_alone
from triage.drawing.checks import Scene, draw_check
from triage.drawing.marks import draw_mark, drawn_again
from triage.drawing.svg import drawn
from triage.knowledge.model import KnowledgeBase
from triage.phrases import learning, pictures
from triage.phrases.words import uncapital
from triage.survey.model import Finding
from triage.teaching.cases import Case
from triage.teaching.cheapest import Tried
from triage.teaching.run import State, checks_left, choice_id


@dataclass(frozen=True)
class ShownMark:
    """A mark as it looks, without its name; ``again`` is its picture where it already stands on the page."""

    says: str
    note: str
    picture: Markup
    again: Markup


@dataclass(frozen=True)
class ShownCase:
    """What a learner sees of a case. ``place`` is where the mark to judge is; ``photos`` names what was taken of it."""

    boat: str
    story: str
    note: str
    mark: ShownMark
    place: Markup
    others: Sequence[ShownMark]
    photos: Sequence[str] = ()


@dataclass(frozen=True)
class CheckToMake:
    """A check that may be made at a mark: the hand that makes it, what it tells of, and what it costs."""

    id: str
    name: str
    reads: str
    costs: str
    place: str
    scene: Markup


@dataclass(frozen=True)
class CheckMade:
    """A check that was made, and what it told."""

    name: str
    place: str
    told: Sequence[str]
    scenes: Sequence[Scene]


def shown_case(kb: KnowledgeBase, case: Case, photos: Sequence[str] = ()) -> ShownCase:
    """The case as a learner sees it first. Her picture has no markers: they would tell how grave a mark may be."""
    boat, zone = case.shown.boat, kb.zones[case.mark.zone]
    marks = {finding.id: _mark(kb, finding, case.looks_like(finding)) for finding in case.shown.findings}
    has = [one.id for one in kb.zones.values() if boat.has(one)]
    return ShownCase(
        learning.boat_in_words(kb, boat),
        learning.story(kb, case.shown.events) if case.shown.events or not case.shown.note else "",
        case.shown.note,
        marks.pop(case.focus),
        draw_place_alone(has, zone.id, pictures.where(zone.name), "where"),
        list(marks.values()),
        photos,
    )


def _mark(kb: KnowledgeBase, finding: Finding, looks_like: str) -> ShownMark:
    says = learning.mark_in_words(kb, finding, looks_like)
    if finding.sign not in drawn("marks"):
        return ShownMark(says, finding.note, Markup(), Markup())
    return ShownMark(says, finding.note, _nameless(finding, says), drawn_again("drawn", says, name=finding.id))


def _nameless(finding: Finding, says: str) -> Markup:
    """The drawing of the mark, under ids that do not tell what it is called."""
    svg = draw_mark(finding.sign, says, name=finding.id).svg
    return Markup(str(svg).replace(f"{finding.id}-{finding.sign}", f"{finding.id}-drawn"))


def checks_to_make(kb: KnowledgeBase, state: State) -> list[CheckToMake]:
    """The checks that would still tell something, those at the mark to judge first."""
    return [_to_make(kb, state, one) for one in checks_left(kb, state)]


def _to_make(kb: KnowledgeBase, state: State, tried: Tried) -> CheckToMake:
    scenes = draw_check(tried.check.id, f"make-{tried.finding}")
    return CheckToMake(
        choice_id(tried),
        tried.check.name,
        learning.reads([kb.scales[scale] for scale in tried.scales]),
        learning.costs(tried.check),
        _elsewhere(kb, state, tried),
        scenes[0].svg if scenes else Markup(),
    )


def checks_made(kb: KnowledgeBase, state: State) -> Iterator[CheckMade]:
    """The checks that were made, each with what it told that none had told before."""
    known = set[tuple[str, str]]()
    for tried in state.made:
        new = [(tried.finding, scale) for scale in tried.scales if (tried.finding, scale) in state.found]
        told = [learning.told(kb, scale, state.found[one, scale]) for one, scale in new if (one, scale) not in known]
        known.update(new)
        scenes = draw_check(tried.check.id, f"made-{tried.finding}")
        yield CheckMade(tried.check.name, _elsewhere(kb, state, tried), told, scenes)


def way_drawn(kb: KnowledgeBase, state: State) -> list[tuple[str, str, Markup]]:
    """The cheapest way: each check by its name and place, what it costs, and its hand."""
    told = []
    for tried in state.key.way or ():
        place, scenes = _elsewhere(kb, state, tried), draw_check(tried.check.id, f"way-{tried.finding}")
        name = f"{tried.check.name}, {place}" if place else tried.check.name
        told.append((name, learning.costs(tried.check), scenes[0].svg if scenes else Markup()))
    return told


def _elsewhere(kb: KnowledgeBase, state: State, tried: Tried) -> str:
    """Where a check is made, when it is not at the mark to judge."""
    zone = state.case.finding(tried.finding).zone
    return "" if tried.finding == state.case.focus else f"at {uncapital(kb.zones[zone].name)}"
