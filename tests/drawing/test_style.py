"""The one style sheet: dark enough by day and light enough by night, and no drawing needs anything beside it."""

from __future__ import annotations

import re

import pytest

from triage.drawing.svg import style_sheet

VALUE = re.compile(r"--([\w-]+): (?:light-dark\((#\w+), (#\w+)\)|(#\w+))")


def palettes() -> tuple[dict[str, str], dict[str, str]]:
    """The colours by day and by night."""
    day, night = {}, {}
    for name, light, dark, only in VALUE.findall(style_sheet().partition("@media")[0]):
        if only:
            day[name] = night[name] = only
        else:
            assert day[name] == light, f"{name} is another colour where light-dark is not known"
            night[name] = dark
    return day, night


def luminance(colour: str) -> float:
    full = colour if len(colour) == 7 else "#" + "".join(2 * digit for digit in colour[1:])
    parts = [int(full[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("night", [False, True])
def test_words_and_marks_stand_out_from_every_ground(night: bool) -> None:
    colours = palettes()[night]

    for text in ("ink", "soft", "act", "looks", "watch", "weakened", "open"):
        for ground in ("paper", "card", "buff"):
            assert contrast(colours[text], colours[ground]) >= 7, (text, ground)
    assert contrast(colours["on"], colours["weakened"]) >= 7
    assert contrast(colours["rule"], colours["paper"]) >= 3


@pytest.mark.parametrize("night", [False, True])
def test_drawings_keep_dark_lines_on_light_parts(night: bool) -> None:
    colours = palettes()[night]

    for ground in ("coat", "coat2", "glass", "metal", "hand", "sheet"):
        assert contrast(colours["line"], colours[ground]) >= 4.5, ground


def test_paper_has_the_colours_of_daylight_and_high_contrast_has_no_grey() -> None:
    sheet = style_sheet()

    assert "@media print { .drawn { color-scheme: light;" in sheet
    assert "@media (prefers-contrast: more) { .drawn { --soft: var(--ink); --rule: var(--ink); } }" in sheet
