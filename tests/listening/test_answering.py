"""Answers in people's own words at a question: taken only where they are plain, else the likest are offered."""

from __future__ import annotations

import pytest

from tests.listening.answering import answered, count_observations, level_of, mark_for, marks_of, offered_levels
from tests.listening.scoring import ONLY_COUNTED, written
from triage.knowledge.model import KnowledgeBase
from triage.listening.observing import observed, ways_of
from triage.listening.offering import plainly_worst
from triage.listening.replies import reply
from triage.listening.tokens import words_of
from triage.survey.model import Finding

PANEL = Finding("mark", "foredeck", "soft_panel")
FITTING = Finding("mark", "chainplate", "play", "port")
BLISTER = Finding("mark", "bottom", "blister", "port")


@pytest.mark.parametrize(
    ("scale", "said", "level"),
    [
        ("panel_give", "it creaks when I stand on it", 2),
        ("panel_give", "jumped on it and it's the same both sides", 0),
        ("panel_give", "well, it gives twice as much", 3),
        ("panel_give", "No, it goes down a fair bit more.", 2),
        ("panel_give", "very soft", 3),
        ("panel_give", "leaves a dent when I press", 3),
    ],
)
def test_an_answer_in_the_words_of_the_rules_is_its_level(kb: KnowledgeBase, scale: str, said: str, level: int) -> None:
    reading = answered(kb, PANEL, scale, said)

    assert reading is not None
    assert (level, level) == (reading.low, reading.high)


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("wet when pricked", "it sprays when pricked"),
        ("liquid came out when I popped it", "it sprays when pricked"),
        ("it smells of vinegar", "it smells sour"),
    ],
)
def test_what_a_blister_holds_is_heard_at_whatever_is_asked_of_it(kb: KnowledgeBase, said: str, answer: str) -> None:
    assert ("wet_weep", answer) == observed(kb, words_of(said, {}), BLISTER, ["blistering", "wet_weep"], "blistering")


@pytest.mark.parametrize(
    ("said", "wet"),
    [
        ("A 6 mm blister on the bottom wept when I pricked it", True),
        ("12 mm blister on the bottom full of liquid", True),
        ("an 8 mm blister on the bottom, never wet when pricked", False),
    ],
)
def test_what_stands_beside_a_size_in_one_clause_is_heard_too(kb: KnowledgeBase, said: str, wet: bool) -> None:
    given = {one.scale: one.answer for one in reply(kb, said, BLISTER).given}

    assert given.keys() == {"blistering", *(["wet_weep"] if wet else [])}
    assert given.get("wet_weep") == ("it sprays when pricked" if wet else None)


def test_what_a_figure_has_answered_is_not_answered_again_by_the_words_beside_it(kb: KnowledgeBase) -> None:
    given = [one.scale for one in reply(kb, "dull over 60 mm and firm", PANEL).given]

    assert len(given) == len(set(given))


@pytest.mark.parametrize(
    ("finding", "scale", "said"),
    [
        (PANEL, "panel_give", "quite a bit soft"),  # how much it is tells one level from another
        (PANEL, "panel_give", "it's firm but for one corner that sags"),  # half of it is not understood
        (FITTING, "fitting_play", "I looked for movement and found none"),
        (FITTING, "backing", "rock solid"),  # an answer to another question
    ],
)
def test_what_is_not_plain_is_not_taken(kb: KnowledgeBase, finding: Finding, scale: str, said: str) -> None:
    assert answered(kb, finding, scale, said) is None


@pytest.mark.parametrize(("said", "level"), [("gives a bit if you lean on it", 1), ("it made a creaking sound", 2)])
def test_the_likest_answers_are_offered(kb: KnowledgeBase, said: str, level: int) -> None:
    assert answered(kb, PANEL, "panel_give", said) is None
    assert level == offered_levels(kb, PANEL, "panel_give", said)[0]


