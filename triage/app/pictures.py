"""Pictures of a survey for the screens: the boat as she stands, what was looked at, a place, a range that narrows."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from triage.concluding.assess import assess_survey
from triage.dialogue.judged import judged_boat
from triage.dialogue.round import standing
from triage.drawing.bands import Level, Narrowing, draw_narrowing
from triage.drawing.boat.chart import VIEWS, Chart, DrawnPlace, Kind, Marker, Spot, Status
from triage.drawing.boat.draw import DrawnView, draw_boat
from triage.inference.evaluate import evaluate
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.phrases import pictures
from triage.phrases.words import mark_at
from triage.survey.model import Finding, Survey
from triage.survey.readings import quoted

_STATUS: Mapping[str, Status] = {
    "not looked at": "not_looked",
    "partly": "seen",
    "nothing found": "seen",
    "passed": "passed",
    "marked": "found",
}

Link = Callable[[str, str], str]
"""Where a place leads to, by its zone and side."""

MOST_ROWS = 3
"""Of a range that narrows: the last answers that moved it."""


@dataclass(frozen=True)
class Leg:
    """One part of the walk round her: how many places it has, and how many of them somebody has looked at."""

    name: str
    places: int
    looked: int


def no_link(*_: str) -> str:
    """A place that leads nowhere."""
    return ""


def chart_of(kb: KnowledgeBase, survey: Survey, link: Link = no_link, *, tapped: bool = False) -> Chart:
    """Her places as they stand and her marks, each with its link."""
    coverage = judged_boat(kb, survey).coverage
    places: dict[Spot, DrawnPlace] = {}
    for zone in kb.zones.values():
        if survey.boat.has(zone):
            for side in coverage.sides(zone.id):
                status = _STATUS[standing(coverage, zone.id, side)]
                says = pictures.stands(zone.name, side or None, status)
                places[zone.id, side] = DrawnPlace(status, says, link(zone.id, side))
    return Chart(places, list(_markers(kb, survey, link)), tapped)


def _markers(kb: KnowledgeBase, survey: Survey, link: Link) -> Iterator[Marker]:
    """A marker for each mark, by its number in the answer and the verdict as it stands."""
    kinds: Sequence[Kind] = ("looks", "watch", "weakened")
    evaluations = judged_boat(kb, survey).evaluations
    numbers = _numbers(kb, survey) if len(evaluations) > 1 else {}
    for judged in evaluations:
        one, (low, high) = judged.finding, judged.interval(VERDICT)
        number = numbers.get(one.id, 1)
        says = f"{number}: {mark_at(kb.zones[one.zone].name, one.side, kb.signs[one.sign].name)}"
        kind = kinds[low] if low == high else "open"
        yield Marker((one.zone, one.side or ""), str(number), kind, says, link(one.zone, one.side or ""))


def _numbers(kb: KnowledgeBase, survey: Survey) -> Mapping[str, int]:
    """The number of each mark where the answer tells of it: that of its job."""
    jobs = enumerate(assess_survey(survey, kb).jobs, start=1)
    return {mark: number for number, job in jobs for mark in job.findings}


def boat_of(kb: KnowledgeBase, survey: Survey, link: Link = no_link) -> Iterator[DrawnView]:
    """Every view of the boat as she stands, each drawn when it is asked for."""
    return draw_boat(chart_of(kb, survey, link), {view: pictures.VIEWS[view] for view in VIEWS})


def views_of(kb: KnowledgeBase, survey: Survey, link: Link = no_link) -> Sequence[tuple[DrawnView, str]]:
    """Every view of the boat, with the word for it."""
    return [(view, pictures.SHORT[view.view]) for view in boat_of(kb, survey, link)]


def legs_of(kb: KnowledgeBase, survey: Survey) -> Sequence[Leg]:
    """How much of each part of the walk was looked at."""
    coverage = judged_boat(kb, survey).coverage
    legs = []
    for leg in kb.walk:
        there = [zone for zone in leg.zones if survey.boat.has(kb.zones[zone])]
        looked = sum(coverage.place(zone) not in ("not looked at", "partly") for zone in there)
        if there:
            legs.append(Leg(leg.name, len(there), looked))
    return legs


def range_of_mark(kb: KnowledgeBase, survey: Survey, finding: Finding) -> Markup:
    """The range of verdicts on a mark after each answer that moved it; the last row is how it stands."""
    others = [one for one in survey.marks if one.id != finding.id]
    levels = kb.scales[VERDICT].levels
    said = list(finding.readings)
    rows: list[Narrowing] = []
    for count in range(len(said) + 1):
        so_far = replace(finding, readings={scale: finding.readings[scale] for scale in said[:count]})
        judged = next(one for one in evaluate(kb, survey.boat, [*others, so_far]) if one.finding is so_far)
        low, high = judged.interval(VERDICT)
        words = (
            pictures.AT_FIRST if not count else quoted(kb.scales[said[count - 1]], finding.readings[said[count - 1]])
        )
        if not rows or (rows[-1].low, rows[-1].high) != (low, high):
            rows.append(Narrowing(low, high, words))
    kinds: Sequence[Kind] = ("looks", "watch", "weakened")
    shown = [Level(level.name, kind) for level, kind in zip(levels, kinds, strict=True)]
    says = pictures.narrowing_in_words(levels[rows[-1].low].name, levels[rows[-1].high].name)
    return draw_narrowing(shown, rows[-MOST_ROWS:], says)
