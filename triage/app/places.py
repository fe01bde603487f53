"""Places and marks as the screens offer them: what was sent of a place, and each mark drawn beside its confusion."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup
from starlette.exceptions import HTTPException

from triage.app.sketches import Sketches
from triage.dialogue.passing import Way, way_to_pass
from triage.drawing.checks import Scene, draw_check
from triage.knowledge.model import NOTHING_SEEN, SIDES, KnowledgeBase
from triage.survey.model import Survey

BOTH, UNKNOWN = "both", "unknown"


@dataclass(frozen=True)
class MarkOffered:
    """A mark that may be met at a place: drawn, in words, and what it is most easily taken for."""

    id: str
    name: str
    tells: str
    picture: Markup
    nearest: str
    nearest_picture: Markup


@dataclass(frozen=True)
class Test:
    """What passes a part: the way, and each of its checks with its steps and its two pictures."""

    way: Way
    scenes: Sequence[tuple[str, Sequence[str], str, Sequence[Scene]]]


def place_sent(kb: KnowledgeBase, survey: Survey, zone: str) -> str:
    """The place that was sent. Raises HTTPException for one that she cannot have."""
    if zone not in kb.zones or not survey.boat.has(kb.zones[zone]):
        raise HTTPException(404)
    return zone


def sides_sent(kb: KnowledgeBase, zone: str, side: str) -> tuple[str, ...]:
    """The sides that are meant: the empty one of a part that is one, both where nobody says which."""
    if not kb.zones[zone].sided:
        return ("",)
    return (side,) if side in SIDES else SIDES


def marks_offered(kb: KnowledgeBase, survey: Survey, zone: str) -> list[MarkOffered]:
    """Every mark that may be met there, in the order of the rules."""
    sketches = Sketches(kb, survey)
    return [_offered(kb, sketches, sign) for sign in kb.offers[zone] if sign != NOTHING_SEEN]


def test_of(kb: KnowledgeBase, survey: Survey, zone: str) -> Test:
    """What passes the part as the survey stands, drawn."""
    way = way_to_pass(kb, survey, zone)
    scenes = [(one.name, one.steps, one.care, draw_check(one.id, f"try-{zone}")) for one in way.checks]
    return Test(way, scenes)


def _offered(kb: KnowledgeBase, sketches: Sketches, sign: str) -> MarkOffered:
    mark, nearest = kb.signs[sign], sketches.nearest(sign)
    return MarkOffered(
        sign,
        mark.name,
        mark.picture,
        sketches.mark(sign),
        sketches.name(nearest) if nearest else "",
        sketches.mark(nearest, thumb=True) if nearest else Markup(),
    )
