"""Whatever is asked about has a frequency, once any has."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base
from triage.lint.frequencies import idle_nevers, missing_frequencies

TWO, THREE = "{sound: [70, 30], damaged: [20, 80]}", "{sound: [60, 30, 10], damaged: [20, 40, 40]}"
WHOLE = f"""
frequencies:
  basis: estimate
  scales:
    crack_length: {THREE}
    panel_give: {TWO}
    fitting_play: {TWO}
    leak_rate: {THREE}
  signs:
    hairline: {{damaged: 10}}
    long_crack: {{damaged: 50}}
    play: {{damaged: 50}}
    open_leak: {{damaged: 50}}
    nothing_seen: {{damaged: 1}}
  facts:
    deck: {{single: 70, cored: 30}}
    encloses_buoyancy: {{yes: 50, no: 50}}
"""


def told(frequencies: str, **grafted: str) -> list[str]:
    return [problem.what for problem in missing_frequencies(small_base(frequencies=frequencies, **grafted))]


@pytest.mark.parametrize(
    ("gone", "expected"),
    [
        (f"    leak_rate: {THREE}\n", ["how often is each level of leak_rate met? Nothing says"]),
        ("    play: {damaged: 50}\n", ["how often is there more behind play than it shows? Nothing says"]),
        ("    deck: {single: 70, cored: 30}\n", ["how many boats are there of each deck? Nothing says"]),
        (
            "    encloses_buoyancy: {yes: 50, no: 50}\n",
            ["how often is encloses_buoyancy yes where it varies? Nothing says"],
        ),
        ("", []),
    ],
)
def test_what_is_asked_about_without_a_frequency_is_told(gone: str, expected: list[str]) -> None:
    assert WHOLE.count(gone) == 1 or not gone
    assert expected == told(WHOLE.replace(gone, "") if gone else WHOLE)


def test_a_scale_that_nobody_is_asked_about_needs_none() -> None:
    rust = """
scales:
  rust:
    kind: observed
    name: Rust
    asks: Is it rusty?
    levels: [{name: bright, seen: it is bright}, {name: brown, seen: it is brown}]
"""

    assert [] == told(WHOLE, rust=rust)


def test_a_base_without_any_frequency_asks_without_them() -> None:
    assert [] == list(missing_frequencies(small_base()))


@pytest.mark.parametrize(
    ("never", "idle"),
    [
        ("{of: [hairline], read: {crack_length: [0]}, because: It is short.}", 0),
        ("{of: [open_leak], read: {crack_length: [2]}, because: It is no line.}", 1),
        ("{of: [hairline], at: [side_deck], but: [hairline], read: {crack_length: [2]}, because: It is not.}", 1),
    ],
)
def test_what_could_never_be_met_needs_no_word_against_it(never: str, idle: int) -> None:
    base = small_base(frequencies=f"{WHOLE}  never:\n    - {never}\n")

    assert idle == len(list(idle_nevers(base)))
