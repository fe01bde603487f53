"""From files to the one knowledge base: complete, in order, or refused with every reason."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from tests.conftest import ROOT
from tests.mistakes import small_base, small_texts
from triage.errors import BadRules
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Elsewhere, Is
from triage.knowledge.store.load import knowledge_from_texts, load_knowledge
from triage.parsing.documents import read_document


def refused(texts: dict[str, str]) -> list[str]:
    with pytest.raises(BadRules) as raised:
        knowledge_from_texts(texts)
    return [f"{problem.place}: {problem.what}" for problem in raised.value.problems]


def test_the_shipped_rules_hold_together(kb: KnowledgeBase) -> None:
    assert len(kb.zones) >= 60
    assert len(kb.signs) >= 60
    assert len(kb.rules) >= 400
    assert len(kb.presumptions) >= 70


def test_what_a_mark_adds_to_the_named_checks_is_called_for_wherever_it_calls_for_any(kb: KnowledgeBase) -> None:
    added = {
        (sign, frozenset(kb.signs[sign].also_named) - way)
        for zone, signs in kb.offers.items()
        for sign in signs
        for way in kb.named_sets(zone, sign)
        if kb.signs[sign].also_named
    }

    assert {frozenset()} == {left_out for _, left_out in added}
    assert {"all", "first"} == {kb.signs[sign].named_checks for sign, _ in added}


def test_the_small_base_is_read_as_it_is_written() -> None:
    kb = small_base()

    assert ["stem", "chainplate", "side_deck", "tank"] == list(kb.zones)
    assert ("hairline", "play", "nothing_seen") == kb.offers["chainplate"]
    assert (True, False) == (kb.zones["chainplate"].named_checks, kb.zones["side_deck"].named_checks)
    assert ("trodden",) == kb.zones["side_deck"].groups
    assert [("bow", 0), ("side", 1), ("side", 2), ("side", 3)] == [(zone.leg, zone.order) for zone in kb.zones.values()]
    assert (1, "long_crack") == (
        kb.signs["hairline"].caps["crack_length"].level,
        kb.signs["hairline"].caps["crack_length"].otherwise,
    )
    assert ("published", "LEAFLET", "page 3") == next(
        (rule.basis.kind, rule.basis.source, rule.basis.where) for rule in kb.rules if rule.id == "anchor/moves"
    )
    assert [("caution", "Do not hang on a wire whose anchor moves.")] == [
        (advice.kind, advice.say) for rule in kb.rules for advice in rule.advises
    ]


@pytest.mark.parametrize(
    ("when", "condition"),
    [
        ("always", All(())),
        ("{zone: stem}", Is("zone", ("stem",))),
        ("{zone: [stem, tank], deck: single}", All((Is("zone", ("stem", "tank")), Is("deck", ("single",))))),
        ("{crack_length: {at_least: very long}}", AtLeast("crack_length", 2)),
        ("{any: [{side: port}, {panel_give: {at_least: 1}}]}", Any((Is("side", ("port",)), AtLeast("panel_give", 1)))),
        ("{all: [{load: rig}, {below_water: no}]}", All((Is("load", ("rig",)), Is("below_water", ("no",))))),
        ("{elsewhere: {zone: tank}}", Elsewhere(Is("zone", ("tank",)))),
        ("{elsewhere: {zone: tank, count: 2}}", Elsewhere(Is("zone", ("tank",)), count=2)),
        ("{elsewhere: {twin: yes}}", Elsewhere(All(()), where="twin")),
        ("{elsewhere: {side: same, sign: play}}", Elsewhere(Is("sign", ("play",)), where="same side")),
        ("{elsewhere: {side: port}}", Elsewhere(Is("side", ("port",)))),
    ],
)
def test_a_condition_means_what_it_says(when: str, condition: object) -> None:
    text = f"""
rules:
  - id: a/rule
    when: {when}
    raises: {{laminate: 1}}
    because: It shows.
    basis: estimate
    cases: [{{given: {{zone: stem}}, expect: fires}}, {{given: {{zone: stem}}, expect: silent}}]
