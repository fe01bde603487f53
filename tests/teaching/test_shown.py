"""What the modules of teaching show as an example runs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.conftest import ROOT
from tests.test_shown_code import shown
from triage.teaching import cases, marking, run
from triage.teaching.classes import keep, result_of
from triage.teaching.drawn import draw_case
from triage.teaching.sheet import mark_run


def test_the_examples_of_cases_runs_and_marking_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TRIAGE_RULES_DIR", str(ROOT / "rules"))
    names: dict[str, Any] = {"draw_case": draw_case, "number": 0}

    exec(shown(cases.__doc__), names)
    exec(shown(run.__doc__), names)
    keep(result_of(names["kb"], mark_run(names["kb"], names["state"]), "Kim"), "AUTUMN-3", tmp_path)
    exec(shown(marking.__doc__), names)

    assert names["state"].asks is None
    assert "findings:" in capsys.readouterr().out
