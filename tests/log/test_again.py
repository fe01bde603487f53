"""The same mark again: found by place, side and sign; compared with its errors; proposed, and never more."""

from __future__ import annotations

import datetime
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.log.keepers import DAY, wagtail
from triage.knowledge.model import KnowledgeBase
from triage.log.again import Thread, next_visit, threads
from triage.log.boats import Entry
from triage.log.comparing import Compared, compared
from triage.survey.model import Boat, Finding, Reading, Survey
from triage.survey.readings import reading_of

LINE = Finding("line", "side_deck", "hairline", "port")


def on(days: int) -> datetime.date:
    return DAY + datetime.timedelta(days=days)


def line(kb: KnowledgeBase, length: str, **words: str) -> Finding:
    return replace(LINE, readings={"crack_length": reading_of(kb.scales["crack_length"], length)}, **words)  # type: ignore[arg-type]


def through(kb: KnowledgeBase, *lengths: tuple[int, str]) -> Thread:
    (thread,) = threads((f"v{days}", wagtail(line(kb, said), on=on(days))) for days, said in lengths)
    return thread


def come_to(kb: KnowledgeBase, *lengths: tuple[int, str]) -> Compared:
    found = compared(kb, through(kb, *lengths))
    assert found is not None
    return found


def test_the_same_kind_of_mark_at_the_same_place_and_side_is_the_same() -> None:
    other = replace(LINE, id="x", side="starboard")

    found = threads([("a", wagtail(LINE, other)), ("b", wagtail(replace(other, id="y"), replace(LINE, id="z")))])

    assert [("port", ["line", "z"]), ("starboard", ["x", "y"])] == [
        (one.kind[1], [seen.finding.id for seen in one.seen]) for one in found
    ]


def test_of_several_of_a_kind_those_of_one_id_are_the_same() -> None:
    first, second = replace(LINE, id="first"), replace(LINE, id="second")

    for later in ((first, second), (second, first)):
        found = threads([("a", wagtail(first, second)), ("b", wagtail(*later))])
        assert [["first"] * 2, ["second"] * 2] == [[seen.finding.id for seen in one.seen] for one in found]

    new = threads([("a", wagtail(first)), ("b", wagtail(replace(LINE, id="new"), first))])
    assert [["first"] * 2, ["new"]] == [[seen.finding.id for seen in one.seen] for one in new]


def test_two_marks_of_one_visit_are_never_one() -> None:
    assert 2 == len(threads([("a", wagtail(LINE, replace(LINE, id="other")))]))


def test_a_part_looked_at_without_a_mark_is_no_mark() -> None:
    assert () == threads([("a", wagtail(Finding("look", "side_deck", "nothing_seen", "port")))])


def test_a_mark_has_the_day_it_was_seen_on_else_that_of_the_visit() -> None:
    found = threads([("a", wagtail(replace(LINE, seen_on=on(-9)))), ("b", wagtail(LINE, on=None))])

    assert [on(-9), None] == [seen.day for seen in found[0].seen]


def test_growth_is_told_from_measuring(kb: KnowledgeBase) -> None:
    grew = come_to(kb, (0, "60 mm"), (365, "70 mm"))
    may_have = come_to(kb, (0, "60 mm"), (365, "62 mm"))

    assert grew.growth.shows
    assert "7.2 to 13 mm" == grew.proposed
    assert (2, 3) == (lambda one: (one.low, one.high))(reading_of(kb.scales["growth"], grew.proposed))
    assert not may_have.growth.shows
    assert "still for a season" == may_have.proposed


@pytest.mark.parametrize(
    ("lengths", "proposed"),
    [
        (((0, "60 mm"), (30, "60 mm")), ""),  # too soon
        (((0, "about 60 mm"), (365, "about 60 mm")), ""),  # too coarse
        (((0, "60 mm"), (200, "60 mm")), "still for a season"),
        (((0, "60 mm"), (400, "60 mm")), "still for a season"),
        (((0, "60 mm"), (7, "75 mm")), "640 to 930 mm"),
    ],
)
def test_what_is_proposed(kb: KnowledgeBase, lengths: tuple[tuple[int, str], ...], proposed: str) -> None:
    assert proposed == come_to(kb, *lengths).proposed


