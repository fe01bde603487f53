"""What is named as what could settle a mark does settle it, where anything can."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from tests.marks import BOAT
from tests.strategies import boats_with_findings
from triage.asking.settles import suggestions
from triage.asking.suggest import at_best, prospect, ranked
from triage.inference.evaluate import evaluate
from triage.inference.whatif import WhatIf
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading


def test_what_was_tried_in_vain_is_named_where_nothing_else_would_settle_it(kb: KnowledgeBase) -> None:
    jammed = {"crack_opening": Reading.attempted(), "wet_weep": Reading.attempted()}
    assert "crack_opening" in _named(kb, BOAT, Finding("line", "case_wall", "hairline", None, jammed))


def test_what_was_tried_in_vain_is_not_named_where_another_check_settles_it(kb: KnowledgeBase) -> None:
    tapped = {"tap_dull": Reading.attempted(), "pattern_focus": Reading.at(0)}
    assert _named(kb, BOAT, Finding("net", "bottom", "crazing", "port", tapped))[:1] == ("panel_give",)
    assert "tap_dull" not in _named(kb, BOAT, Finding("net", "bottom", "crazing", "port", tapped))


@settings(max_examples=80)
@given(st.data())
def test_good_answers_to_all_that_is_named_settle_the_mark_if_any_answers_do(data: st.DataObject) -> None:
    kb = shipped()
    boat, findings = data.draw(boats_with_findings(kb, most=2))
    for judged in evaluate(kb, boat, findings):
        whatif = WhatIf(kb, boat, judged.finding, findings)
        every = {option.ask: at_best(kb, option) for option in ranked(kb, judged, whatif, again=True)}
        named = {check.scale for check in suggestions(kb, judged, whatif)}

        assert named <= every.keys()
        good = prospect(whatif.outlook, {ask: answer for ask, answer in every.items() if ask in named})
        assert good.width == prospect(whatif.outlook, every).width


def _named(kb: KnowledgeBase, boat: Boat, finding: Finding) -> tuple[str, ...]:
    (judged,) = evaluate(kb, boat, [finding])
    return tuple(check.scale for check in suggestions(kb, judged, WhatIf(kb, boat, finding, [finding])))
