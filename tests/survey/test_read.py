"""Reading surveys: many ways to say a thing, one meaning."""

from __future__ import annotations

import datetime
import itertools
import json
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.mistakes import small_base
from tests.strategies import boats_with_findings, spoilt
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Finding, Reading, Survey
from triage.survey.read import read_survey, survey_from, survey_from_text
from triage.survey.validity import LONGEST, MAX_FINDINGS, SHORTEST

TODAY = datetime.date.today()
DAY = datetime.timedelta(days=1)


def survey(kb: KnowledgeBase, findings: list[dict[str, Any]], **rest: Any) -> Survey:
    """The survey of Wagtail with these findings, by way of a JSON file."""
    return survey_from_text(json.dumps({"boat": {"name": "Wagtail"}, "findings": findings} | rest), kb)


def finding(kb: KnowledgeBase, **said: Any) -> Finding:
    (found,) = survey(kb, [said]).findings
    return found


def reading(kb: KnowledgeBase, scale: str, said: Any) -> Reading:
    sign = {"fitting_play": "play", "leak_rate": "open_leak"}.get(scale, "long_crack" if said == "3 m" else "hairline")
    zone = {"play": "chainplate", "open_leak": "tank"}.get(sign, "side_deck")
    return finding(kb, zone=zone, sign=sign, readings={scale: said}).readings[scale]


def asked(kb: KnowledgeBase, findings: list[dict[str, Any]], **rest: Any) -> list[str]:
    with pytest.raises(BadSurvey) as raised:
        survey(kb, findings, **rest)
    return [problem.what for problem in raised.value.problems]


# Names


@pytest.mark.parametrize("zone", ["side_deck", "Side deck", "SIDE  DECK", "side-deck", " side deck "])
@pytest.mark.parametrize("sign", ["hairline", "Single hairline", "single-hairline"])
@pytest.mark.parametrize("scale", ["panel_give", "Spring of the panel", "spring of the panel"])
@pytest.mark.parametrize("level", [1, "1", "soft", "Soft"])
def test_a_thing_may_be_called_by_its_id_or_its_name_however_it_is_typed(
    small: KnowledgeBase, zone: str, sign: str, scale: str, level: str | int
) -> None:
    found = finding(small, zone=zone, sign=sign, readings={scale: level})

    assert ("side_deck", "hairline", {"panel_give": 1}) == (found.zone, found.sign, found.upper)


@pytest.mark.parametrize("name", ["chainplate", "Shroud anchor", "shroud plate"])
def test_a_zone_answers_to_every_trade_name(small: KnowledgeBase, name: str) -> None:
    assert "chainplate" == finding(small, zone=name, sign="play").zone


def all_of(kb: KnowledgeBase, said: list[dict[str, Any]]) -> list[Finding]:
    """Many findings, in the order they were said, read as one survey after another."""
    found: dict[str, Finding] = {}
    for start in range(0, len(said), MAX_FINDINGS):
        part = enumerate(said[start : start + MAX_FINDINGS], start=start)
        found |= {one.id: one for one in survey(kb, [one | {"id": str(number)} for number, one in part]).findings}
    return [found[str(number)] for number in range(len(said))]


def test_every_name_in_the_shipped_rules_leads_home(kb: KnowledgeBase) -> None:
    zones = [(zone.id, name) for zone in kb.zones.values() for name in (zone.id, zone.name, *zone.trade.split(","))]
    signs = [(zone, sign) for zone, offered in kb.offers.items() for sign in offered]

    by_zone = all_of(kb, [{"zone": name.upper(), "sign": kb.offers[zone][0]} for zone, name in zones])
    by_sign = all_of(kb, [{"zone": zone, "sign": kb.signs[sign].name} for zone, sign in signs])

    assert [zone for zone, _ in zones] == [one.zone for one in by_zone]
    assert signs == [(one.zone, one.sign) for one in by_sign]


def test_every_level_in_the_shipped_rules_may_be_said_by_name_or_number(kb: KnowledgeBase) -> None:
    met: dict[str, tuple[str, str]] = {}
    for zone, offered in kb.offers.items():
        for sign in offered:
            for scale in kb.applicable(zone, sign):
                if sign == "nothing_seen" or kb.about(zone, sign) == (scale,):
                    met.setdefault(scale, (zone, sign))
    levels = [
        (scale, level, said)
        for scale, (_, sign) in met.items()
        for level in range(kb.best(sign, scale), kb.worst(sign, scale) + 1)
        for said in (level, str(level), kb.level_name(scale, level))
    ]

    read = all_of(
        kb, [{"zone": met[scale][0], "sign": met[scale][1], "readings": {scale: said}} for scale, _, said in levels]
    )

    assert len(levels) > 300
    assert [level for _, level, _ in levels] == [
        one.upper[scale] for one, (scale, _, _) in zip(read, levels, strict=True)
    ]