"""

    kb = small_base(rule=text)

    assert condition == next(rule.when for rule in kb.rules if rule.id == "a/rule")


def test_a_presumption_rests_on_the_answers_it_names() -> None:
    (presumption,) = small_base().presumptions

    assert ("panel_give",) == presumption.rests_on
    assert (("crack_length", 0),) == presumption.presumes
    assert AtMost("panel_give", 0) in getattr(presumption.when, "parts", ())


def test_which_file_a_thing_is_in_makes_no_difference() -> None:
    whole: dict[str, object] = {}
    for text in small_texts().values():
        whole |= read_document(text, "a file").value

    one = knowledge_from_texts({"everything.yaml": yaml.safe_dump(whole, sort_keys=False)})
    many = knowledge_from_texts(
        {f"{key}.yaml": yaml.safe_dump({key: value}, sort_keys=False) for key, value in whole.items()}
    )

    base = small_base()
    for other in (one, many):
        for part in ("facts", "groups", "walk", "zones", "offers", "checks", "sources"):
            assert getattr(base, part) == getattr(other, part), part
        assert set(base.signs) == set(other.signs)
        assert [rule.id for rule in base.all_rules] == [rule.id for rule in other.all_rules]
        assert [rule.when for rule in base.all_rules] == [rule.when for rule in other.all_rules]


@pytest.mark.parametrize("said", ["2", "'2'", "very long"])
def test_a_level_may_be_given_by_number_or_by_name(said: str) -> None:
    change = ("crack_length: {at_least: 1}, panel_give: {at_least: 1}}", f"crack_length: {{at_least: {said}}}}}")

    kb = small_base(change)

    assert AtLeast("crack_length", 2) in getattr(kb.rules[1].when, "parts", ())


def test_an_empty_file_adds_nothing() -> None:
    assert list(small_base().zones) == list(small_base(empty="", remark="# to be written\n").zones)


def test_what_every_base_must_have_is_asked_for_together() -> None:
    assert [
        'empty.yaml:1:1: the derived scale "afloat" is missing',
        'empty.yaml:1:1: the derived scale "hands" is missing',
        'empty.yaml:1:1: the derived scale "tow" is missing',
        'empty.yaml:1:1: the derived scale "verdict" is missing',
        'empty.yaml:1:1: the sign "nothing_seen" is missing',
    ] == refused({"empty.yaml": ""})


def test_a_bad_rule_hides_no_other_problem() -> None:
    good, bad = small_texts()["rules.yaml"].split("  - id: anchor/moves")
    texts = small_texts() | {
        "rules.yaml": good.replace("at_least: soft", "at_least: wobbly")
        + "  - idd: anchor/moves"
        + bad.replace("tank/leaks", "tank/runs")
    }

    told = refused(texts)

    assert any('panel_give has no level "wobbly"' in one for one in told)
    assert any('unknown word "idd"' in one for one in told)
    assert any('the id "tank/runs" is already used' in one for one in told)


def test_every_file_with_a_mistake_is_told() -> None:
    told = refused(small_texts() | {"one.yaml": "zone: {}\n", "two.yaml": "a: [1\n", "three.yaml": "a: 1\na: 2\n"})

    assert {"one.yaml", "two.yaml", "three.yaml"} == {one.split(":")[0] for one in told}


def test_a_folder_is_read_with_all_its_folders(tmp_path: Path) -> None:
    (tmp_path / "deeper" / "still").mkdir(parents=True)
    for name, text in small_texts().items():
        (tmp_path / "deeper" / name).write_text(text, encoding="utf-8")
    (tmp_path / "deeper" / "still" / "chip.yaml").write_text(
        "signs: {chip: {name: Chip, picture: Gone.}}\n", encoding="utf-8"
    )
    (tmp_path / "README.md").write_text("Not rules.\n", encoding="utf-8")

    kb = load_knowledge(tmp_path)

    assert "chip" in kb.signs
    assert "deeper/rules.yaml" == kb.rules[0].place.source


def test_a_folder_without_rules_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadRules, match=r"no \*\.yaml files here"):
        load_knowledge(tmp_path)


def test_a_file_that_would_be_passed_over_because_of_its_ending_is_told(tmp_path: Path) -> None:
    (tmp_path / "rules.yaml").write_text("groups: {}\n", encoding="utf-8")
    (tmp_path / "mine.yml").write_text("groups: {}\n", encoding="utf-8")

    with pytest.raises(BadRules, match=r"mine\.yml: would not be read, because its name ends in \.yml"):
        load_knowledge(tmp_path)


def test_a_file_that_is_not_text_is_told(tmp_path: Path) -> None:
    (tmp_path / "rules.yaml").write_bytes("groups: {}\n".encode("utf-16"))

    with pytest.raises(BadRules, match=r"rules\.yaml: this is not plain text"):
        load_knowledge(tmp_path)


def test_a_base_is_read_once_and_compared_by_identity() -> None:
    assert load_knowledge(ROOT / "rules") is load_knowledge(ROOT / "rules")
    assert small_base() != small_base()


def test_a_section_that_is_like_no_other_is_answered_with_all_there_are() -> None:
    (told,) = refused({**small_texts(), "more.yaml": "zzzzzz: {}\n"})

    assert 'unknown word "zzzzzz"' in told
    with pytest.raises(
        BadRules,
        match=r"It can be: advert, causes, checks, confusions, event_rules, events, everyday, facts, .*, words, "
        r"workshop, zones\.",
    ):
        knowledge_from_texts({**small_texts(), "more.yaml": "zzzzzz: {}\n"})
