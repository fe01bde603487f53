"""Reading causes and the figures that weigh them; the mistakes in a cause itself are written down in mistakes/."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base, small_texts
from triage.errors import BadRules, Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import knowledge_from_texts


def complaints(*changes: tuple[str, str]) -> tuple[Problem, ...]:
    with pytest.raises(BadRules) as caught:
        small_base(*changes)
    return caught.value.problems


def test_a_cause_is_read_with_everything_it_says() -> None:
    causation = small_base().causation

    cause = causation.causes["hard_landing"]

    assert [("stem", "long_crack"), ("side_deck", "hairline")] == [left.mark for left in cause.leaves]
    assert [("side_deck", "press", "both")] == [(f.zone, f.check, f.side) for f in cause.follow_ups]
    assert cause.still_at_work is not None
    assert (("stem", "hairline"),) == cause.still_at_work.shown_by
    assert causation.weights is not None
    assert (0.0, 1.0, 3.0) == causation.weights.gravity


@pytest.mark.parametrize(
    ("chance", "word"), [(0.5, "likely"), (0.49, "possible"), (0.1, "possible"), (0.0999, "little speaks for it")]
)
def test_a_chance_takes_the_word_that_begins_at_or_below_it(chance: float, word: str) -> None:
    weights = small_base().causation.weights

    assert weights is not None
    assert word == weights.word(chance)


@pytest.mark.parametrize(
    ("old", "new", "what", "hint"),
    [
        ("at_least: 0.1", "at_least: 0.6", "the words do not run from the likeliest down to 0", "Put them in order"),
        (
            "at_least: 0, says: little",
            "at_least: 0.01, says: little",
            "the words do not run",
            "the last is at_least: 0",
        ),
        ("yes_if_so: 0.8", "yes_if_so: 0.05", "a yes would speak against its cause", "must be the larger"),
        ("story_from: likely", "story_from: likley", 'no word for a chance is called "likley"', "likely"),
        (", structural: 3", "", "gravity leaves out structural", "each level of the verdict"),
        ("structural: 3", "structral: 3", 'no level of the verdict is called "structral"', "structural"),
        ("priors: {rare: 0.02, common: 0.3}", "priors: {rare: 0.02}", 'no prior is called "common"', "rare"),
    ],
)
def test_figures_that_cannot_be_used_are_told_with_their_place(old: str, new: str, what: str, hint: str) -> None:
    problems = complaints((old, new))

    assert any(what in problem.what and hint in problem.hint for problem in problems)
    assert all(problem.place.source == "causes.yaml" and problem.place.line for problem in problems)


def test_causes_need_weights() -> None:
    texts = small_texts()
    texts["causes.yaml"] = (
        texts["causes.yaml"].partition("\ncauses:")[1] + texts["causes.yaml"].partition("\ncauses:")[2]
    )

    with pytest.raises(BadRules, match="causes need weights to be weighed by"):
        knowledge_from_texts(texts)


def test_a_base_without_causes_needs_no_weights() -> None:
    texts = small_texts()
    del texts["causes.yaml"]

    assert {} == knowledge_from_texts(texts).causation.causes


def test_every_cause_of_the_shipped_knowledge_says_what_to_ask_and_where_to_look(kb: KnowledgeBase) -> None:
    causes = kb.causation.causes

    assert len(causes) >= 38
    for cause in causes.values():
        assert cause.ask.endswith("?")
        assert cause.happens.endswith(".")
        assert all(follow_up.because.endswith(".") for follow_up in cause.follow_ups)
