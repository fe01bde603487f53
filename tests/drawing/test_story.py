"""A story as a graph: every mark once, under what it comes of."""

from __future__ import annotations

import re

from tests.drawing.svg import classes, read
from triage.drawing.story import StoryMark, draw_story
from triage.drawing.svg import style_sheet


def lefts(svg: str) -> list[float]:
    return [float(x) for x in re.findall(r'class="(?:cause|found)" x="([\d.]+)"', svg)]


def test_what_follows_from_a_mark_stands_under_it_and_further_in() -> None:
    marks = [StoryMark("a", "seam"), StoryMark("b", "ridge"), StoryMark("c", "water", follows="a")]

    svg = draw_story("dragging", marks, "in words")

    words = [text.text for text in read(svg).iter() if text.tag.endswith("}text")]
    assert ["dragging", "seam", "water", "ridge"] == words
    cause, seam, water, ridge = lefts(svg)
    assert cause < seam == ridge < water
    assert 3 == svg.count('class="follows"')


def test_what_follows_from_nothing_known_comes_of_the_cause() -> None:
    assert 2 == draw_story("x", [StoryMark("a", "one", "elsewhere"), StoryMark("b", "two")], "").count("follows")


def test_marks_that_lead_back_to_each_other_are_drawn_no_more_than_once() -> None:
    marks = [StoryMark("a", "one"), StoryMark("b", "two", "a"), StoryMark("a", "one", "b")]

    assert 3 == len(lefts(draw_story("x", marks, "")))


def test_a_story_is_harmless_and_its_words_stay_in_their_boxes() -> None:
    svg = draw_story("A <b> & a very long cause of many things " * 3, [StoryMark("a", "word " * 60)], "said")

    root = read(svg)
    assert not [name for name in classes(root) if f".{name}" not in style_sheet()]
    assert all(len(text.text or "") <= 46 for text in root.iter() if text.tag.endswith("}text"))