@given(
    st.lists(st.tuples(st.integers(0, 3000), st.integers(1, 400)), min_size=2, max_size=6, unique_by=lambda one: one[0])
)
def test_whatever_is_proposed_can_be_answered(kb: KnowledgeBase, measured: list[tuple[int, int]]) -> None:
    found = come_to(kb, *((days, f"{length} mm") for days, length in sorted(measured)))

    if found.proposed:
        reading = reading_of(kb.scales["growth"], found.proposed)
        assert reading.low is not None
        assert (reading.low >= 2) == found.growth.shows
        assert reading.low >= 1  # what is presumed of growth; a sum takes no concern away
    if found.reaches:
        assert found.reaches[1] <= (found.reaches[2] or datetime.date.max)


def test_it_says_when_it_comes_to_the_next_length_that_matters(kb: KnowledgeBase) -> None:
    found = come_to(kb, (0, "100 mm"), (365, "120 mm"))

    assert found.reaches is not None
    length, first, last = found.reaches
    assert 150 == length
    assert last is not None
    assert on(365 + 365) < first < last
    assert come_to(kb, (0, "100 mm"), (365, "100 mm")).reaches is None


def test_it_says_from_when_another_look_tells_something(kb: KnowledgeBase) -> None:
    fine, coarse = come_to(kb, (0, "60 mm"), (365, "60 mm")), come_to(kb, (0, "about 60 mm"), (365, "about 60 mm"))

    assert on(365) < fine.again < coarse.again


def test_what_was_not_measured_or_measured_once_is_not_compared(kb: KnowledgeBase) -> None:
    said = replace(LINE, readings={"crack_length": Reading.at(2)})

    assert compared(kb, through(kb, (0, "60 mm"))) is None
    assert compared(kb, threads([("a", wagtail(said)), ("b", wagtail(said, on=on(9)))])[0]) is None
    assert compared(kb, threads([("a", wagtail(line(kb, "60 mm"))), ("b", wagtail(line(kb, "70 mm")))])[0]) is None
    assert compared(kb, through(kb, (0, "60 mm"), (365, "over 60 mm"))) is None


def entry(what: str, days: int, mark: str = "") -> Entry:
    return Entry("side_deck", "port", "hairline", what, on(days), "Kim", mark)  # type: ignore[arg-type]


def test_mended_then_looked_at_again_then_closed() -> None:
    seen = [("a", wagtail(LINE))]
    (mended,) = threads(seen, [entry("mended", 3)])
    (closed,) = threads(seen, [entry("mended", 3), entry("closed", 20)])

    assert (entry("mended", 3), None) == (mended.mended, mended.closed)
    assert (None, entry("closed", 20)) == (closed.mended, closed.closed)


def test_what_is_found_again_after_a_mend_has_come_back() -> None:
    seen = [("a", wagtail(LINE)), ("b", wagtail(LINE, on=on(30)))]

    for what in ("mended", "closed"):
        (thread,) = threads(seen, [entry(what, 3)])
        assert thread.came_back
        assert (None, None) == (thread.mended, thread.closed)
    (on_the_day,) = threads(seen, [entry("mended", 30)])
    assert not on_the_day.came_back


def test_the_next_visit_is_to_the_same_boat_with_the_marks_that_stand(kb: KnowledgeBase) -> None:
    boat = Boat("Wagtail", {"deck": "single"}, 4.2, attempted=frozenset({("hull", "")}))
    look = Finding("look", "foredeck", "nothing_seen")
    last = Survey(boat, (look, replace(LINE, photos=("a.jpg",))), DAY, by="Kim", history={"frost": "yes"})

    begun = next_visit(kb, [("a", last)], [], on(300))

    stands = replace(LINE, seen_on=DAY)
    assert Survey(Boat("Wagtail", {"deck": "single"}, 4.2), (stands,), on(300)) == begun


