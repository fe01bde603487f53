"""Answers in the words of an observation, and how each kind of answer is quoted."""

from __future__ import annotations

import pytest

from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Reading
from triage.survey.readings import NotUnderstood, quoted, reading_of

LIFTS = "the fitting lifts"


@pytest.mark.parametrize("said", [LIFTS, "The fitting lifts.", "it lifts"])
def test_an_observation_means_its_level_and_is_what_was_said(kb: KnowledgeBase, said: str) -> None:
    assert Reading.at(3, LIFTS) == reading_of(kb.scales["fitting_play"], said)


def test_every_observation_of_every_scale_is_read_back_as_itself(kb: KnowledgeBase) -> None:
    for scale in kb.scales.values():
        for number, level in enumerate(scale.levels):
            for one in level.observations:
                for said in (one.say, *one.heard):
                    reading = reading_of(scale, said)
                    assert (number, number, one.say) == (reading.low, reading.high, reading.said)
                    assert one.say == quoted(scale, reading)


@pytest.mark.parametrize(
    ("scale", "said", "told"),
    [
        ("fitting_play", LIFTS, LIFTS),
        ("fitting_play", "lifts or knocks", "“Movement of the fitting” is “lifts or knocks”"),
        ("fitting_play", "3", "“Movement of the fitting” is “lifts or knocks”"),
        ("fitting_play", "3 mm", "“Movement of the fitting” came out at 3 mm"),
        ("fitting_play", "still", "the base of the fitting stays still under a hard pull"),
        ("fitting_play", f"still to {LIFTS}", f"the base of the fitting stays still under a hard pull, or {LIFTS}"),
        (
            "depth",
            "it is 1 to 2 mm deep to it cuts the fibre by 2 mm or more",
            "it is 1 to 2 mm deep, or it cuts the fibre by 2 mm or more",
        ),
        ("joint_gap", "foil does not go in", "foil does not go in"),
        ("joint_gap", "closed", "“Gap in the joint” is “closed”"),
        ("joint_gap", "could not tell", ""),
    ],
)
def test_a_reading_is_quoted_in_no_more_words_than_were_said(
    kb: KnowledgeBase, scale: str, said: str, told: str
) -> None:
    assert told == quoted(kb.scales[scale], reading_of(kb.scales[scale], said))


def test_an_observation_that_is_misspelt_is_asked_about(kb: KnowledgeBase) -> None:
    with pytest.raises(NotUnderstood) as caught:
        reading_of(kb.scales["joint_gap"], "foil dose not go in")

    assert caught.value.hint.startswith('Did you mean "foil does not go in"? Answer with closed; ')


def test_a_menu_stays_short(kb: KnowledgeBase) -> None:
    for scale in kb.scales.values():
        assert len([one for level in scale.levels for one in level.observations]) <= 11
