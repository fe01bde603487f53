"""What was told of her, as conclusions: heard, and what it makes worth looking at."""

from __future__ import annotations

from triage.causes.referrals import event_referrals_of, rules_told
from triage.conclusions.assessment import EventTold
from triage.coverage import Coverage


def events_told(coverage: Coverage) -> tuple[EventTold, ...]:
    """Every event of the survey with the places that it sends to."""
    kb, boat = coverage.kb, coverage.survey.boat
    open_ = [referral for referral in event_referrals_of(coverage) if referral.unlooked]
    looks = [(told, look) for told, rule in rules_told(coverage) for look in rule.looks]
    found = []
    for told in coverage.survey.events:
        event = kb.happenings.events[told.event]
        demanded = [referral.suspect.zone for referral in open_ if referral.told is told]
        advised = [look.zone for whose, look in looks if whose is told and boat.has(kb.zones[look.zone])]
        found.append(
            EventTold(
                event=event.id,
                name=event.name,
                kind=event.kind,
                force=told.force,
                when=told.when,
                on=told.on,
                side=told.side,
                said=told.said,
                first=tuple(kb.zones[zone].name for zone in dict.fromkeys(demanded)),
                sends=tuple(kb.zones[zone].name for zone in dict.fromkeys(advised) if zone not in demanded),
                note=event.note,
            )
        )
    return tuple(found)
