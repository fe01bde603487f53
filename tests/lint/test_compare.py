"""What an edit made of every mark."""

from __future__ import annotations

from tests.mistakes import small_base
from triage.lint.compare import ALL_BEST, ALL_WORST, NOTHING, MarkChange, Shift, compare, gathered, marks, outcomes

GIVES = "panel_give: {at_least: soft}}\n    raises: "
SOFT = GIVES + "{laminate: 1}", GIVES + "{laminate: 2}"


def changed(*changes: tuple[str, str], **grafted: str) -> list[MarkChange]:
    return list(compare(small_base(), small_base(*changes, **grafted)))


def test_nothing_changed_where_only_words_did() -> None:
    assert [] == changed(("A panel gives where its glass no longer holds together.", "It gives."))


def test_a_raise_is_told_of_every_mark_with_what_it_takes() -> None:
    found = changed(SOFT)

    assert [("stem", "hairline"), ("stem", "long_crack"), ("stem", "nothing_seen")] == [
        change.mark for change in found if change.mark[0] == "stem"
    ]
    gives, worst = ("panel_give", 1), ALL_WORST
    assert Shift("verdict", "monitor", "structural", frozenset({gives, worst}), False) in found[0].shifts
    assert Shift("tow", "tow", "do not tow", frozenset({gives, worst}), False) in found[0].shifts
    unanswered = next(shift for shift in found[0].shifts if NOTHING in shift.situations)
    assert ("verdict", "cosmetic to monitor", "cosmetic to structural") == (
        unanswered.outcome,
        unanswered.before,
        unanswered.after,
    )
    assert ALL_BEST not in {situation for change in found for shift in change.shifts for situation in shift.situations}


def test_every_mark_whose_outcome_differs_somewhere_is_told_and_no_other() -> None:
    """Against the long way round: every mark at every single answer, judged under both."""
    before, after = small_base(), small_base(SOFT)
    found = {change.mark for change in compare(before, after)}

    expected = set()
    for mark in marks(after):
        scales = after.applicable(*mark)
        ways = [{}, *({scale: level} for scale in scales for level in range(after.worst(mark[1], scale) + 1))]
        allowed = [way for way in ways if all(level >= after.best(mark[1], scale) for scale, level in way.items())]
        if any(outcomes(before, mark, way) != outcomes(after, mark, way) for way in allowed):
            expected.add(mark)

    assert expected == found
    assert 0 < len(found) < len(marks(after))


def test_what_holds_with_nothing_answered_and_any_one_answer_is_said_so() -> None:
    always = """
rules:
  - id: tank/any
    when: {zone: tank, sign: open_leak}
    raises: {hands: 1}
    because: It is a tank.
    basis: estimate
    cases:
      - {given: {zone: tank, sign: open_leak}, expect: fires}
      - {given: {zone: stem}, expect: silent}
"""

    (change,) = changed(grafted=always)

    assert ("tank", "open_leak") == change.mark
    assert [("hands", "nothing to do", "repairer", True)] == [
        (shift.outcome, shift.before, shift.after, shift.whatever) for shift in change.shifts
    ]


def test_new_and_lost_marks_and_readings_are_told() -> None:
    offer = "offers: [{zones: [tank], signs: [hairline]}]\n"
    judged = ("about: [leak_rate]\n    scales: [leak_rate]", "about: [leak_rate]\n    scales: [leak_rate, panel_give]")

    (new,) = changed(offer=offer)
    (lost,) = compare(small_base(offer=offer), small_base())
    (wider,) = changed(judged)

    assert ("tank", "hairline") == new.mark == lost.mark
    assert ("verdict", "cosmetic") == new.met[0] == lost.gone[0]
    assert (("panel_give",), ()) == (wider.judged, wider.unjudged)


LONG_LINE = (
    "crack_length: {at_least: 1}, panel_give: {at_least: 1}}\n    raises",
    "crack_length: {at_least: 1}}\n    raises",
)
PRESUMED = "presumes: {crack_length: 0}", "presumes: {crack_length: 1}"


def test_what_only_shows_on_boats_built_in_some_way_is_told_with_the_boat() -> None:
    before, after = small_base(LONG_LINE), small_base(LONG_LINE, PRESUMED)

    (change,) = compare(before, after)

    assert (("side_deck", "hairline"), (("deck", "single"),)) == (change.mark, change.boat)
    assert [("verdict", "cosmetic", "cosmetic to structural", frozenset({("panel_give", 0)}))] == [
        (shift.outcome, shift.before, shift.after, shift.situations)
        for shift in change.shifts
        if shift.outcome == "verdict"
    ]


NEW_FACT = """
facts:
  keel:
    asks: What keel has she?
    values: {lead: lead, board: a board}
rules:
  - id: presume/lead
    when: {zone: side_deck, sign: hairline, keel: lead, panel_give: {at_most: 0}}
    presumes: {crack_length: 0}
    because: Lead keeps her upright.
    basis: estimate
    cases:
      - {given: {zone: side_deck, sign: hairline, keel: lead, panel_give: 0}, expect: fires}
      - {given: {zone: side_deck, sign: hairline, keel: board, panel_give: 0}, expect: silent}
"""


def test_a_fact_that_only_the_new_rules_know_is_tried_and_the_old_ones_are_not_asked_about_it() -> None:
    (change,) = compare(small_base(LONG_LINE), small_base(LONG_LINE, fact=NEW_FACT))

    assert (("side_deck", "hairline"), (("keel", "lead"),)) == (change.mark, change.boat)


def test_an_answer_that_only_the_new_rules_know_is_tried_too() -> None:
    wider = (
        "{single: one skin of glass, cored: foam between two skins}",
        "{single: one skin, cored: foam, ply: plywood}",
    )
    rule = NEW_FACT[NEW_FACT.index("rules:") :].replace("keel: lead", "deck: ply").replace("keel: board", "deck: cored")

    (change,) = compare(small_base(LONG_LINE), small_base(LONG_LINE, wider, rule=rule))

    assert (("side_deck", "hairline"), (("deck", "ply"),)) == (change.mark, change.boat)


def test_marks_that_changed_alike_stand_together_the_most_first() -> None:
    groups = gathered(changed(SOFT))

    assert sorted((len(group) for group in groups), reverse=True) == [len(group) for group in groups]
    assert len({change.mark for group in groups for change in group}) == sum(map(len, groups))
    for group in groups:
        assert 1 == len({change.alike for change in group})