# Readings


@pytest.mark.parametrize(
    ("scale", "said", "level", "value"),
    [
        ("crack_length", "49 mm", 0, 49),
        ("crack_length", "50 mm", 1, 50),
        ("crack_length", "5 cm", 1, 50),
        ("crack_length", "2 inches", 1, 50.8),
        ("crack_length", "1 15/16 inch", 0, 49.2125),
        ("crack_length", "3 m", 2, 3000),
        ("panel_give", "24,9 %", 0, 24.9),
        ("panel_give", "25 per cent", 1, 25),
        ("leak_rate", "1 ml/h", 1, 0.001),
        ("leak_rate", "1 L/h", 2, 1),
        ("leak_rate", "1/2 pint per hour", 1, 0.284130625),
    ],
)
def test_a_measurement_becomes_the_level_its_limits_say(
    small: KnowledgeBase, scale: str, said: str, level: int, value: float
) -> None:
    assert Reading(level, level, said, (value, value)) == reading(small, scale, said)


@pytest.mark.parametrize(
    ("scale", "said", "level"), [("crack_length", "long", 1), ("crack_length", 1, 1), ("panel_give", "0", 0)]
)
def test_an_answer_by_word_or_number_carries_no_measurement(
    small: KnowledgeBase, scale: str, said: str | int, level: int
) -> None:
    assert Reading.at(level, str(said)) == reading(small, scale, said)


@pytest.mark.parametrize(
    "said",
    ["could not tell", "Could not tell", "couldn't tell", "couldn’t tell", "can't tell", "not tried", "unknown", "?"],
)
def test_could_not_tell_stays_unknown(small: KnowledgeBase, said: str) -> None:
    found = finding(small, zone="side_deck", sign="hairline", readings={"panel_give": said})

    assert Reading.attempted() == found.readings["panel_give"]
    assert {} == found.upper


def test_named_checks_of_a_zone_may_be_answered_under_any_sign(small: KnowledgeBase) -> None:
    assert {"fitting_play": 1} == finding(small, zone="chainplate", sign="hairline", readings={"fitting_play": 1}).upper


# The boat and the visit


def boat(kb: KnowledgeBase, **said: Any) -> Any:
    return survey(kb, [], boat={"name": "Wagtail"} | said).boat


def test_a_fact_is_known_by_its_value_and_unknown_by_silence(small: KnowledgeBase) -> None:
    assert {"deck": "single"} == boat(small, facts={"deck": "Single"}).facts
    assert {} == boat(small, facts={"deck": "unknown"}).facts
    assert {} == boat(small).facts


def test_a_fact_that_nobody_could_tell_is_remembered_as_tried(small: KnowledgeBase) -> None:
    tried = boat(small, facts={"deck": "could not tell"}, encloses_buoyancy={"Side tank": "could not tell"})

    assert ({}, {}) == (tried.facts, tried.encloses_buoyancy)
    assert {("deck", ""), ("encloses_buoyancy", "tank")} == tried.attempted


@pytest.mark.parametrize("answer", ["yes", "no"])
def test_a_boat_may_say_which_of_her_spaces_hold_her_up(small: KnowledgeBase, answer: str) -> None:
    assert {"tank": answer} == boat(small, encloses_buoyancy={"buoyancy tank": answer}).encloses_buoyancy


@pytest.mark.parametrize(
    ("said", "metres"), [("4.2 m", 4.2), ("420 cm", 4.2), ("14 ft", 4.2672), ("14'", 4.2672), ("13 1/2 feet", 4.1148)]
)
def test_a_length_is_kept_in_metres(small: KnowledgeBase, said: str, metres: float) -> None:
    assert metres == boat(small, length=said).length


def test_the_shortest_and_the_longest_boat_are_let_in_and_no_other(small: KnowledgeBase) -> None:
    assert (SHORTEST, LONGEST) == (
        boat(small, length=f"{SHORTEST} m").length,
        boat(small, length=f"{LONGEST} m").length,
    )
    for said in (f"{SHORTEST - 0.01} m", f"{LONGEST + 0.01} m", "0 m", "-4 m"):
        assert 1 == len(asked(small, [], boat={"name": "Wagtail", "length": said}))


