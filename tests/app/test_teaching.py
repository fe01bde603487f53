"""A learner's run and a trainer's class as screens: forms sent, pages read, no script."""

from __future__ import annotations

import json
import re
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.app.conftest import Person, plain
from triage.app.lessons import ANY, LESSON, OWN, named, offered
from triage.errors import BadInput, NoSuch
from triage.knowledge.model import KnowledgeBase
from triage.log.held import HeldBoats
from triage.phrases import classroom as room
from triage.phrases import teaching as says
from triage.teaching.classes import read_class
from triage.teaching.drawn import case_named, cases_of
from triage.teaching.key import key_of

ME = {"name": "Wren", "code": "autumn-3", "about": ANY, "number": "177", "same": "yes"}
CHECKS = re.compile(r'<button class="choice check-to-make" name="check" value="([^"]+)">')
OPTION = re.compile(r'<select id="([^"]+)"[^>]*><option value="">[^<]*</option><option value="([^"]+)"')
RADIO = re.compile(r'<input type="radio" name="([^"]+)" value="([^"]*)"')


def begin(person: Person, **more: str) -> str:
    """Begin a case; the address of its run."""
    person.send("/teach/begin", **{**ME, **more})
    assert person.status == 200, person.read
    return person.path


def first_choices(person: Person, **said: str) -> dict[str, str]:
    """The form of the page filled in: what is named, and else the first choice of each."""
    form: dict[str, str] = {"token": person.token}
    for about, value in [*RADIO.findall(person.text), *OPTION.findall(person.text)]:
        form.setdefault(about, value)
    if 'name="confidence"' in person.text:
        form["confidence"] = "80"
    return form | said


def name_it(person: Person, **said: str) -> str:
    return person.send(f"{person.path}answer", **first_choices(person, **said))


def make(person: Person, check: str) -> str:
    return person.send(f"{person.path}check", check=check, token=person.token)


def play(person: Person, **said: str) -> str:
    """A whole run: a name, one check, a verdict."""
    begin(person, **{key: said.pop(key) for key in ("name", "code", "number", "when", "about", "mine") if key in said})
    name_it(person)
    make(person, CHECKS.findall(person.text)[0])
    make(person, "")
    return name_it(person, **said)


def test_a_case_is_named_tried_judged_and_then_told(person: Person, kb: KnowledgeBase) -> None:
    key = key_of(kb, case_named(kb, "177"))
    begin(person)
    assert says.NAME_IT in person.read

    name_it(person)
    offered_checks = CHECKS.findall(person.text)
    tap = next(one for one in offered_checks if one.endswith("coin_tap"))
    assert "10 minutes" in person.read
    make(person, tap)
    assert "A patch 30 to 100 mm across sounds dull." in person.read
    assert "10 minutes of checks so far" in person.read
    assert tap not in CHECKS.findall(person.text)

    make(person, "")
    assert says.YOUR_VERDICT in person.read
    told = name_it(person, verdict="structural")

    assert person.heading == kb.signs[key.case.mark.sign].name
    assert "You said: structural, 80% sure." in told
    assert key.because in told
    assert says.WAY in told
    assert says.SHEET in told


@pytest.mark.parametrize("number", ["2", "7", "177"])
def test_nothing_of_the_answer_is_shown_before_the_verdict_is_given(
    person: Person, kb: KnowledgeBase, number: str
) -> None:
    key = key_of(kb, case_named(kb, number))
    begin(person, number=number)
    secret = [key.because, *(step.because for step in key.finding.why)]
    for _ in range(3):
        svgs = " ".join(re.findall(r"<svg.*?</svg>", person.text, re.DOTALL))
        assert key.case.mark.sign not in svgs
        assert not [one for one in secret if one in person.text]
        assert says.REASONS not in person.read
        if says.NAME_IT in person.read:
            name_it(person)
        elif says.YOUR_VERDICT not in person.read:
            make(person, "")


def test_a_reload_and_a_second_sending_change_nothing(person: Person, boats: HeldBoats) -> None:
    begin(person)
    path, naming = person.path, first_choices(person)
    person.send(f"{path}answer", **naming)
    once = person.text
    person.send(f"{path}answer", **{**naming, "mark": list(naming.values())[-1]})
    assert person.text == once
    person.go(path)
    assert person.text == once

    check, token = CHECKS.findall(once)[0], person.token
    make(person, check)
    once = person.text
    person.send(f"{path}check", check=check, token=token)
    person.send(f"{path}check", check=CHECKS.findall(once)[0], token=token)
    assert person.text == once

    make(person, "")
    judging = first_choices(person)
    person.send(f"{path}answer", **judging)
    told, kept = person.text, boats.runs("AUTUMN-3")
    person.send(f"{path}answer", **{**judging, "verdict": "not yet"})
    person.send(f"{path}more", token=judging["token"])
    assert (person.text, boats.runs("AUTUMN-3")) == (told, kept)


