"""Drawings that carry their style themselves: every colour known, and nothing that only a browser understands."""

from __future__ import annotations

import re

from triage.drawing.marks import draw_mark
from triage.drawing.self_contained import plain_style, with_style


def test_the_style_has_a_colour_for_every_variable_and_no_media() -> None:
    style = plain_style()

    assert "var(" not in style
    assert "--" not in style
    assert "@" not in style
    assert ".boat .hull{fill: #f5edd8;stroke: #12212b" in style
    assert not [rule for rule in re.findall(r"\{[^}]*\}", style) if "paint-order" in rule]


def test_each_drawing_gets_it_and_nothing_else_does() -> None:
    page = f"<style>p {{}}</style><svg class='mark'></svg>{draw_mark('hairline').svg}"

    styled = with_style(page)

    assert 2 == styled.count("<style>")
    assert styled.replace(f"<style>{plain_style()}</style>", "") == page
