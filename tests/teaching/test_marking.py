"""A class in figures, worked out by hand on small classes; and the file that it is kept in."""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import ROOT
from tests.teaching.conftest import Player
from triage.errors import BadInput
from triage.knowledge.model import KnowledgeBase
from triage.teaching.classes import Class, Result, class_file, keep, nickname, read_class, result_of
from triage.teaching.marking import FEW, bins, marked_class, with_key
from triage.teaching.reliability import reliability_picture
from triage.teaching.sheet import mark_run
from triage.views.marked_class import verdict_lines


def run(name: str = "Kim", case: str = "1", verdict: int | None = 2, key: int = 2, **more: Any) -> Result:
    told: dict[str, Any] = {"zone": "bottom", "sign": "dent", "right": verdict == key, "confidence": 80}
    told |= {"points": 9, "of": 12, "minutes": 10.0, "least_minutes": 8.0}
    told |= {"next_right": True, "cause_right": True, "hands_right": True}
    return Result(name=name, case=case, verdict=verdict, key=key, **(told | more))


def test_a_missed_structural_mark_is_told_from_one_held_open(kb: KnowledgeBase) -> None:
    said = ((2, 2), (0, 2), (1, 2), (None, 2), (2, 0), (1, 1))
    runs = tuple(run(case=str(number), verdict=verdict, key=key) for number, (verdict, key) in enumerate(said))
    marked = marked_class(kb, Class("A", runs))

    assert marked.structural_found is not None
    assert marked.false_alarms is not None
    assert (2, 1) == (marked.missed, marked.called_fine)
    assert (0.5, 4) == (marked.structural_found.value, marked.structural_found.n)
    assert (0.5, 2) == (marked.false_alarms.value, marked.false_alarms.n)
    assert 1 == marked.held_open


def test_the_worse_the_misses_the_less_agreement_with_the_key() -> None:
    near = [run(verdict=1), run(verdict=0, key=0), run(verdict=1, key=1), run(verdict=2)]
    far = [run(verdict=0), run(verdict=0, key=0), run(verdict=1, key=1), run(verdict=2)]
    close, loose = with_key(near, 3), with_key(far, 3)

    assert close is not None
    assert loose is not None
    assert close.value > loose.value


def test_brier_and_bands_of_confidence(kb: KnowledgeBase) -> None:
    said = ((2, 100), (0, 90), (2, 60), (1, 60))
    runs = tuple(run(case=str(number), verdict=one, confidence=sure) for number, (one, sure) in enumerate(said))
    marked = marked_class(kb, Class("A", runs))

    assert marked.brier is not None
    assert marked.brier.value == pytest.approx((0.0 + 0.81 + 0.16 + 0.36) / 4)
    assert [(50, 0.5, 2), (85, 0.0, 1), (95, 1.0, 1)] == [(one.low, one.right.value, one.right.n) for one in bins(runs)]
    assert "said 60%, right 50% of 2" in reliability_picture(marked)


@pytest.mark.parametrize(
    ("verdicts", "sure", "kind"),
    [
        ((2, 2, 2), 80, "too easy"),
        ((0, 1, 0), 40, "too hard"),
        ((0, 1, 2), 90, "misleading"),
        ((0, 2, 2), 90, ""),
        ((2, 2), 80, ""),
    ],
)
def test_cases_that_are_too_easy_too_hard_or_misleading(
    kb: KnowledgeBase, verdicts: tuple[int, ...], sure: int, kind: str
) -> None:
    runs = tuple(run(f"n{number}", verdict=verdict, confidence=sure) for number, verdict in enumerate(verdicts))

    assert [kind] == [item.kind for item in marked_class(kb, Class("A", runs)).items]
    assert FEW == 3


def test_first_tries_count_and_later_ones_are_practice(kb: KnowledgeBase) -> None:
    told = {"a": (2, 0, 1), "b": (2, 0, 1), "c": (2, 0, 1)}
    runs = [run(name, str(case), verdict) for name, said in told.items() for case, verdict in enumerate(said)]
    again = [run("a", "0", 0), run("b", "0", 2), run("a", "0", 1)]

    once, marked = marked_class(kb, Class("A", tuple(runs))), marked_class(kb, Class("A", (*runs, *again)))

    assert marked.among is not None
    assert marked.among.value == pytest.approx(1.0)
    assert marked.fleiss == pytest.approx(1.0)
    assert replace(marked, practised=0, practised_right=0) == once
    assert (3, 1) == (marked.practised, marked.practised_right)
    assert "Played again, which counts as practice and in no figure: 3, of which 1 right." in [*verdict_lines(marked)]


