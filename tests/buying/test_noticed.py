"""What is told of a sale in a story: its signs are heard, and what only sounds like one is not."""

from __future__ import annotations

import pytest

from triage.buying.noticed import noticed
from triage.concluding.assess import assess_survey
from triage.dialogue.events import Said
from triage.dialogue.step import begin, step
from triage.dialogue.wondering import answer_to
from triage.knowledge.model import KnowledgeBase
from triage.listening.offer_told import offer_told
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


VOICES = [
    ("No way is she going on her side, the man told me.", "not_turned"),
    ("He objected when I wanted to have a look at the bottom.", "not_turned"),
    ("The seller won't let us flip her over.", "not_turned"),
    ("They said hands off the hatches.", "not_opened"),
    ("She would not let me undo the inspection hatch.", "not_opened"),
    ("He doesn't want the tanks opened.", "not_opened"),
    ("He got cagey about the serial number and would not show it.", "number_not_shown"),
    ("The seller refuses to send me a photo of the number.", "number_not_shown"),
    ("I was told the number is private.", "number_not_shown"),
    ("She keeps saying another family is coming tonight.", "haste"),
    ("It has to be sold by tonight he says.", "haste"),
    ("He wants me to put money down before I see it.", "deposit_unseen"),
    ("They want a deposit by PayPal first.", "deposit_unseen"),
    ("The chap doesn't know anything about her past.", "no_history"),
    ("She came from a house clearance and nobody knows her story.", "no_history"),
    ("The hull was painted just a fortnight ago.", "fresh_paint"),
    ("It has been freshly gelcoated underneath.", "fresh_paint"),
    ("Osmosis treated some years ago.", "treated_for_blisters"),
    ("The hull was repainted.", "fresh_paint"),
    ("It says the number is painted over.", "number_painted"),
    ("Selling because we have moved inland.", "reason_for_sale"),
    ("He will bring it to a lay-by off the main road.", "elsewhere"),
    ("He does not want to say where the boat is kept.", "elsewhere"),
    ("The price seems far too low.", "cheap"),
    ("He was not keen at all and refused to have her put upside down.", "not_turned"),
    ("The lady wouldn't let my brother crawl underneath.", "not_turned"),
    ("The owner doesn't want anybody to see the bottom.", "not_turned"),
    ("I asked to roll her, he said no.", "not_turned"),
    ("He refuses to unscrew a single hatch.", "not_opened"),
    ("We were not allowed near the tanks.", "not_opened"),
    ("She did not want the inspection hatches touched.", "not_opened"),
    ("He won't read me the hull number over the phone.", "number_not_shown"),
    ("The seller would not tell us the HIN.", "number_not_shown"),
    ("He keeps dodging when I ask for the number.", "number_not_shown"),
    ("Somebody else is apparently on the way with cash.", "haste"),
    ("I have to decide by tonight or it is gone.", "haste"),
    ("He insists on half up front.", "deposit_unseen"),
    ("They asked me to pay before seeing it.", "deposit_unseen"),
    ("The man has no idea about its history.", "no_history"),
    ("She's selling it for her neighbour and can't say what was done to it.", "no_history"),
    ("The outside was resprayed only last month.", "fresh_paint"),
    ("There is a brand new coat of paint inside and out.", "fresh_paint"),
    ("He only wants to meet at the services on the ring road.", "elsewhere"),
    ("That's far too low for a boat like this.", "cheap"),
]
"""Each with the sign that it tells. The words that tell a sign together were written after the first twenty had been
seen, and before the last twenty.
"""

MOST_UNHEARD = 8

NO_SIGN = [
    "The rudder refused to turn.",
    "The hatch refused to open.",
    "The wheels, they won't turn.",
    "He offered to keep her for me until Sunday.",
    "I won't turn her over alone, my back is bad.",
    "I did not want to turn it over in the rain.",
    "He let me open every hatch and turn her over.",
    "No need to decide now, he said, take your time.",
    "He was happy to send the number.",
    "She is not in a rush to sell and wants no deposit.",
    "The bottom was not painted recently.",
    "Freshly varnished rudder, coat worn thin.",
    "The coat has just been polished.",
    "A crack that must not be painted over.",
    "I will pay today if all is well.",
    "The tank did not want to hold air, hatch leaks.",
    "She floats far too low at the bow.",
    "We asked to pay the deposit later.",
    "Four school boats and ten minutes to decide which can sail today.",
]


def test_the_signs_of_a_sale_are_heard_in_other_voices_and_never_as_another_sign(kb: KnowledgeBase) -> None:
    heard = [(set(noticed(kb, told)), sign, told) for told, sign in VOICES]

    assert not [one for one in heard if one[0] - {one[1]}]
    assert MOST_UNHEARD >= sum(sign not in signs for signs, sign, _ in heard)


@pytest.mark.parametrize("told", NO_SIGN)
def test_what_only_sounds_like_a_sign_is_none(kb: KnowledgeBase, told: str) -> None:
    assert not noticed(kb, told)


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


def test_what_is_asked_in_a_conversation_is_weighed_and_kept_from_the_seller(kb: KnowledgeBase) -> None:
    state, _ = begin(kb, Survey(Boat("Wagtail"), ()))
    told = "The bow seam has a crack 80 mm long. He wants $1200 for it and my budget is 1500."
    state, shown = step(kb, state, Said(told))
    assert "About the sale: noted for you" in str(shown)
    state, _ = step(kb, state, Said("yes"))
    offer = offer_told(kb, state.survey.note)

    assert ("USD", 1200, 1500) == (offer.currency, offer.asking, offer.budget)
    assert "Asked, as you told: $1,200." in " ".join(answer_to(kb, state.survey, "", "decision"))
    assert "1200" not in assess_survey(state.survey, kb).note


def test_an_amount_that_nothing_calls_a_price_is_none_in_a_conversation(kb: KnowledgeBase) -> None:
    assert offer_told(kb, "The trolley has a £20 tyre on it.").asking is None
    assert (
        "A scratch 300 mm long." == assess_survey(Survey(Boat("Wagtail"), (), note="A scratch 300 mm long."), kb).note
    )
