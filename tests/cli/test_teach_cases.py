"""`triage teach case`, `coverage`, `run` and `class`, by the keyboard only."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from triage.cli import main
from triage.teaching.classes import read_class


def teach(*said: str, typed: str = "", code: int = 0) -> str:
    result = CliRunner().invoke(main, ["teach", *said], input=typed)
    assert code == result.exit_code, result.output
    return result.output


def test_a_case_shows_the_mark_and_not_the_answer(tmp_path: Path) -> None:
    told = teach("case", "177", "--picture", str(tmp_path / "mark.svg"), "--shown", str(tmp_path / "shown.yaml"))

    assert "The mark to judge. Bottom of the hull, starboard:" in told
    assert "Dull sound" not in told
    assert (tmp_path / "mark.svg").read_text().startswith("<svg")
    assert "readings" not in (tmp_path / "shown.yaml").read_text()


def test_a_case_with_its_key_can_be_assessed_like_any_survey(tmp_path: Path) -> None:
    told = " ".join(teach("case", "177", "--key", "-o", str(tmp_path / "true.yaml")).split())

    assert "The answer: Bottom of the hull, starboard: Dull sound. Monitor." in told
    assert "The cheapest way: Press and compare, then Coin tap" in told
    assessed = CliRunner().invoke(main, ["assess", str(tmp_path / "true.yaml")])
    assert "Dull sound." in assessed.output
    assert "Monitor." in assessed.output


def test_a_survey_of_ones_own_is_a_case(root: Path) -> None:
    told = teach("case", str(root / "examples" / "club-boat.yaml"))

    assert "The mark to judge. Seam between hull and deck at the stern:" in told


@pytest.mark.parametrize(
    "said",
    [("case", "177:harder"), ("case", "none.yaml"), ("run", "--seed", "1", "177"), ("run", "177", "--name", "Kim")],
)
def test_what_cannot_be_meant_is_said(said: tuple[str, ...]) -> None:
    assert teach(*said, code=2).strip()


def test_a_run_by_the_keyboard_is_told_beside_the_programs_reasoning_and_kept(tmp_path: Path) -> None:
    typed = "2\n3\n3\n2\nnonsense\nenough\n2\n101\nback\n2\n80%\n2\n1\n1\n1\n3\n3\n"

    told = teach("run", "177", "--name", "Kim", "--class", "A-1", "--folder", str(tmp_path), typed=typed)

    for says in (
        "Coin tap: a patch 30 to 100 mm across sounds dull.",
        "Please give a number from 1 to",
        "Please give a number from 0 to 100",
        "You said: monitor, 80% sure. It is monitor: right.",
        "From this alone the program says: between monitor and structural.",
        "A dull patch wider than 30 mm has a reason",
        "Not made: Press and compare, Look at the back.",
        "The cheapest way: Press and compare, then Coin tap",
        "for the trainer who sees it done",
        "Kept for the class A-1, which has 1 now.",
    ):
        assert says in " ".join(told.split()), told
    (result,) = read_class("A-1", tmp_path).results
    assert ("Kim", "177", 1, 80) == (result.name, result.case, result.verdict, result.confidence)


def test_whoever_judges_a_case_again_says_who_they_are(tmp_path: Path) -> None:
    typed = "2\n3\n3\nenough\n2\n80\n2\n1\n1\n1\n3\n3\n"
    taken = "Somebody called Kim has judged this case in this class already."

    def names_after(name: str, typed: str, *more: str) -> list[str]:
        told = teach(
            "run",
            "17:joint_side:joint_crack",
            "--name",
            name,
            "--class",
            "A",
            "--folder",
            str(tmp_path),
            *more,
            typed=typed,
        )
        assert (typed[:2] in ("7\n", "1\n")) == (taken in " ".join(told.split()))
        return [one.name for one in read_class("A", tmp_path).results]

    assert names_after("Kim", typed) == ["Kim"]
    assert names_after("kim", f"7\n2\n{typed}") == ["Kim", "kim 2"]
    assert names_after("KIM", f"1\n{typed}") == ["Kim", "kim 2", "Kim"]
    assert names_after("Kim", typed, "--when", "after") == ["Kim", "kim 2", "Kim", "Kim"]


def test_who_leaves_keeps_nothing(tmp_path: Path) -> None:
    told = teach(
        "run", "--seed", "5", "--name", "Kim", "--class", "A", "--folder", str(tmp_path), typed="1\n1\n1\nquit\n"
    )

    assert "nothing is kept" in told
    assert not read_class("A", tmp_path).results


def test_a_class_is_told_in_figures_with_how_sure_they_are(tmp_path: Path) -> None:
    assert "Nobody has judged a case" in teach("class", "A", "--folder", str(tmp_path))
    for name, verdict in (("Kim", "1"), ("Ola", "2")):
        typed = f"2\n3\n3\nenough\n{verdict}\n80\n2\n1\n1\n1\n3\n3\n"
        case = "17:joint_side:joint_crack"
        teach("run", case, "--name", name, "--class", "A", "--folder", str(tmp_path), typed=typed)

    picture = tmp_path / "sure.svg"
    told = " ".join(teach("class", "A", "--folder", str(tmp_path), "--picture", str(picture)).split())

    assert "2 structural marks were called milder than they are, 1 of them mere looks" in told
    assert "Structural marks found, or held open: 0%, likely 0% to 66%; 2 verdicts say next to nothing yet." in told
    assert "they are surer than they are right" in told
    assert picture.read_text().startswith("<svg")


def test_the_cases_of_a_lesson_are_listed_by_the_names_that_draw_them() -> None:
    assert "1:coat_or_glass" in teach("cases", "1")
    assert "There is no lesson 9." in teach("cases", "9", code=2)


def test_what_cases_cover_is_shown() -> None:
    told = teach("coverage", "--cases", "177", "--cases", "5:hard")

    assert "Places: 2 of" in told
    assert "2 cases:" in told


@pytest.mark.slow
def test_cases_are_planned_and_named() -> None:
    assert "Cases: " in teach("coverage", "--plan", "3")