@pytest.mark.parametrize("said", ["ask my brother", "purple monkey dishwasher", "it is", ""])
def test_nothing_is_offered_to_words_about_something_else(kb: KnowledgeBase, said: str) -> None:
    assert [] == offered_levels(kb, PANEL, "panel_give", said)


def test_what_a_mark_cannot_be_is_not_offered(kb: KnowledgeBase) -> None:
    slipping = Finding("mark", "running_lines", "cleat_slip")

    assert 0 not in offered_levels(kb, slipping, "cleat_grip", "holds when I hang on it")
    assert offered_levels(kb, slipping, "cleat_grip", "it creeps when I hang on it")


@pytest.mark.parametrize(
    ("finding", "scale", "said"),
    [
        (FITTING, "fitting_play", "bangs about like mad"),
        (Finding("mark", "halyards", "rope_wear"), "rope_state", "core is hanging out everywhere"),
    ],
)
def test_the_worst_answer_is_taken_where_no_other_comes_near(
    kb: KnowledgeBase, finding: Finding, scale: str, said: str
) -> None:
    reading = answered(kb, finding, scale, said)

    assert reading is not None
    assert reading.low == reading.high == kb.scales[scale].top
    assert answered(kb, finding, scale, f"not {said}") is None


def test_nothing_but_the_worst_is_taken_by_likeness(kb: KnowledgeBase) -> None:
    for scale in ("fitting_play", "panel_give", "wet_weep", "rope_state"):
        levels = {
            answer: level
            for level in range(len(kb.scales[scale].levels))
            for answer, _ in kb.scales[scale].choices(level)
        }
        for way in ways_of(kb, scale, at_question=True):
            taken = plainly_worst(kb, scale, way.phrase, {answer: answer for answer in levels})

            assert taken is None or levels[taken] == kb.scales[scale].top


def test_what_is_denied_is_not_taken_for_what_it_denies(kb: KnowledgeBase) -> None:
    denying = {"no", "not", "nothing", "never", "cannot", "hardly", "barely", "without", "nowhere", "nobody"}
    for scale in ("fitting_play", "metal_shape", "joint_gap", "wet_weep"):
        for way in ways_of(kb, scale, at_question=True):
            plain = words_of(way.phrase, kb.lexicon.speech.variants)
            if way.level and not any(one in denying or one.endswith("nt") for one in plain):
                for zone, sign in marks_of(kb, scale, way.level)[::7]:
                    taken = observed(kb, ("not", *plain), Finding("mark", zone, sign), [scale], scale)

                    assert taken is None or level_of(kb, scale, taken[1]) != way.level, way.phrase


def test_what_was_only_counted_is_taken_right_or_asked(kb: KnowledgeBase) -> None:
    every = written("observations")[ONLY_COUNTED]
    ways = kb.lexicon.speech.observations
    known = {(scale, one) for scale, answers in ways.items() for said in answers.values() for one in said}
    keys = every[::7]
    count = count_observations(kb, keys)
    wrong = count["graver level taken"] + count["milder level taken"]

    assert len(every) == 1540
    assert not known & {(key["scale"], key["say"]) for key in every}
    assert wrong / count["answers"] <= 0.02
    assert (count["right level taken"] + count["right level among the offered"]) / count["answers"] >= 0.72


def test_ways_of_answering_are_taken_as_their_own_level_or_asked(kb: KnowledgeBase) -> None:
    ways = kb.lexicon.speech.observations
    keys = [
        {"say": one, "scale": scale, "answer": answer}
        for scale, answers in ways.items()
        for answer, said in answers.items()
        for one in said
    ]
    wrong = []
    for number, key in list(enumerate(keys))[::9]:
        reading = answered(kb, mark_for(kb, key, number), key["scale"], key["say"])
        level = level_of(kb, key["scale"], key["answer"])
        if reading is not None and reading.low is not None and not reading.low <= level <= (reading.high or 0):
            wrong.append(key["say"])

    assert [] == wrong
