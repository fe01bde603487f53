"""A state as a survey that a file can hold, and back: any step can be undone after leaving and coming back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from triage.asking.effort import Resources
from triage.dialogue.answers import askable
from triage.dialogue.cards import AS_HEARD, OUT
from triage.dialogue.kept_edits import edit_from, plain
from triage.dialogue.state import DESCRIBE, DESCRIBING, MAX_UNDO, STORY, Asking, State, TakenBack
from triage.dialogue.stories import told
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.survey.doubt import text_doubts
from triage.survey.finding_doubts import MAX_NOTE
from triage.survey.model import Survey

_YES, _NO = "yes", "no"


def kept(state: State) -> Survey:
    """The survey with where the conversation stands."""
    if (state.asking, state.undo, state.minutes) == (DESCRIBE, (), 0) and not state.survey.marks:
        return replace(state.survey, conversation={})
    left = {
        "asking": _asking(state.asking),
        "minutes": state.minutes,
        "explained": sorted(state.explained),
        "undo": [{"asking": _asking(one.asking), "edits": [plain(edit) for edit in one.edits]} for one in state.undo],
    }
    return replace(state.survey, conversation={key: value for key, value in left.items() if value})


def beginning(survey: Survey) -> Survey:
    """The survey of a visit that begins with what a person has to tell, whatever stands open in it."""
    return replace(survey, conversation={"asking": _asking(DESCRIBE)})


def resumed(kb: KnowledgeBase, survey: Survey, means: Resources) -> tuple[State, bool]:
    """The state that was kept, and whether it holds what was asked: perhaps that cannot be asked any more.

    Of the steps to take back, those are left that the knowledge still understands.
    """
    left = survey.conversation
    plain_survey = replace(survey.in_walk_order(kb), conversation={})
    asking = _asking_from(kb, plain_survey, left.get("asking", {}))
    undo: list[TakenBack] = []
    for entry in reversed(left.get("undo", [])):
        before = _asking_from(kb, None, entry["asking"])
        try:
            edits = tuple(edit_from(kb, one) for one in entry.get("edits", []))
        except (KeyError, TypeError, ValueError, BadSurvey):
            break
        if before is None:
            break
        undo.insert(0, TakenBack(before, edits))
    explained = frozenset(left.get("explained", ()))
    minutes = left.get("minutes", 0)
    state = State(plain_survey, asking or DESCRIBE, tuple(undo[-MAX_UNDO:]), explained, means, minutes)
    return state, asking is not None


def unfinished(survey: Survey) -> str:
    """The words for a mark that was described, but has not come into the survey yet; empty when there is none."""
    asking = survey.conversation.get("asking", {})
    return str(asking.get("text", "")) if asking.get("what") in (*DESCRIBING, *STORY) else ""


def _asking(asking: Asking) -> dict[str, Any]:
    """What is asked, as far as it says more than nothing."""
    told: dict[str, Any] = {"what": asking.what}
    for field in fields(Asking)[1:]:
        value = getattr(asking, field.name)
        if value != field.default:
            told[field.name] = (_YES if value else _NO) if isinstance(value, bool) else value
    return {name: list(value) if isinstance(value, tuple) else value for name, value in told.items()}


def _asking_from(kb: KnowledgeBase, survey: Survey | None, told: Mapping[str, Any]) -> Asking | None:
    """What was asked; None when it cannot be asked. Without a survey its mark may be one that is not there."""
    if "what" not in told:
        return None
    words = {name: told[name] for name in ("what", "mark", "ask", "text", "zone", "sign", "side") if name in told}
    asking = Asking(
        **words,
        offered=tuple(told.get("offered", ())),
        sized=told.get("sized", _YES) == _YES,
        sure=told.get("sure", _NO) == _YES,
    )
    return asking if survey is None or can_be_asked(kb, survey, asking) else None


def can_be_asked(kb: KnowledgeBase, survey: Survey, asking: Asking) -> bool:
    """Whether the knowledge and the survey have everything that this speaks about."""
    if asking.what in DESCRIBING:
        return _draft_can_be(kb, asking)
    if asking.what in STORY:
        return _story_can_be(kb, asking)
    if asking.what in ("describe", "marks"):
        return True
    finding = next((one for one in survey.findings if one.id == asking.mark), None)
    return finding is not None and (asking.what != "answer" or asking.ask in askable(kb, finding))


def _story_can_be(kb: KnowledgeBase, asking: Asking) -> bool:
    """Whether the story still comes to as many marks and passes as were asked about, and its decisions name such."""
    if any(text_doubts((), asking.text, MAX_NOTE, lines=True)) or not (asking.ask or "0").isdecimal():
        return False
    story = told(kb, asking.text, asking.offered)
    number, most = int(asking.ask or 0), len(story.passes if asking.what == "tried" else story.cards)
    decided = [one.split() for one in asking.offered if one not in (AS_HEARD, OUT)]
    known = all(len(one) in (2, 3) and one[1] in kb.offers.get(one[0], ()) for one in decided)
    return known and number < most and len(asking.offered) in (0, len(story.cards))


def _draft_can_be(kb: KnowledgeBase, asking: Asking) -> bool:
    if any(text_doubts((), asking.text, MAX_NOTE, lines=True)):
        return False
    if asking.what in ("place", "leg", "spot"):
        on_the_way = asking.what != "spot" or asking.ask in {leg.name for leg in kb.walk}
        return on_the_way and set(asking.offered) <= set(kb.zones) and (not asking.sign or asking.sign in kb.signs)
    offers = kb.offers.get(asking.zone, ())
    if asking.what == "mark":
        return bool(offers) and {*asking.offered, asking.sign or offers[0]} <= set(offers)
    return asking.sign in offers