def test_beginning_twice_goes_on_with_the_same_run(person: Person, boats: HeldBoats) -> None:
    assert begin(person) == begin(person)
    assert begin(person, number="") == person.path
    assert len(boats.runs("AUTUMN-3")) == 1
    assert begin(person, name="Rook") != begin(person)


def test_two_of_one_nickname_have_a_run_each(person: Person, boats: HeldBoats) -> None:
    first = begin(person, same="")
    question = person.send("/teach/begin", **{**ME, "name": "wren", "same": ""})
    assert person.heading == says.IS_IT_YOU
    assert says.name_is_taken("Wren", "autumn-3") in question
    assert says.call_me("wren 2") in question
    assert len(boats.runs("AUTUMN-3")) == 1

    second = begin(person, name="wren", same="no")
    assert second != first
    assert [run.name for run in boats.runs("AUTUMN-3")] == ["Wren", "wren 2"]
    name_it(person)
    assert [bool(run.answers) for run in boats.runs("AUTUMN-3")] == [False, True]
    assert says.call_me("Wren 3") in person.send("/teach/begin", **{**ME, "same": ""})


def test_whoever_comes_from_a_run_of_theirs_is_not_asked_again(person: Person, boats: HeldBoats) -> None:
    play(person, number="")
    (run,) = boats.runs("AUTUMN-3")
    assert f"mine={run.id}" in person.text
    person.send("/teach/begin", **{**ME, "number": "", "same": "", "mine": run.id})
    assert person.heading == says.case(2)
    person.send("/teach/begin", **{**ME, "same": "", "mine": "somebody-elses"})
    assert person.heading == says.IS_IT_YOU


def test_the_longest_nickname_can_be_had_twice(person: Person, boats: HeldBoats) -> None:
    begin(person, name="a" * 20, same="")
    begin(person, name="a" * 20, same="no")
    assert [run.name for run in boats.runs("AUTUMN-3")] == ["a" * 20, "a" * 18 + " 2"]


def test_what_was_left_out_is_named_and_the_rest_stays_filled_in(person: Person) -> None:
    begin(person)
    form = first_choices(person)
    said = form.pop("trade")
    assert "What does the trade call the place?" in person.send(f"{person.path}answer", **form)
    assert person.status == 422
    assert f'value="{form["mark"]}" required checked' in person.text
    assert says.NAME_IT in person.go(person.path), "to load it again is no mistake"
    assert person.path.endswith("/")
    person.send(f"{person.path}answer", **{**form, "trade": said})
    assert person.status == 200
    assert says.WHICH_CHECK in person.read


@pytest.mark.parametrize("sure", ["", "101", "-1", "much"])
def test_a_confidence_that_is_none_is_asked_for_again(person: Person, sure: str) -> None:
    begin(person)
    name_it(person)
    make(person, "")
    name_it(person, confidence=sure)
    assert person.status == 422
    assert says.NOT_ANSWERED in person.read


def test_one_can_go_back_to_the_checks_and_what_was_told_stays(person: Person) -> None:
    begin(person)
    name_it(person)
    make(person, CHECKS.findall(person.text)[0])
    told = person.read
    make(person, "")
    person.send(f"{person.path}more", token=person.token)
    assert person.read == told


def test_the_next_case_is_the_next_number_and_the_same_for_everybody(person: Person, boats: HeldBoats) -> None:
    for name in ("Wren", "Rook"):
        play(person, name=name, number="")
        person.send(f"{person.path}next")
        assert "Case 2" in person.heading
    cases = [(run.name, run.case) for run in boats.runs("AUTUMN-3")]
    assert cases == [("Wren", "1"), ("Wren", "2"), ("Rook", "1"), ("Rook", "2")]


@pytest.mark.parametrize(
    "wrong",
    [{"name": ""}, {"name": "<b>"}, {"code": "two words"}, {"about": "lesson:none"}, {"number": "0"}, {"when": "now"}],
)
def test_what_cannot_be_is_said_and_nothing_is_begun(person: Person, boats: HeldBoats, wrong: dict[str, str]) -> None:
    person.send("/teach/begin", **{**ME, **wrong})
    assert person.status == 422
    assert 'role="alert"' in person.text
    assert not boats.runs("AUTUMN-3")


def test_every_choice_of_cases_has_cases(kb: KnowledgeBase) -> None:
    for choices in offered(kb).values():
        for about, _ in choices:
            if about == OWN:  # hangs on what the trainer has made
                continue
            case_named(kb, str(named(kb, about, 1)))
    with pytest.raises(BadInput):
        named(kb, "nothing", 1)


def test_the_cases_of_a_lesson_are_those_that_are_drawn_for_it(kb: KnowledgeBase) -> None:
    lesson = kb.teaching.lessons["verdict_and_doubt"]
    drawn = [one.name for one in cases_of(kb, lesson)]
    assert drawn == [str(named(kb, f"{LESSON}{lesson.id}", number)) for number in range(1, len(drawn) + 1)]


