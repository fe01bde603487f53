"""Places and marks as the screens offer them: what was sent of a place, and each mark drawn beside its confusion."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup
from starlette.exceptions import HTTPException

from triage.dialogue.passing import Way, way_to_pass
from triage.drawing.checks import Scene, draw_check
from triage.drawing.marks import confused_with, draw_mark
from triage.drawing.svg import drawn
from triage.knowledge.model import NOTHING_SEEN, SIDES, KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Survey
from triage.views.rule_text import RuleText

BOTH, UNKNOWN = "both", "unknown"


@dataclass(frozen=True)
class MarkOffered:
    """A mark that may be met at a place: drawn, in words, and what it is most easily taken for."""

    id: str
    name: str
    tell: str
    picture: Markup
    beside: str
    beside_picture: Markup


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


def marks_offered(kb: KnowledgeBase, zone: str) -> list[MarkOffered]:
    """Every mark that may be met there, as the rules have them in order."""
    return list(_offered(kb, zone))


def test_of(kb: KnowledgeBase, survey: Survey, zone: str) -> Test:
    """What passes the part as the survey stands, drawn."""
    way = way_to_pass(kb, survey, zone)
    scenes = [(one.name, one.steps, one.care, draw_check(one.id, f"try-{zone}")) for one in way.checks]
    return Test(way, scenes)


def _offered(kb: KnowledgeBase, zone: str) -> Iterator[MarkOffered]:
    shown: set[str] = set()
    for sign in kb.offers[zone]:
        if sign != NOTHING_SEEN:
            mark = kb.signs[sign]
            beside = _pairs(kb).get(sign, "")
            name = (kb.signs[beside].name if beside in kb.signs else draw_mark(beside).name) if beside else ""
            yield MarkOffered(sign, mark.name, mark.picture, _picture(sign), name, _thumb(beside, shown))
            shown.add(beside)


def _picture(sign: str) -> Markup:
    return draw_mark(sign, thumb=False).svg if sign in drawn("marks") else Markup()


def _thumb(sign: str, shown: set[str]) -> Markup:
    """Small; what stands on the page already is used again."""
    if not sign or sign not in drawn("marks"):
        return Markup()
    if sign in shown:
        return Markup('<svg class="drawn mark-drawn thumb" viewBox="0 0 200 200" aria-hidden="true">{}</svg>').format(
            Markup('<use href="#mark-{}-small"/>').format(sign)
        )
    return draw_mark(sign, thumb=True).svg


@per_knowledge
def _pairs(kb: KnowledgeBase) -> dict[str, str]:
    """What each mark is most easily taken for: what its drawing was made to stand by, what its description names, or
    what is itself most easily taken for it.
    """
    text, known = RuleText(kb), drawn("marks")
    pairs: dict[str, str] = {}
    for sign, mark in kb.signs.items():
        if sign in known:
            named = [other for other in text.signs_in(mark.not_this) if other != sign]
            beside = [other for other in confused_with(sign, named) if other in known]
            pairs.update({sign: beside[0]} if beside else {})
    for sign, other in list(pairs.items()):
        pairs.setdefault(other, sign)
    return pairs
