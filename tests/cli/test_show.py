"""``triage rules show``: an entry of the knowledge with everything it meets."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.cli.test_rules import IDLE, folder_of
from triage.cli import main

PROMISE = """
promises:
  - id: stem/told
    says: A stem that gives is told.
    when: {zone: stem, panel_give: {at_least: 1}}
    at_least: {verdict: 1}
    because: It gives.
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return folder_of(tmp_path, idle=IDLE, promise=PROMISE)


def show(id_: str, folder: Path) -> Result:
    return CliRunner().invoke(main, ["rules", "show", id_, "--rules", str(folder)])


def test_a_rule_is_shown_with_everything_it_meets(folder: Path) -> None:
    assert (
        """\
deck/long-line-underfoot  (rule, rules.yaml:12)
  when         at the decks that people stand on
               Length of the crack: it is longer than a finger, or worse
               Spring of the panel: it gives more than its twin
  then         The glass itself: the glass is broken
  because      A long line in a deck that gives goes through the glass.
  levels       laminate 2 (broken)
  basis        estimate
  cases        1 in which it fires, 3 in which it stays silent
  holds on     side_deck: hairline, long_crack
  beside it    panel/gives (laminate 1)
  presumed     presume/firm-deck: crack_length 0 (short)
"""
        == show("deck/long-line-underfoot", folder).output
    )


def test_what_makes_a_rule_idle_is_named_first(folder: Path) -> None:
    told = " ".join(show("stem/gives-again", folder).output.split())

    assert "panel/gives (laminate 1) holds whenever this does and says as much: it subsumes this" in told


@pytest.mark.parametrize(
    ("id_", "lines"),
    [
        ("presume/firm-deck", ["presumption, rules.yaml:", "crack_length 0 (short)", "deck/long-line-underfoot"]),
        ("stem/told", ["promise, promise.yaml:3", "at least verdict 1 (monitor)", "verdict/glass-in-doubt"]),
        ("crack_length", ["observed scale, scales.yaml:2", "measured in  mm", "measure: Measure it", "2 very long"]),
        ("laminate", ["derived scale, scales.yaml:", "raised to 2  deck/long-line-underfoot", "verdict/glass-broken"]),
        ("hairline", ["sign, words.yaml:68", "at most      crack_length 1 (long), else long_crack", "judged by"]),
        ("chainplate", ["zone, words.yaml:", "signs        hairline, play, nothing_seen", "passed by    fitting_play"]),
        ("press", ["check, checks.yaml:", "reads        panel_give", "made at      stem", "sent to by   hard_landing"]),
    ],
)
def test_each_kind_of_entry_is_shown_with_where_it_stands(id_: str, lines: list[str], folder: Path) -> None:
    result = show(id_, folder)

    assert 0 == result.exit_code
    assert result.output.startswith(f"{id_}  (")
    assert [] == [line for line in lines if line not in result.output]
    assert all(len(line) <= 81 for line in result.output.splitlines())


def test_an_unknown_id_is_answered_with_what_was_nearly_written(folder: Path) -> None:
    result = show("deck/long-lines-underfoot", folder)

    assert 2 == result.exit_code
    assert 'nothing is called "deck/long-lines-underfoot". Did you mean "deck/long-line-underfoot"?\n' == result.stderr


@pytest.mark.parametrize("id_", ["skins/line-opens", "verdict/glass-broken", "growth", "nothing_seen", "side_deck"])
def test_the_largest_shipped_entries_stay_readable(id_: str, root: Path) -> None:
    lines = show(id_, root / "rules").output.splitlines()

    assert 5 < len(lines) <= 110
