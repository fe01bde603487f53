"""Templates are compiled once and kept: the reports stay the same, and only what is certainly ours is run."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import jinja2
import pytest

from tests.conftest import ROOT
from triage import report, resources
from triage.assessment import Assessment
from triage.report import FORMATS, render
from triage.resources import tells_owners

pytestmark = pytest.mark.skipif(not tells_owners(), reason="this system does not tell who may write a file")


@pytest.fixture(scope="module")
def assessment() -> Assessment:
    from triage import assess_survey, load_knowledge, read_survey

    kb = load_knowledge(ROOT / "rules")
    return assess_survey(read_survey(ROOT / "examples/club-boat.yaml", kb), kb)


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("TRIAGE_CACHE_DIR", str(tmp_path / "cache"))
    return tmp_path / "cache"


@pytest.fixture(autouse=True)
def as_if_just_started() -> Callable[[], None]:
    """What a process remembers of its templates is forgotten, at first and whenever this is called."""

    def forget() -> None:
        report._pages.cache_clear()
        report._texts.cache_clear()

    forget()
    return forget


def compiling_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*args: object, **options: object) -> None:
        raise AssertionError("compiled anew")

    monkeypatch.setattr(jinja2.Environment, "compile", refuse)


@pytest.mark.parametrize("form", FORMATS)
@pytest.mark.parametrize("colour", [False, True])
def test_the_second_time_nothing_is_compiled_and_the_report_is_the_same(
    assessment: Assessment,
    as_if_just_started: Callable[[], None],
    monkeypatch: pytest.MonkeyPatch,
    form: report.Format,
    colour: bool,
) -> None:
    first = render(assessment, form, colour=colour)

    as_if_just_started()
    compiling_is_refused(monkeypatch)

    assert first == render(assessment, form, colour=colour)


def test_a_plain_report_is_not_made_of_what_was_compiled_for_a_coloured_one(
    assessment: Assessment, as_if_just_started: Callable[[], None]
) -> None:
    coloured = render(assessment, colour=True)
    plain = render(assessment)

    as_if_just_started()

    assert "\033[" in coloured
    assert "\033[" not in plain
    assert (plain, coloured) == (render(assessment), render(assessment, colour=True))


def test_a_template_that_was_changed_is_compiled_anew(
    assessment: Assessment, as_if_just_started: Callable[[], None], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    mine = tmp_path / "templates"
    shutil.copytree(ROOT / "reports/templates", mine)
    monkeypatch.setenv("TRIAGE_TEMPLATES_DIR", str(mine))
    before = render(assessment)

    (mine / "report.txt").write_text((mine / "report.txt").read_text("utf-8") + "One line more.\n", "utf-8")
    as_if_just_started()

    assert before + "One line more.\n" == render(assessment)


def spoil(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-1] + b"!")


def cut(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:100])


def open_to_others(file: Path) -> None:
    file.chmod(0o666)


@pytest.mark.parametrize("harm", [spoil, cut, open_to_others])
def test_what_is_spoilt_or_may_be_somebody_elses_is_not_run(
    assessment: Assessment,
    as_if_just_started: Callable[[], None],
    monkeypatch: pytest.MonkeyPatch,
    folder: Path,
    harm: Callable[[Path], None],
) -> None:
    text = render(assessment)
    (file,) = folder.glob("*.template")

    harm(file)
    as_if_just_started()
    again = render(assessment)
    harm(file)
    as_if_just_started()
    compiling_is_refused(monkeypatch)

    assert text == again
    with pytest.raises(AssertionError, match="compiled anew"):
        render(assessment)


def test_with_keeping_turned_off_nothing_is_kept(
    assessment: Assessment, as_if_just_started: Callable[[], None], monkeypatch: pytest.MonkeyPatch, folder: Path
) -> None:
    monkeypatch.setenv("TRIAGE_CACHE_DIR", "")
    render(assessment)

    as_if_just_started()
    compiling_is_refused(monkeypatch)

    assert not folder.exists()
    with pytest.raises(AssertionError, match="compiled anew"):
        render(assessment)


def test_no_code_is_kept_where_the_system_does_not_tell_whose_it_is(
    assessment: Assessment, monkeypatch: pytest.MonkeyPatch, folder: Path
) -> None:
    monkeypatch.setattr(report, "tells_owners", lambda: False)
    monkeypatch.setattr(resources, "tells_owners", lambda: False)

    render(assessment)

    assert not folder.exists()
