"""What is told of a sale in a story: its signs are heard, and what only sounds like one is not."""

from __future__ import annotations

import pytest

from triage.buying.noticed import noticed
from triage.concluding.assess import assess_survey
from triage.dialogue.events import Said
from triage.dialogue.step import begin, step
from triage.dialogue.wondering import answer_to
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Survey

PRESSED = "He won't say what was done, and wants a deposit today."


@pytest.mark.parametrize(
    ("told", "signs"),
    [
        (PRESSED, {"no_history", "deposit_unseen"}),
        ("The bottom was sprayed last month.", {"fresh_paint"}),
        ("The seller won’t let me turn her over.", {"not_turned"}),
        ("He is in no hurry to sell and does not want a deposit.", set()),
        ("I have not opened the hatches, and she was not turned.", set()),
    ],
)
def test_signs_are_heard_by_the_words_of_the_rules(kb: KnowledgeBase, told: str, signs: set[str]) -> None:
    assert signs == set(noticed(kb, f"A crack at the bow. {told} Should I buy her?"))


def test_every_way_of_telling_a_sign_is_heard_as_that_sign(kb: KnowledgeBase) -> None:
    for sign in kb.purchase.sale.values():
        assert sign.told, sign.id
        for way in sign.told:
            assert sign.id in noticed(kb, f"He {way}."), way


def test_what_is_no_mark_is_kept_word_for_word_and_taken_back_whole(kb: KnowledgeBase) -> None:
    state, _ = begin(kb, Survey(Boat("Wagtail"), ()))
    story = f"The bow seam has a crack 80 mm long. {PRESSED} Should I buy her?"
    state, _ = step(kb, state, Said(story))
    state, _ = step(kb, state, Said("yes"))
    assert PRESSED in state.survey.note
    assert state.survey.findings

    state, _ = step(kb, state, Said("back"))
    assert "" == state.survey.note


def test_a_report_that_a_seller_may_see_says_nothing_of_the_sale(kb: KnowledgeBase) -> None:
    assessed = assess_survey(Survey(Boat("Wagtail"), (), note=f"Seen at dusk. {PRESSED} Wet grass."), kb)

    assert "Seen at dusk. Wet grass." == assessed.note


def test_a_number_that_was_seen_to_be_missing_stands_behind_the_doubt(kb: KnowledgeBase) -> None:
    said = " ".join(answer_to(kb, Survey(Boat("Wagtail"), (Finding("a", "identity", "id_odd"),)), "a", "decision"))

    assert "By what was found alone: buy on terms" in said
    assert "Number missing, altered or disagreeing" in said


def test_what_is_told_beside_a_question_is_noted_and_weighed(kb: KnowledgeBase) -> None:
    state, _ = begin(kb, Survey(Boat("Wagtail"), ()))
    state, messages = step(kb, state, Said(f"{PRESSED} Should I buy her?"))
    said = " ".join(answer_to(kb, state.survey, "", "decision"))

    assert PRESSED == state.survey.note
    assert messages[0].text.startswith("Kept as a note")  # type: ignore[union-attr]
    assert "Pay no deposit today." in said
    assert "Several things about the sale" in said