def test_a_crack_may_be_as_long_as_the_boat_and_no_longer(small: KnowledgeBase) -> None:
    short = {"name": "Wagtail", "length": "2.5 m"}
    crack: dict[str, Any] = {"zone": "side_deck", "sign": "long_crack"}

    assert survey(small, [crack | {"readings": {"crack_length": "2500 mm"}}], boat=short)
    assert ["“Length of the crack” is longer than the boat: 2501 mm"] == asked(
        small, [crack | {"readings": {"crack_length": "2501 mm"}}], boat=short
    )


def test_a_crack_is_compared_with_the_longest_boat_while_her_length_is_unknown(small: KnowledgeBase) -> None:
    assert ["“Length of the crack” is longer than any boat of this kind: 11 m"] == asked(
        small, [{"zone": "side_deck", "sign": "long_crack", "readings": {"crack_length": "11 m"}}]
    )


def test_there_may_be_as_many_findings_as_the_limit_and_no_more(small: KnowledgeBase) -> None:
    many = [{"zone": "stem", "sign": "hairline"}] * 300

    assert 300 == len(survey(small, many).findings)
    assert ['"findings" is too long'] == asked(small, [*many, many[0]])


@pytest.mark.parametrize("days", [-4000, -1, 0, 1])
def test_a_date_may_be_today_and_tomorrow_because_it_is_tomorrow_somewhere(small: KnowledgeBase, days: int) -> None:
    date = TODAY + days * DAY

    read = survey(small, [{"zone": "stem", "sign": "hairline", "on": str(date)}], visit={"on": str(date)})

    assert (date, date) == (read.seen_on, read.findings[0].seen_on)


def test_a_date_later_than_that_is_asked_about(small: KnowledgeBase) -> None:
    date = TODAY + 3 * DAY

    assert [f"{date} has not come yet"] * 2 == asked(
        small, [{"zone": "stem", "sign": "hairline", "on": str(date)}], visit={"on": str(date)}
    )


@pytest.mark.parametrize("written", ["20260411", 20260411, 0, "1700006400", "2026-04-11T00:00", "2026-4-11", "11/4/26"])
def test_a_date_is_year_month_day_and_nothing_else(small: KnowledgeBase, written: str | int) -> None:
    assert [f'"on" should be a date such as 2026-04-12, not "{written}"'] == asked(small, [], visit={"on": written})


def test_what_was_said_beside_the_readings_is_kept(small: KnowledgeBase) -> None:
    said = {"zone": "tank", "side": "port", "sign": "open_leak", "note": "⛵ Bubbles.", "photos": ["a.jpg", "b.jpg"]}

    read = survey(small, [said], visit={"on": "2026-04-11", "by": "Ines", "note": "Cold."})

    assert ("⛵ Bubbles.", ("a.jpg", "b.jpg"), "port") == (
        read.findings[0].note,
        read.findings[0].photos,
        read.findings[0].side,
    )
    assert ("Ines", "Cold.", datetime.date(2026, 4, 11)) == (read.by, read.note, read.seen_on)


def test_a_boat_without_findings_is_a_survey(small: KnowledgeBase) -> None:
    assert () == survey(small, []).findings == survey_from_text("boat: {name: Wagtail}\n", small).findings


# Ids and order

MARKS: list[dict[str, Any]] = [
    {"zone": "tank", "side": "port", "sign": "open_leak", "readings": {"leak_rate": "drips"}},
    {
        "zone": "side_deck",
        "sign": "hairline",
        "readings": {"crack_length": "60 mm", "panel_give": "firm"},
        "note": "aft",
    },
    {
        "zone": "side_deck",
        "sign": "hairline",
        "readings": {"panel_give": "firm", "crack_length": "61 mm"},
        "note": "aft",
    },
    {"zone": "side_deck", "sign": "hairline", "on": "2026-04-11"},
    {"zone": "side_deck", "sign": "hairline", "on": "2026-04-10"},
    {"zone": "stem", "sign": "nothing_seen"},
]


def test_findings_are_named_after_place_side_and_sign(small: KnowledgeBase) -> None:
    assert [
        "stem.nothing_seen",
        "side_deck.hairline",
        "side_deck.hairline.2",
        "side_deck.hairline.3",
        "side_deck.hairline.4",
        "tank.port.open_leak",
    ] == [found.id for found in survey(small, MARKS).findings]


