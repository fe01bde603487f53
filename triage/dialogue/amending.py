"""A description put right in words before it is kept, and a mark that stands in place of another."""

from __future__ import annotations

import contextlib
from dataclasses import replace

from triage.dialogue.edits import Edit, SetReading, apply_all
from triage.dialogue.state import Asking
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.listening.saying import OTHER_SIDE, place_said, side_told, without_what_is_not
from triage.listening.understand import understand
from triage.survey.model import Finding, Survey


def side_said(kb: KnowledgeBase, draft: Asking, text: str) -> str:
    """The side that the words name, or the other one than was heard; empty where they say none."""
    said = side_told(kb, text, Finding("", draft.zone, draft.sign or kb.offers[draft.zone][0]))
    return OTHER_SIDE.get(draft.side, "") if said == "other" else said


def said_again(draft: Asking, text: str) -> Asking:
    """The description with words that count before those said first."""
    return replace(draft, text=f"{text}; {draft.text}")


def redescribed(kb: KnowledgeBase, draft: Asking, text: str) -> Asking | None:
    """The description at another place, or of another mark; None where the words clearly say neither."""
    meant = without_what_is_not(kb, text)
    heard = understand(meant, kb)
    again = said_again(draft, text)
    zone = place_said(kb, meant)
    if zone and zone != draft.zone:
        return replace(again, zone=zone, sign="" if heard.sign else draft.sign)
    sign = understand(meant, kb, zone=draft.zone).sign
    if sign is not None and sign in kb.offers[draft.zone]:
        return replace(again, sign=sign, sure=False)
    return None


def carried_over(kb: KnowledgeBase, survey: Survey, mark: str, wrong: Finding) -> tuple[Survey, tuple[Edit, ...]]:
    """What was read of the mark that this one stands in place of, as far as it can be read here."""
    backs: tuple[Edit, ...] = ()
    for scale, reading in wrong.readings.items():
        with contextlib.suppress(BadSurvey):
            survey, back = apply_all(kb, survey, [SetReading(mark, scale, reading)])
            backs = (*back, *backs)
    return survey, backs