def test_a_mark_stands_from_visit_to_visit_with_the_day_it_was_really_seen(kb: KnowledgeBase) -> None:
    visits = [("a", wagtail(line(kb, "30 mm")))]
    for number in (1, 2):
        visits.append((f"{number}", next_visit(kb, visits, [], on(100 * number))))

    (thread,) = threads(visits)
    (mark,) = visits[-1][1].findings
    assert (DAY, "30 mm") == (mark.seen_on, mark.readings["crack_length"].said)
    assert (["a"], ["1", "2"]) == ([one.visit for one in thread.seen], [one.visit for one in thread.stands])
    assert compared(kb, thread) is None


def test_what_the_diary_calls_mended_stands_no_more_until_it_is_found_again(kb: KnowledgeBase) -> None:
    for what in ("mended", "closed"):
        told = [entry("mended", 2), entry(what, 3)]
        assert () == next_visit(kb, [("a", wagtail(LINE))], told, on(9)).findings
        assert next_visit(kb, [("a", wagtail(LINE)), ("b", wagtail(LINE, on=on(5)))], told, on(9)).findings
    assert next_visit(kb, [("a", wagtail(LINE))], [entry("mended", 2), entry("open", 3)], on(9)).findings


def test_of_two_alike_both_stand_until_both_were_mended(kb: KnowledgeBase) -> None:
    visits = [("a", wagtail(LINE, replace(LINE, id="other")))]

    assert 2 == len(next_visit(kb, visits, [entry("mended", 2)], on(9)).findings)
    assert () == next_visit(kb, visits, [entry("mended", 2), entry("mended", 2)], on(9)).findings


def test_of_two_alike_the_one_that_the_diary_names_was_mended_and_the_other_stands(kb: KnowledgeBase) -> None:
    visits = [("a", wagtail(LINE, replace(LINE, id="other")))]

    for told in ([entry("mended", 2, "other")], [entry("mended", 2, "other"), entry("closed", 3, "other")]):
        assert ["line"] == [one.id for one in next_visit(kb, visits, told, on(9)).findings]
        assert [0, len(told)] == [len(one.entries) for one in threads(visits, told)]
    assert () == next_visit(kb, visits, [entry("mended", 2, "other"), entry("mended", 3, "line")], on(9)).findings
    reopened = [entry("mended", 2, "other"), entry("open", 3, "other")]
    assert 2 == len(next_visit(kb, visits, reopened, on(9)).findings)


def test_a_line_that_names_a_mark_nobody_knows_speaks_of_all_alike(kb: KnowledgeBase) -> None:
    two = [("a", wagtail(LINE, replace(LINE, id="other")))]

    assert 2 == len(next_visit(kb, two, [entry("mended", 2, "gone")], on(9)).findings)
    assert () == next_visit(kb, [("a", wagtail(LINE))], [entry("mended", 2, "gone")], on(9)).findings


def test_an_id_that_two_alike_have_had_names_neither(kb: KnowledgeBase) -> None:
    visits = [
        ("a", wagtail(replace(LINE, id="x"))),
        ("b", wagtail(replace(LINE, id="y"), on=on(1))),
        ("c", wagtail(replace(LINE, id="x"), replace(LINE, id="y"), on=on(2))),
    ]

    assert [{"x", "y"}, {"x"}] == [set(one.ids) for one in threads(visits)]
    assert 2 == len(next_visit(kb, visits, [entry("mended", 3, "x")], on(9)).findings)


def test_a_new_mark_beside_one_of_its_kind_that_stands_hides_it_never(kb: KnowledgeBase) -> None:
    first = [("a", wagtail(LINE))]
    second = next_visit(kb, first, [], on(9))
    beside = replace(second, findings=(replace(LINE, id="a new one"), *second.findings))

    assert {"a new one", "line"} == {one.id for one in next_visit(kb, [*first, ("b", beside)], [], on(20)).findings}


def test_that_it_had_grown_stands_and_that_it_had_not_does_not(kb: KnowledgeBase) -> None:
    for level, stands in ((1, False), (2, True)):
        mark = replace(LINE, readings={"growth": Reading.at(level)})
        (begun,) = next_visit(kb, [("a", wagtail(mark))], [], on(9)).findings
        assert stands == ("growth" in begun.readings)
