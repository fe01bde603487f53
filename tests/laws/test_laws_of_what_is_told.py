"""What people are told to do and never to do: that the sentences say it, that no repair is a cover, no check a danger.

The solver proves that a sentence of a kind is said whenever a promise asks for one; here is what it says.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.diagnosing import diagnosis
from tests.laws.ranges import ranges, shipped
from tests.marks import BOAT, judged_marks
from tests.strategies import boats_with_findings
from triage.asking.suggest import ranked
from triage.concluding.assess import assess_survey
from triage.concluding.mending import repair_of
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.inference.whatif import WhatIf
from triage.knowledge.model import TOW, VERDICT, KnowledgeBase
from triage.phrases.boat import headline
from triage.proof.claims import EvaluatedSurvey
from triage.proof.promises import PromiseClaims
from triage.survey.model import Boat, Finding, Reading, Survey

SAID = {
    ("promise/no-cover-over-a-break", "never"): "paint.* sealant or tape",
    ("promise/no-cover-over-a-break", "do"): "the weak place itself mended first",
    ("promise/no-cover-over-a-broken-foil", "never"): "paint, filler, tape or wood hardener",
    ("promise/dry-before-closing", "never"): "seal.* before .*(dry|dried)",
    ("promise/no-test-load-on-what-may-fail", "never"): "to (see whether it still holds|try)",
    ("promise/air-tests-by-lungs", "caution"): "lungs or a hand pump.* Never a compressor",
    ("promise/eyes-at-a-blister", "caution"): "glasses.* when you prick a blister",
    ("promise/mask-at-broken-glass", "caution"): "mask.* when you sand or grind glass",
    ("promise/nobody-under-her", "caution"): "Nobody goes under|before a hand or a head goes under",
    ("promise/was-loose-now-tight", "recheck"): "after the next (sail|outing)",
    ("promise/rig-anchor-bent", "never"): "bend it back",
    ("promise/rig-anchor-bent", "do"): "Replace the bent or stretched part",
    ("promise/strand-or-terminal", "never"): "(tape it over|straighten it|hang on a wire)",
    ("promise/strand-or-terminal", "do"): "(Replace|Fit) .*before the mast goes up again",
    ("promise/spar-cracked-or-kinked", "never"): "straighten, fill or paint it.* trial sail",
    ("promise/spar-cracked-or-kinked", "do"): "replaced",
    ("promise/carbon-crushed", "never"): "straighten, fill or paint it.* trial sail",
    ("promise/carbon-crushed", "do"): "replaced",
    ("promise/crack-across-foil-or-tiller", "never"): "mended with paint, filler, tape",
    ("promise/line-in-a-blade", "never"): "sail with a crack this long",
    ("promise/road-gear-grave", "never"): "tow on it",
    ("promise/tie-down-that-may-part", "do"): "Put a new strap on before",
    ("promise/tie-down-that-may-part", "never"): "knot a cut strap, and never tow",
    ("promise/support-that-dents", "do"): "Move or pad the support before the hull is repaired",
    ("promise/pads-that-broke-the-hull", "do"): "Move (or pad the support|the pads)",
    ("promise/foot-strap-anchor-that-lifts", "never"): "hang out on it",
    ("promise/foot-strap-anchor-that-lifts", "do"): "Refit the anchor on a pad",
    ("promise/broken-strand-that-holds-a-load", "caution"): "leather gloves",
    ("promise/furler-that-may-part", "never"): "sail on it",
    ("promise/air-test-with-its-breather-open", "do"): "breather hole stopped.* test once more before you mend",
    ("promise/air-test-with-its-breather-open", "never"): "glue, tape or paint a breather hole shut",
}
"""What the sentences that promises ask for have to say."""


def told(judged: Evaluation, kind: str) -> list[str]:
    """The sentences of a kind: cautions for what may be, everything else for what is known."""
    end = judged.upper if kind == "caution" else judged.lower
    return [advice.say for firing in end.firings for advice in firing.rule.advises if advice.kind == kind]


@pytest.mark.parametrize(("promise", "kind"), SAID)
def test_a_promised_sentence_says_what_it_is_for(kb: KnowledgeBase, promise: str, kind: str) -> None:
    (asked,) = (PromiseClaims(kb, one) for one in kb.promises if one.id == promise)
    spoken_of = [one for one in judged_marks(kb) if asked.holds(EvaluatedSurvey(kb, BOAT, (one,)), one, "lower")]

    unsaid = [one.finding for one in spoken_of if not re.search(SAID[promise, kind], " | ".join(told(one, kind)))]

    assert spoken_of
    assert [] == unsaid


def test_every_promised_sentence_is_looked_at(kb: KnowledgeBase) -> None:
    assert {(promise.id, kind) for promise in kb.promises for kind in promise.advises} == SAID.keys()


MENDS = re.compile(
    r"\b([Nn]ew|replaced?|built up|cut (out|back)|glassed|patched|moved|comes off|taken out|find|found)\b"
)
WATCHES = re.compile(r"\b(watched|before each outing|tried after)\b")
CLOSES = re.compile(r"\b(seal|fill|coat|glass|bed|clos|plug|glue)\w*")
DRIES = re.compile(r"\b(dry|dries|dried|drained)\b")
DENIES = re.compile(r"\b((is|are) (not|never)|is no)\b")


def outline(kb: KnowledgeBase, judged: Evaluation) -> list[str]:
    """What its repair does, sentence by sentence, without what it forbids."""
    repair = repair_of(kb, BOAT, judged, "lower")
    sentences = repair.outline if repair else ()
    return [sentence for sentence in sentences if not DENIES.search(sentence)]


def test_the_repair_of_what_is_structural_is_never_only_a_cover_or_a_watch(kb: KnowledgeBase) -> None:
    structural = [one for one in judged_marks(kb) if one.lower.level(VERDICT) == kb.scales[VERDICT].top]

    covered = {
        (one.finding.zone, one.finding.sign, *outline(kb, one))
        for one in structural
        if not any(MENDS.search(sentence) and not WATCHES.search(sentence) for sentence in outline(kb, one))
    }

    assert len(structural) > 4000
    assert set() == covered


def is_wet(kb: KnowledgeBase, judged: Evaluation) -> bool:
    (asked,) = (PromiseClaims(kb, one) for one in kb.promises if one.id == "promise/dry-before-closing")
    return asked.holds(EvaluatedSurvey(kb, BOAT, (judged,)), judged, "lower")


def test_a_repair_that_closes_what_is_wet_dries_it_first(kb: KnowledgeBase) -> None:
    shut_in = set()
    for judged in judged_marks(kb):
        repair, text = repair_of(kb, BOAT, judged, "lower"), " ".join(outline(kb, judged))
        dries = repair is None or DRIES.search(text) or "dry" in repair.workshop
        if is_wet(kb, judged) and CLOSES.search(text) and not dries:
            shut_in.add((judged.finding.zone, judged.finding.sign, text))

    assert set() == shut_in


def sentences(kb: KnowledgeBase) -> Iterator[str]:
    """Everything somebody may be told to do: checks, advice, repairs."""
    for check in kb.checks.values():
        yield from (*check.steps, *re.split(r"(?<=\.)\s", check.care))
    for rule in kb.rules:
        yield from (sentence for advice in rule.advises for sentence in re.split(r"(?<=\.)\s", advice.say))
    for repair in kb.mending.repairs:
        yield from (*repair.outline, *re.split(r"(?<=\.)\s", f"{repair.holding} {repair.meanwhile}"))


@pytest.mark.parametrize(
    ("danger", "guarded"),
    [
        (r"compressor|air line|vacuum cleaner|blower|high pressure", r"\b(No|Never)\b"),
        (r"\bprick", r"glasses|eye protection|Do not prick"),
        (r"\b(go|goes|lies|lie|crawl|get)\b under\b", r"Nobody|[Nn]ever|put a stand under"),
        (r"\bhang(s|ing)? (on|out on) (a|the|this|it)\b", r"Nobody|nobody|Never|before anybody"),
        (r"stand on the board|stood on", r"Never|never"),
        (r"trial sail|test sail", r"never"),
    ],
)
def test_what_could_hurt_is_only_ever_forbidden_or_guarded(kb: KnowledgeBase, danger: str, guarded: str) -> None:
    named = [sentence for sentence in sentences(kb) if re.search(danger, sentence)]

    assert named
    assert [] == [sentence for sentence in named if not re.search(guarded, sentence)]


def test_a_check_that_loads_what_may_fail_says_when_not_to(kb: KnowledgeBase) -> None:
    bearing = [*kb.groups["spars"].zones, "mast_step", "chainplate", "chainplate_under", "forestay_anchor", "shrouds"]
    hung_on = {"crack_opening", "fitting_play"}
    offered = {
        check
        for zone in bearing
        for sign in kb.offers[zone]
        for scale in kb.applicable(zone, sign)
        for check in kb.checks_for(scale, zone)
        if hung_on.intersection(check.reads)
    }

    assert offered
    assert all(check.loads for check in offered)
    assert all("judged structural" in " ".join(check.care.split()) for check in offered)


def structural_by_one_reading(kb: KnowledgeBase) -> Iterator[Evaluation]:
    """Marks of which one reading, at its worst, is all that is known, and enough."""
    for zone, signs in kb.offers.items():
        for sign in signs:
            for scale in kb.applicable(zone, sign):
                finding = Finding("mark", zone, sign, None, {scale: Reading.at(kb.worst(sign, scale))})
                (judged,) = evaluate(kb, BOAT, [finding])
                if judged.lower.level(VERDICT) == kb.scales[VERDICT].top:
                    yield judged


@pytest.mark.slow
def test_nobody_is_sent_to_load_what_is_structural_already(kb: KnowledgeBase) -> None:
    sent, tried = [], 0
    for judged in structural_by_one_reading(kb):
        tried += 1
        finding = judged.finding
        asked = [option.check for option in ranked(kb, judged, WhatIf(kb, BOAT, finding, [finding])) if option.check]
        plan = diagnosis(kb, Survey(BOAT, (finding,)), [judged]).plan
        asked += [kb.checks[line.check] for stop in plan for line in stop.lines if line.zone == finding.zone]
        sent += [(finding.zone, finding.sign, check.id) for check in asked if check.loads]

    assert tried > 1000
    assert [] == sent


def test_a_fact_that_nobody_could_tell_is_named_as_what_would_settle_it(kb: KnowledgeBase) -> None:
    boat = Boat("Wagtail", attempted=frozenset({("spar", "")}))
    (scuff,) = assess_survey(Survey(boat, (Finding("f", "mast_low", "scuff"),)), kb).findings

    assert not scuff.verdict.settled
    assert ["spar"] == [check.scale for check in scuff.checks]


@settings(max_examples=25)
@given(data=st.data())
def test_what_is_open_names_a_check_and_what_is_settled_names_none(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=2))

    for finding in assess_survey(Survey(boat, found), kb).findings:
        every = (finding.verdict, finding.afloat.range, finding.tow.range)
        if not finding.looked_at_only:
            assert bool(finding.checks) == any(not one.settled for one in every)


@settings(max_examples=20)
@given(data=st.data())
def test_road_gear_and_hull_say_nothing_of_each_other(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=4))
    wheels = {*kb.groups["road_gear"].zones, *kb.groups["trolley"].zones}
    road, hull = ([one for one in found if (one.zone in wheels) == on_wheels] for on_wheels in (True, False))

    together = dict(zip((one.id for one in found), ranges(kb, boat, found), strict=True))

    apart = {one.id: each for some in (road, hull) for one, each in zip(some, ranges(kb, boat, some), strict=True)}
    assert apart == together


@pytest.mark.parametrize("sign", ["tyre_old", "wheel_rough"])
def test_a_perfect_hull_never_hides_bad_wheels(kb: KnowledgeBase, sign: str) -> None:
    worst = {s: Reading.at(kb.worst(sign, s)) for s in kb.applicable("trailer_run", sign)}
    hull = Finding("hull", "topside", "nothing_seen", readings={"tap_dull": Reading.at(0, "rings")})

    assessment = assess_survey(Survey(BOAT, (hull, Finding("wheels", "trailer_run", sign, None, worst))), kb)

    assert (True, "do not tow") == (assessment.tow.range.settled, assessment.tow.range.worst)
    assert not assessment.settled_and_fit


@settings(max_examples=25)
@given(data=st.data())
def test_nobody_is_told_to_go_ahead_while_something_is_or_may_be_structural(data: st.DataObject) -> None:
    kb = shipped()
    boat, found = data.draw(boats_with_findings(kb, most=2))
    gravest, tow = kb.level_name(VERDICT, kb.scales[VERDICT].top), kb.level_name(TOW, 0)

    assessment = assess_survey(Survey(boat, found), kb)

    may_be_structural = [one for one in assessment.findings if one.verdict.worst == gravest]
    assert not (may_be_structural and assessment.settled_and_fit)
    assert not (may_be_structural and headline(assessment).startswith(("Cosmetic", "Monitor")))
    if assessment.settled_and_fit:
        assert assessment.tow.range.worst == tow
        assert not any(one.checks for one in assessment.findings if not one.looked_at_only)
