"""The record that a rule leaves when it fires, and whom it rests on."""

from __future__ import annotations

from collections.abc import Sequence

from tests.inference.small import boat, finding, knowledge, rule
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Bound, Firing
from triage.knowledge.model import Rule
from triage.knowledge.model.conditions import All, Any, AtLeast, Elsewhere, Is
from triage.survey.model import Boat, Finding

UNKNOWN_BOAT = boat()


def fired(rules: Sequence[Rule], *findings: Finding, at: Bound = "lower", on: Boat = UNKNOWN_BOAT) -> dict[str, Firing]:
    """What fired on the first finding, by rule."""
    judged = evaluate(knowledge(*rules), on, findings)[0]
    return {firing.rule.id: firing for firing in judged.end(at).firings}


def test_it_tells_what_it_raised_from_where_to_where() -> None:
    first = rule("first", AtLeast("give", 1), {"glass": 1, "hold": 2})
    further = rule("further", AtLeast("give", 1), {"glass": 3, "hold": 2})

    found = fired([first, further], finding("rim", "line", give=1))

    assert (("glass", 0, 1), ("hold", 0, 2)) == found["first"].raised
    assert (("glass", 1, 3),) == found["further"].raised


def test_it_tells_by_which_of_its_alternatives_it_holds() -> None:
    either = rule("either", Any((AtLeast("give", 2), AtLeast("sound", 1))), {"glass": 1})

    found = fired([either], finding("rim", "line", sound=2))

    assert (("sound", 1),) == found["either"].conjunct.levels


def test_it_names_each_finding_that_it_rests_on_once() -> None:
    line = Is("sign", ("line",))
    two = rule("two", All((line, Elsewhere(AtLeast("play", 1)), Elsewhere(AtLeast("give", 1)))), {"glass": 1})

    found = fired(
        [two], finding("rim", "line"), finding("tank", "loose", play=1, give=1), finding("step", "loose", give=2)
    )

    assert ("tank.loose", "step.loose") == found["two"].witnesses


def test_whom_it_rests_on_may_differ_between_the_ends() -> None:
    twins = rule("twins", All((Is("sign", ("line",)), Elsewhere(Is("sign", ("line",)), where="twin"))), {"glass": 1})
    three = (finding("deck", "line", "port"), finding("deck", "line", "starboard"), finding("deck", "line"))

    assert ("deck.starboard.line",) == fired([twins], *three)["twins"].witnesses
    assert ("deck.starboard.line", "deck.line") == fired([twins], *three, at="upper")["twins"].witnesses


def test_a_fact_nobody_knows_makes_no_witness_for_certain() -> None:
    cored = All((Is("build", ("cored",)), AtLeast("give", 1)))
    beside = rule("beside", All((Is("zone", ("rim",)), Elsewhere(cored))), {"glass": 1})
    two = (finding("rim", "line"), finding("tank", "line", give=1))

    assert {} == fired([beside], *two)
    assert {"beside"} == fired([beside], *two, at="upper").keys()
    assert {"beside"} == fired([beside], *two, on=boat(build="cored")).keys()
    assert {} == fired([beside], *two, at="upper", on=boat(build="single"))
