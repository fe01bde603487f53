"""That a mark was so last season is said of what made it, and never for a milder answer."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given
from hypothesis import strategies as st

from tests.laws.ranges import shipped
from tests.strategies import boats_with_findings
from triage.inference.evaluate import evaluate
from triage.knowledge.model import AFLOAT, TOW, VERDICT
from triage.survey.readings import reading_of


@given(data=st.data())
def test_that_it_was_so_last_season_never_makes_a_mark_milder(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=2))
    so_before = reading_of(kb.scales["growth"], "it was so last season")
    mark = replace(found[0], readings={scale: one for scale, one in found[0].readings.items() if scale != "growth"})
    assume("growth" in kb.applicable(mark.zone, mark.sign))
    told = replace(mark, readings={**mark.readings, "growth": so_before})

    before, then = (evaluate(kb, boat, [one, *found[1:]]) for one in (mark, told))

    for judged, again in zip(before, then, strict=True):
        for scale in (VERDICT, AFLOAT, TOW):
            assert all(one <= other for one, other in zip(judged.interval(scale), again.interval(scale), strict=True))
