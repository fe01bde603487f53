"""``triage causes`` as a user meets it."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from triage.cli import main


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, ["causes", "graph", *map(str, arguments)])


def test_the_whole_graph_is_drawn_when_nothing_is_asked_for() -> None:
    result = run()

    assert result.exit_code == 0
    assert ET.fromstring(result.stdout).tag.endswith("svg")


@pytest.mark.parametrize("suffix", ["svg", "dot", "graphml", "json"])
def test_the_ending_of_the_file_says_what_is_written(tmp_path: Path, suffix: str) -> None:
    target = tmp_path / f"step.{suffix}"

    result = run("--around", "mast step", "-o", target)

    assert f"Written to {target}\n" == result.stdout
    starts = {"svg": "<svg", "dot": "digraph", "graphml": "<?xml", "json": "{"}
    assert target.read_text(encoding="utf-8").startswith(starts[suffix])


def test_steps_widen_what_is_shown_around_a_cause() -> None:
    near, far = (json.loads(run("--around", "grounding", "--steps", str(n), "-f", "json").stdout) for n in (1, 2))

    assert len(near["nodes"]) < len(far["nodes"])


def test_a_name_that_nothing_has_is_answered_with_the_nearest() -> None:
    result = run("--around", "groundin")

    assert result.exit_code == 2
    assert 'no cause and no zone is called "groundin"' in result.stderr
    assert 'Did you mean "grounding"?' in result.stderr
    assert "Traceback" not in result.output


def test_boats_that_share_a_cause_are_told_together(tmp_path: Path) -> None:
    files = [tmp_path / f"{name}.yaml" for name in ("Knot", "Ruff")]
    for file in files:
        file.write_text(
            f"boat: {{name: {file.stem}}}\nfindings: [{{zone: aft_run, sign: flat_worn}}, {{zone: chine, sign: scuff}}]"
        )

    result = CliRunner().invoke(main, ["causes", "shared", *map(str, files)])

    assert result.exit_code == 0
    assert result.stdout.startswith("Dragging over concrete or shingle: Knot (very likely), Ruff (very likely)")
    assert "- Ruff: Foil in the joint at Seam between hull and deck at the stern" in result.stdout


def test_a_folder_that_is_missing_is_made_and_a_drawing_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    made = run("-f", "json", "-o", tmp_path / "new" / "graph.json")
    refused = run("-f", "json", "-o", tmp_path / "new" / "graph.json" / "below.json")

    assert (0, 3) == (made.exit_code, refused.exit_code)
    assert json.loads((tmp_path / "new/graph.json").read_text(encoding="utf-8"))["nodes"]
    assert "Cannot make the folder" in refused.stderr
