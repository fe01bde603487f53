"""The boat of an assessment as a picture: what was found, passed, looked at and not looked at."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.conclusions.assessment import Assessment, FindingAssessment
from triage.conclusions.values import Range
from triage.drawing.boat.chart import VIEWS, Chart, DrawnPlace, Kind, Marker, Spot, Status
from triage.drawing.boat.draw import DrawnView, draw_boat
from triage.phrases import pictures

SUSPECTED = "#suspected"
"""Where the picture tells in words of what is suspected."""


@dataclass(frozen=True)
class BoatPicture:
    """The views with marks and those without, what is in the key, and in words what is seen."""

    marked: Sequence[tuple[DrawnView, str]]
    unmarked: Sequence[tuple[DrawnView, str]]
    key: Sequence[tuple[str, str]]
    says: str
    suspected: str
    title: str = pictures.THE_BOAT

    @property
    def others(self) -> str:
        """What the views are called that a page folds: all but the first, with how many marks each shows."""
        told = [(says, len(view.markers)) for view, says in (*self.marked, *self.unmarked)]
        return pictures.others(told[1:])


def picture_of(assessment: Assessment) -> BoatPicture:
    """The picture of the boat. Raises CannotWork when its templates are not there."""
    chart = chart_of(assessment)
    views = list(draw_boat(chart, {view: pictures.VIEWS[view] for view in VIEWS}))
    found: Counter[str] = Counter(place.status for place in chart.places.values())
    statuses = [status for status in pictures.STANDS if found[status]]
    shown = [(view, pictures.SHORT[view.view]) for view in views]
    kinds = [one.kind for one in chart.markers]
    names = dict(zip(("looks", "watch", "weakened"), assessment.levels["verdict"], strict=True))
    names["open"] = pictures.NOT_CLEARED
    return BoatPicture(
        marked=[(view, says) for view, says in shown if view.markers],
        unmarked=[(view, says) for view, says in shown if not view.markers],
        key=[*((one, pictures.STANDS[one]) for one in statuses), *((k, s) for k, s in names.items() if k in kinds)],
        says=pictures.counts({status: found[status] for status in statuses}),
        suspected=pictures.suspected([(one.place, one.side) for one in assessment.suspicions]),
    )


def chart_of(assessment: Assessment) -> Chart:
    """Her places and marks. What the survey does not speak of and she could have is not looked at."""
    places: dict[Spot, DrawnPlace] = {}
    for leg in assessment.not_looked_at:
        for one in leg.places:
            places[one.zone, one.side or ""] = _place(one.place, one.side, "not_looked")
    for finding in sorted(assessment.findings, key=lambda one: _RANK[_status(one)]):
        places[finding.zone, finding.side or ""] = _place(finding.place, finding.side, _status(finding))
    return Chart(places, list(_markers(assessment)))


_RANK: dict[Status, int] = {"seen": 0, "tried": 1, "passed": 2, "found": 3}
"""What is told where several things are so of one place: the last."""


def _place(name: str, side: str | None, status: Status) -> DrawnPlace:
    return DrawnPlace(status, pictures.stands(name, side, status))


def _status(finding: FindingAssessment) -> Status:
    if finding.passed:
        return "passed"
    if not finding.looked_at_only:
        return "found"
    return "tried" if any(reading.high is None for reading in finding.readings) else "seen"


def _markers(assessment: Assessment) -> Iterator[Marker]:
    """One for each place of each job, and one for each place that is suspected and was not looked at."""
    marked = set()
    for number, job in enumerate(assessment.jobs, start=1):
        says = pictures.job_marker(number, job, assessment)
        for place in job.places:
            marked.add((place.zone, place.side or ""))
            yield Marker((place.zone, place.side or ""), str(number), _kind(job.verdict), says, f"#f{number}")
    for one in assessment.suspicions:
        spot = (one.zone, one.side or "")
        if spot not in marked:
            marked.add(spot)
            yield Marker(spot, "?", "open", pictures.suspicion_marker(one), SUSPECTED)


def _kind(verdict: Range) -> Kind:
    kinds: dict[str, Kind] = {"looks": "looks", "watch": "watch", "weakened": "weakened"}
    return kinds[verdict.roles[1]] if verdict.settled else "open"