def test_a_run_on_other_rules_says_so_and_breaks_nothing(person: Person, boats: HeldBoats) -> None:
    begin(person)
    (run,) = boats.runs("AUTUMN-3")
    boats.keep_run(replace(run, digest="of-other-rules"))
    assert says.OTHER_RULES in person.go(person.path)
    assert person.status == 404
    boats.keep_run(replace(run, answers={"mark": "no_such_mark"}))
    assert says.OTHER_RULES in person.go(person.path)
    with pytest.raises(NoSuch):
        boats.run("nobody")


def test_a_trainer_sees_who_did_what_and_no_answers(person: Person, boats: HeldBoats, kb: KnowledgeBase) -> None:
    for name, verdict in (("Wren", "structural"), ("Rook", "cosmetic"), ("Tern", "not yet")):
        play(person, name=name, verdict=verdict)
    begin(person, name="Lark")

    seen = person.go("/teach/class/autumn-3/")

    assert "4 learners. 3 of 4 cases finished." in seen
    assert room.so_far(3, 4) in seen
    for name in ("Wren", "Rook", "Tern", "Lark"):
        assert name in seen
    assert room.NOT_DONE in seen
    assert "% sure" not in seen, "who was how right is for the trainer alone"
    assert "80% sure" in person.go("/teach/class/autumn-3/trainer")
    key = key_of(kb, case_named(kb, "177"))
    assert re.search(r"Right verdicts: [01] of 3\.", seen)
    assert "weighted kappa" not in seen
    seen += person.go("/teach/class/AUTUMN-3/?figures")
    assert kb.signs[key.case.mark.sign].name not in seen
    assert key.because not in seen
    assert "weighted kappa" in seen
    assert 'class="how-sure"' in person.text


def test_cases_of_one_number_are_told_apart_by_what_they_were_chosen_by(person: Person) -> None:
    play(person, number="1")
    play(person, number="1", about="easy", mine=person.path.rstrip("/").rpartition("/")[2])
    seen = person.go("/teach/class/AUTUMN-3/trainer")

    for kind in ("", says.DIFFICULTY["easy"]):
        assert f"{says.case(1, kind)}:" in seen
    assert room.so_far(1, 2) not in person.go("/teach/class/AUTUMN-3/"), "all are finished"


def test_without_the_statistics_a_class_is_counted_and_told_what_to_install(
    person: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delitem(sys.modules, "triage.teaching.marking", raising=False)
    monkeypatch.delitem(sys.modules, "triage.teaching.agreement", raising=False)
    monkeypatch.setitem(sys.modules, "krippendorff", None)
    play(person, verdict="structural")
    seen = person.go("/teach/class/AUTUMN-3/")
    assert room.INSTALL in seen
    assert room.HOW_SURE not in seen
    assert person.go("/teach/class/AUTUMN-3/?figures") == seen
    assert re.search(r"Right verdicts: [01] of 1\.", seen)


def test_the_results_are_a_file_that_the_terminal_reads(person: Person, client: TestClient, tmp_path: Path) -> None:
    play(person)
    answer = client.get("/teach/class/AUTUMN-3/results.json")
    (tmp_path / "class-AUTUMN-3.json").write_bytes(answer.content)
    (result,) = read_class("AUTUMN-3", tmp_path).results
    assert ("Wren", "177", 80) == (result.name, result.case, result.confidence)


def test_of_a_learner_a_nickname_is_kept_and_nothing_else(person: Person, boats: HeldBoats) -> None:
    play(person)
    (record,) = [json.loads(body) for key, body in boats.changed.items() if key.startswith("run/") and body]
    assert set(record) == {
        "form", "order", "id", "name", "code", "about", "number", "case", "digest", "when", "made", "answers", "result",
        "otherwise",
    }  # fmt: skip


def test_a_class_is_taken_out_once_that_is_said_twice(person: Person, boats: HeldBoats) -> None:
    play(person)
    person.send("/teach/class/AUTUMN-3/remove")
    assert boats.runs("AUTUMN-3")
    assert room.NO_RUNS in person.send("/teach/class/AUTUMN-3/remove", sure="yes")
    assert not boats.runs("AUTUMN-3")


def test_a_code_that_cannot_be_one_is_said_to_be_none(person: Person) -> None:
    assert "cannot be its code" in person.go("/teach/class?code=two words")
    assert person.status == 404
    assert room.NO_RUNS in person.go("/teach/class?code=spring")
    assert person.path == "/teach/class/SPRING/"


def test_the_confusions_are_projected_from_here(client: TestClient) -> None:
    answer = client.get("/teach/cards-large.html")
    assert answer.status_code == 200
    assert "style-src 'unsafe-inline'" in answer.headers["content-security-policy"]
    assert "Taken for each other" in plain(answer.text)


def test_the_first_screen_leads_to_practice(person: Person) -> None:
    person.go("/")

    assert 'href="./teach"' in person.text
    assert says.INTRO in person.go("/teach")