@pytest.mark.parametrize("order", list(itertools.permutations(range(len(MARKS))))[::7])
def test_the_order_of_the_findings_makes_no_difference(small: KnowledgeBase, order: tuple[int, ...]) -> None:
    assert survey(small, MARKS) == survey(small, [MARKS[index] for index in order])


def test_the_order_of_readings_and_facts_makes_no_difference_not_even_to_their_own_order(kb: KnowledgeBase) -> None:
    facts = {fact.id: next(iter(fact.values)) for fact in kb.facts.values()}
    scales = kb.applicable("side_deck", "hairline")
    said = {"zone": "side_deck", "sign": "hairline"}

    one, other = (
        survey(
            kb,
            [said | {"readings": dict.fromkeys(turn(scales), "could not tell")}],
            boat={"name": "Wagtail", "facts": dict(turn(facts.items()))},
        )
        for turn in (list, lambda things: list(reversed(list(things))))
    )

    assert one == other
    assert list(one.findings[0].readings) == list(other.findings[0].readings)
    assert list(one.boat.facts) == list(other.boat.facts)


def test_an_id_of_ones_own_is_kept_and_never_given_to_another(small: KnowledgeBase) -> None:
    ids = ["stem.hairline", "stem.hairline.2", "", "", "mine"]

    read = survey(small, [{"zone": "stem", "sign": "hairline", "id": id_} for id_ in ids])

    assert {*ids[:2], "mine", "stem.hairline.3", "stem.hairline.4"} == {found.id for found in read.findings}


@given(st.lists(st.sampled_from(["", "", "stem.hairline.2", "stem.hairline.3", "a"]), max_size=6))
def test_ids_are_unique_or_asked_about(ids: list[str]) -> None:
    said = [{"zone": "stem", "sign": "hairline", "id": id_} for id_ in ids]
    own = [id_ for id_ in ids if id_]

    if len(set(own)) < len(own):
        assert all("is already that of the finding" in what for what in asked(KB, said))
    else:
        assert len(ids) == len({found.id for found in survey(KB, said).findings})


# Files and forms


def test_yaml_and_json_say_the_same(small: KnowledgeBase) -> None:
    said = {"boat": {"name": "Wagtail", "facts": {"deck": "single"}}, "findings": MARKS}

    assert survey_from_text(yaml.safe_dump(said), small) == survey_from_text(json.dumps(said), small)


def test_a_file_is_read_and_remembers_where_it_came_from(tmp_path: Path, small: KnowledgeBase) -> None:
    (tmp_path / "wagtail.yaml").write_text("boat: {name: Wagtail}\n", encoding="utf-8")

    assert str(tmp_path / "wagtail.yaml") == read_survey(tmp_path / "wagtail.yaml", small).source


@pytest.mark.parametrize(("name", "told"), [("nowhere.yaml", "No such file"), (".", "Is a directory")])
def test_a_file_that_cannot_be_opened_is_a_problem_and_not_a_crash(
    tmp_path: Path, small: KnowledgeBase, name: str, told: str
) -> None:
    with pytest.raises(BadSurvey, match=f"cannot be opened: {told}"):
        read_survey(tmp_path / name, small)


def test_the_examples_are_read(kb: KnowledgeBase, root: Path) -> None:
    examples = sorted((root / "examples").glob("*.yaml"))

    assert all(read_survey(example, kb).findings for example in examples)
    assert len(examples) >= 2


KB = small_base()


def written_reading(scale: str, one: Reading, least: int) -> str:
    if one.low is None or one.high is None:
        return "could not tell"
    return " to ".join(dict.fromkeys(KB.level_name(scale, max(level, least)) for level in (one.low, one.high)))


def written(found: Finding) -> dict[str, Any]:
    least = KB.signs[found.sign].least
    readings = {scale: written_reading(scale, one, least.get(scale, 0)) for scale, one in found.readings.items()}
    return {"zone": found.zone, "sign": found.sign, "side": found.side, "readings": readings, "id": found.id}


@given(boats_with_findings(KB))
def test_whatever_can_be_found_can_be_written_and_read(made: tuple[Any, tuple[Finding, ...]]) -> None:
    one, found = made

    read = survey(KB, [written(each) for each in found], boat={"name": one.name, "facts": dict(one.facts)})

    assert {each.id: (each.zone, each.sign, each.side, list(each.readings)) for each in found} == {
        each.id: (each.zone, each.sign, each.side, list(each.readings)) for each in read.findings
    }