def test_the_same_case_before_and_after_a_lesson_is_a_first_try_of_each(kb: KnowledgeBase) -> None:
    runs = (run(verdict=0, when="before"), run(verdict=2, when="after"), run(verdict=2, when="before"))

    marked = marked_class(kb, Class("A", runs))

    assert marked.change is not None
    assert (0.0, 1.0) == (marked.change.before.value, marked.change.after.value)
    assert marked.right is not None
    assert 1 == marked.right.n


def test_a_class_is_the_same_however_its_code_is_typed(tmp_path: Path) -> None:
    keep(run(), "autumn-3", tmp_path)
    keep(run("Wren"), "AUTUMN-3", tmp_path)
    assert ["class-AUTUMN-3.json"] == [file.name for file in tmp_path.iterdir()]
    class_file("AUTUMN-3", tmp_path).rename(tmp_path / "class-Autumn-3.json")

    assert ("Kim", "Wren") == read_class("autumn-3", tmp_path).names


def test_before_and_after_a_lesson(kb: KnowledgeBase) -> None:
    runs = [run(case=str(number), verdict=said, when="before") for number, said in enumerate((0, 0, 2, 1))]
    assert marked_class(kb, Class("A", tuple(runs))).change is None
    runs += [run(case=str(number), verdict=said, when="after") for number, said in enumerate((2, 2, 2, 1))]

    change = marked_class(kb, Class("A", tuple(runs))).change

    assert change is not None
    assert (0.25, 0.75, 0.5) == (change.before.value, change.after.value, change.grew.value)
    assert change.grew.low is not None
    assert change.grew.low < 0.1, "four runs before and four after prove little"


def test_a_class_that_has_not_played_has_no_figures(kb: KnowledgeBase, tmp_path: Path) -> None:
    marked = marked_class(kb, read_class("A", tmp_path))

    assert (marked.right, marked.brier, marked.with_key, marked.among, marked.items) == (None, None, None, None, ())


def test_a_run_is_kept_with_a_nickname_and_nothing_else_of_anybody(
    kb: KnowledgeBase, play: Player, tmp_path: Path
) -> None:
    marked = mark_run(kb, play("177", verdict="monitor"))

    kept = keep(result_of(kb, marked, "Kim"), "AUTUMN-3", tmp_path)

    assert kept == read_class("AUTUMN-3", tmp_path)
    (told,) = json.loads(class_file("AUTUMN-3", tmp_path).read_text())["results"]
    assert {"name": "Kim", "case": "177", "verdict": 1, "key": 1, "right": True} == {
        key: told[key] for key in ("name", "case", "verdict", "key", "right")
    }
    assert set(told) == set(Result.__dataclass_fields__)


def test_many_may_add_to_a_class_at_once(tmp_path: Path) -> None:
    threads = [threading.Thread(target=keep, args=(run(f"n{n}"), "A", tmp_path)) for n in range(12)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert 12 == len(read_class("A", tmp_path).results)
    assert ["class-A.json"] == [file.name for file in tmp_path.iterdir()]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{",
        '{"code": "A", "format": 2, "results": []}',
        '{"code": "A", "format": 1, "results": [{"name": "Kim"}]}',
        '{"code": "A", "format": 1, "results": "x"}',
        "[" * 100_000,
    ],
)
def test_what_was_not_kept_of_a_class_is_refused_and_left_alone(tmp_path: Path, text: str) -> None:
    file = class_file("A", tmp_path)
    file.write_text(text)

    with pytest.raises(BadInput, match="this is not what was kept of a class"):
        keep(run(), "A", tmp_path)
    assert text == file.read_text()


@pytest.mark.parametrize("code", ["", "../x", "a/b", "a b", "x" * 21, "-a"])
def test_a_code_is_no_path(tmp_path: Path, code: str) -> None:
    with pytest.raises(BadInput, match="cannot be its code"):
        class_file(code, tmp_path)


@pytest.mark.parametrize("name", ["", "x" * 21, "a\nb", "\u202eKim", "kim@example.org"])
def test_a_nickname_is_short_and_plain(name: str) -> None:
    with pytest.raises(BadInput):
        nickname(name)


def test_without_the_statistics_the_extra_is_named() -> None:
    code = "import sys; sys.modules['krippendorff'] = None\nimport triage.teaching.marking"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)

    assert "MissingExtra: marking a class needs an extra: pip install 'dinghy-triage[teaching]'" in done.stderr


def test_playing_needs_no_statistics() -> None:
    code = "import sys, triage.teaching.sheet, triage.teaching.classes\nprint('statsmodels' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)

    assert "False" == done.stdout.strip()
