"""Which question comes first: one that decides something, and soon the one that is worth most."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from tests.marks import BOAT
from tests.strategies import boats_with_findings
from triage.asking.suggest import AT_FIRST, Option, prospect, ranked
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.inference.outlook import Outlook
from triage.inference.whatif import WhatIf
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading


@settings(max_examples=80)
@given(st.data())
def test_the_first_question_can_change_what_is_concluded_if_any_alone_can(data: st.DataObject) -> None:
    kb = shipped()
    for _, outlook, order in _asked(kb, *data.draw(boats_with_findings(kb, most=3))):
        alone = [_changes(outlook, option) for option in order]
        assert alone[0] or not any(alone)


@settings(max_examples=80)
@given(st.data())
def test_the_question_worth_most_is_told_at_first_or_next_to_what_must_not_be_missed(data: st.DataObject) -> None:
    kb = shipped()
    for judged, _, order in _asked(kb, *data.draw(boats_with_findings(kb, most=3))):
        must = _not_to_be_missed(kb, judged)
        lead = sum(option.ask in must for option in order)
        told = order[: max(AT_FIRST, lead + 1)]

        assert all(option.ask in must for option in order[:lead])
        worth = [option.value_of_information for option in order if option.ask not in must]
        assert not worth or max(worth) in [option.value_of_information for option in told]


def test_what_a_hollow_rests_on_is_asked_before_what_only_lies_on_a_short_way(kb: KnowledgeBase) -> None:
    hollow = Finding("hollow", "topside", "dent", "port", {"shape_error": Reading.at(0)})
    ((_, _, order),) = _asked(kb, BOAT, [hollow])
    assert "support_fit" in [option.ask for option in order[:AT_FIRST]]


def _asked(
    kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]
) -> Iterator[tuple[Evaluation, Outlook, tuple[Option, ...]]]:
    for judged in evaluate(kb, boat, findings):
        whatif = WhatIf(kb, boat, judged.finding, findings)
        if order := ranked(kb, judged, whatif):
            yield judged, whatif.outlook, order


def _changes(outlook: Outlook, option: Option) -> bool:
    now = outlook.answering({}).ranges
    return any(prospect(outlook, {option.ask: answer}).ranges != now for answer in option.answers)


def _not_to_be_missed(kb: KnowledgeBase, judged: Evaluation) -> set[str]:
    """The named checks and the mark's own reading, where main loads enter."""
    zone, sign = judged.finding.zone, judged.finding.sign
    named = [*kb.about(zone, sign), *(scale for way in kb.named_sets(zone, sign) for scale in way)]
    return set(named) if kb.zones[zone].criticality == "primary" else set()