VALID = {
    "survey": 1,
    "boat": {"name": "Wagtail", "length": "4.2 m", "facts": {"deck": "single"}, "encloses_buoyancy": {"tank": "yes"}},
    "visit": {"on": "2026-04-11", "by": "Ines", "note": "Cold."},
    "findings": [mark | {"id": str(index), "photos": []} for index, mark in enumerate(MARKS)],
}


def read_or_be_told(text: str | bytes) -> None:
    """Nothing but a survey or a list of problems may come of any text."""
    try:
        read = survey_from_text(text, KB)
    except BadSurvey as error:
        told = error.problems
    else:
        assert read == survey_from_text(text, KB)
        return
    assert told
    assert all(problem.what and str(problem) for problem in told)


@settings(max_examples=100)
@given(spoilt(VALID), st.sampled_from(["json", "ascii", "yaml", "flow"]))
def test_no_spoilt_survey_makes_the_reader_fail(value: Any, form: str) -> None:
    match form:
        case "json" | "ascii":
            read_or_be_told(json.dumps(value, ensure_ascii=form == "ascii"))
        case _:
            read_or_be_told(yaml.safe_dump(value, allow_unicode=True, default_flow_style=form == "flow"))


@settings(max_examples=100)
@given(st.data())
def test_no_spoilt_text_makes_the_reader_fail(data: st.DataObject) -> None:
    text = yaml.safe_dump(VALID, sort_keys=False)
    for _ in range(data.draw(st.integers(1, 5))):
        place = data.draw(st.integers(0, len(text)))
        put = data.draw(
            st.one_of(st.text(max_size=3), st.sampled_from(["\n", "  ", "\t", ": ", "- ", "{", "]", '"', "#", "&a "]))
        )
        text = text[:place] + put + text[place + data.draw(st.integers(0, 9)) :]

    read_or_be_told(text)


@given(st.one_of(st.binary(), st.text(), st.text().map(lambda text: text.encode("utf-16"))))
def test_no_other_text_makes_the_reader_fail(text: str | bytes) -> None:
    read_or_be_told(text)


# Places that not every boat has


def test_a_mark_on_a_part_that_she_is_said_not_to_have_is_asked_about(kb: KnowledgeBase) -> None:
    rare = [zone for zone in kb.zones.values() if zone.only_if]
    told = {}
    for zone in rare:
        without = {fact: {"yes": "no", "no": "yes"}[value] for fact, value in zone.only_if.items()}
        boat = {"name": "Wagtail", "facts": without}
        (told[zone.id],) = asked(kb, [{"zone": zone.id, "sign": "nothing_seen"}], boat=boat)
        (fact, value), *_ = without.items()
        expected = f"a mark at “{zone.name}”, yet {fact} is “{value}”: these two cannot both be"
        assert expected == told[zone.id]

    assert {"bow_pole", "trapeze", "shrouds", "mast_tube"} <= told.keys()
    assert told["bow_pole"].startswith("a mark at “Pole for the light sail”, yet bow_pole is “no”")


@pytest.mark.parametrize("facts", [{}, {"bow_pole": "yes"}])
def test_a_mark_on_a_part_that_she_may_have_is_taken(kb: KnowledgeBase, facts: dict[str, str]) -> None:
    boat = {"name": "Wagtail", "facts": facts}

    (found,) = survey(kb, [{"zone": "bow_pole", "sign": "nothing_seen"}], boat=boat).findings

    assert "bow_pole" == found.zone


def test_a_word_that_does_not_fit_hides_no_other_mistake_of_its_finding(kb: KnowledgeBase) -> None:
    text = """
boat: {name: Wagtail}
findings:
  - {zone: shroud ancor, side: prt, sign: fastener_cracks, readings: {crack_length: 1 banana, fiting_play: still}}
"""
    with pytest.raises(BadSurvey) as refused:
        survey_from_text(text, kb)

    told = " ".join(one.what for one in refused.value.problems)
    assert all(word in told for word in ("shroud ancor", "prt", "banana", "fiting_play"))


def test_a_reading_that_is_not_asked_at_its_place_any_more_is_kept_as_a_note(kb: KnowledgeBase) -> None:
    readings = {"extent_access": "its whole back was seen", "back_face": "faint spot"}
    mark = {"zone": "inner_skin", "sign": "white_bruise", "side": "port", "readings": readings, "note": "By the seat."}

    (finding,) = survey_from({"boat": {"name": "Wagtail"}, "findings": [mark]}, kb).findings

    assert ["back_face"] == [*finding.readings]
    assert "By the seat. View of the back: its whole back was seen." == finding.note
