"""For a buyer: the advert is kept in the words of an offer file, and money is never made up."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from tests.app.conftest import Person
from tests.log.keepers import wagtail
from triage.app.advert import fields_of, offer_of
from triage.buying.read_offer import offer_from
from triage.knowledge.model import KnowledgeBase
from triage.log.boats import Kept
from triage.log.held import HeldBoats
from triage.phrases import advert as words
from triage.phrases.screens import FOR_SALE
from triage.survey.model import Boat, Finding, Reading, Survey

SEAM = Finding("seam", "joint_bow", "joint_crack", None, {"joint_gap": Reading.at(2)})
FIGURES = {"currency": "GBP", "asking": "£2,200", "sound_least": "1900", "sound_most": "2300", "budget": "2600"}


@pytest.fixture
def visit(boats: HeldBoats) -> Kept:
    return boats.begin(wagtail(SEAM))


@pytest.fixture
def at(visit: Kept) -> str:
    return f"/visit/{visit.visit}/"


def test_an_empty_form_is_kept_and_nothing_is_judged_by_money(person: Person, at: str) -> None:
    read = person.send(f"{at}advert", to="decide")

    assert person.path == f"{at}buy"
    assert "Not judged, because you did not name it" in read
    assert not re.search("asking [£€0-9]|worth about", read, re.IGNORECASE)


def test_our_part_of_a_new_price_is_asked_for_and_gives_way_to_ones_own(
    person: Person, boats: HeldBoats, visit: Kept, at: str
) -> None:
    read = person.send(f"{at}advert", to="decide", asking="2200", new="7,000")
    assert "Or write ours, for our estimate: 20 to 60" in read
    assert not boats.offer(visit.boat)

    person.send(f"{at}advert", to="decide", asking="2200", new="7,000", ours="yes")
    assert "our estimate for used ones, on which the decision does not rest" in person.text
    assert "ours" == boats.offer(visit.boat)["of_new"]

    person.send(f"{at}advert", to="decide", new="7,000", ours="yes", of_new_least="30", of_new_most="50")
    assert [30, 50] == boats.offer(visit.boat)["of_new"]
    person.go(f"{at}advert")
    assert 'value="50"' in person.text


def test_from_the_advert_to_the_decision(person: Person, boats: HeldBoats, visit: Kept, at: str) -> None:
    person.send(f"{at}advert", to="viewing", number="QQ-XYZ00123E526", **FIGURES, **{"age/standing_wires": "12"})
    assert "of 40 minutes" in person.read
    assert 2200 == boats.offer(visit.boat)["asking"]

    read = person.go(f"{at}buy")

    assert "asking £2,200" in person.text
    assert "A sound one like her" in person.text
    assert "12 years old" in read
    assert "They all do that" in read
    assert "What nobody tried is not passed" in read


def test_boats_of_several_adverts_are_told_apart_by_what_they_are_called(
    person: Person, boats: HeldBoats, visit: Kept, at: str
) -> None:
    person.send(f"{at}advert", to="viewing", called="The blue one at Saltmere")
    assert "The blue one at Saltmere: " in person.read

    person.send(f"{at}advert", to="viewing", called="")
    assert "The blue one at Saltmere: " in person.read
    person.go(f"{at}advert")
    assert 'value="The blue one at Saltmere"' in person.text


def test_what_was_told_of_the_sale_ticks_a_new_advert_and_stands_beside_a_kept_one(
    person: Person, boats: HeldBoats
) -> None:
    told = "He wants a deposit today."
    at = f"/visit/{boats.begin(replace(wagtail(SEAM), note=told)).visit}/"

    person.go(f"{at}advert")
    assert 'name="sale/deposit_unseen" value="yes" checked' in person.text
    assert "One thing about the sale is out of the ordinary" in person.go(f"{at}buy")

    person.send(f"{at}advert", to="decide", asking="2200")
    assert f"You told: “{told}”" in person.read
    person.send(f"{at}advert", to="decide", asking="2200", **{"sale/deposit_unseen": "yes"})
    assert f"You told: “{told}”" not in person.read


def test_the_form_comes_back_as_it_was_filled_in(person: Person, at: str) -> None:
    person.send(f"{at}advert", to="number", number="QQ-XYZ00123E526", claimed_year="1998", lives="Saltmere, ashore")

    assert person.path == f"{at}advert"
    assert "Maker XYZ, serial 00123" in person.read
    assert "She is said to be of 1998, and the number says" in person.read
    assert 'value="Saltmere, ashore"' in person.text
    assert "She lies: Saltmere, ashore" in person.go(f"{at}viewing")
    person.go(f"{at}viewing.txt")
    assert "She lies    Saltmere, ashore" in person.text


def test_what_cannot_be_read_is_said_and_not_kept(person: Person, boats: HeldBoats, visit: Kept, at: str) -> None:
    read = person.send(f"{at}advert", asking="about two grand", currency="groats", sound_least="3", sound_most="2")

    assert 422 == person.status
    assert "Asking price: “about two grand” is no figure" in read
    assert "does not run from the least to the most" in read
    assert 'value="about two grand"' in person.text
    assert {} == boats.offer(visit.boat)

    assert "no currency in three letters" in person.send(f"{at}advert", currency="groats")
    assert "how much of SEK" in person.send(f"{at}advert", currency="SEK").replace("How", "how")


def test_a_mark_known_from_a_photograph_stays_open(person: Person, boats: HeldBoats) -> None:
    scuff = boats.begin(wagtail(Finding("scuff", "transom", "scuff")))
    at = f"/visit/{scuff.visit}/"
    person.send(f"{at}advert", **{"photo/scuff": "yes"})

    read = person.go(f"{at}buy")

    assert "Only seen in a photograph" in read
    assert "It stays open until somebody tries it" in read
    assert "cannot show" in person.go(f"{at}viewing")


def test_the_seller_gets_eight_questions_at_most_and_nobody_is_accused(person: Person, at: str) -> None:
    person.send(f"{at}advert", **{"sale/haste": "yes", "sale/fresh_paint": "yes", "sale/no_history": "yes"})
    read = person.go(f"{at}viewing")
    listed = re.findall(r"\b(\d)\. (?:Could|May|What|When|How)", read)
    assert [str(number) for number in range(1, 9)] == listed

    read = person.go(f"{at}buy")
    assert "Wait" in person.heading
    assert "Pay no deposit today" in read
    assert not any(word in read.casefold() for word in ("stolen from", "thief", "liar", "fraud", " safe"))


def test_every_way_out_of_the_decision(person: Person, at: str) -> None:
    person.send(f"{at}advert", **FIGURES)

    files = {"buy.html": "For somebody who thinks of buying her", "buy.txt": "WAGTAIL", "viewing.txt": "Bring"}
    for name, says in files.items():
        person.go(f"{at}{name}")
        assert (200, True) == (person.status, says in person.text)
    assert 404 == (person.go(f"{at}viewing?minutes=-3") and person.status)


def test_a_hostile_form_is_words(person: Person, boats: HeldBoats, visit: Kept, at: str) -> None:
    person.send(f"{at}advert", lives="<script>alert(1)</script>", number='"><b>', **{"gear/../x": "missing"})
    assert 422 == person.status
    assert "<script>alert" not in person.text
    person.send(f"{at}advert", lives="<script>alert(1)</script>" * 50)
    assert 120 == len(boats.offer(visit.boat)["lives"])
    person.go(f"{at}advert")
    assert ("<script>alert" in person.text, "&lt;script&gt;" in person.text) == (False, True)


def test_form_and_offer_say_the_same(kb: KnowledgeBase) -> None:
    fields = {
        **FIGURES,
        "until": "2026-10-10",
        "gear/cover": "missing",
        "gear/road_trailer": "extra",
        "age/mainsail": "9",
        "sale/haste": "yes",
        "least/joint_bow/": "480",
        "most/joint_bow/": "700",
        "accepted/joint_bow/": "yes",
    }
    offer, problems = offer_of(fields, 2026)
    again, _ = offer_of(fields_of(offer), 2026)

    assert (offer, []) == (again, problems)
    read = offer_from(offer, kb)
    assert (2200, ("cover",), ("road_trailer",)) == (read.asking, read.missing, read.extra)
    assert (480, 700, True) == (read.quotes[0].price.least, read.quotes[0].price.most, read.quotes[0].accepted)


PASTED = """1998 dinghy, £1,450 ono. Road trailer included, no cover. Mainsail 6 years old.
Small crack on the foredeck. £90 or so for the old cover. Must go today.
Phone after six."""


def test_a_pasted_advert_is_shown_before_anything_is_kept(
    person: Person, boats: HeldBoats, visit: Kept, at: str
) -> None:
    read = person.send(f"{at}advert", to="read", advert=PASTED, budget="1900", asking="1400", currency="EUR")

    assert {} == boats.offer(visit.boat)
    assert "Asking price: £1,450; Year she was built, as the seller says: 1998 “1998 dinghy, £1,450 ono”" in read
    assert "Nothing was made of this: “no cover” “Phone after six”" in read
    assert "Speaks of damage; look at it yourself: “Small crack on the foredeck”" in read
    assert "it is left to you: “£90 or so for the old cover”" in read
    assert 'value="1998"' in person.text
    assert 'name="sale/haste" value="yes" checked' in person.text
    assert 'value="1400"' in person.text, "what somebody wrote stands"
    assert 'value="GBP"' in person.text, "and what nobody wrote gives way"

    person.send(f"{at}advert", to="viewing", advert=PASTED, asking="1450")
    assert (1450, PASTED) == (boats.offer(visit.boat)["asking"], boats.offer(visit.boat)["advert"])


def test_what_an_advert_tells_of_damage_is_asked_about_as_a_mark(person: Person, boats: HeldBoats) -> None:
    at = f"/visit/{boats.begin(wagtail()).visit}/"
    read = person.send(f"{at}advert", to="marks", advert=PASTED)

    assert person.path == at
    assert "Single hairline" in read
    assert "This is what I understood" in read


def test_an_advert_that_tells_nothing_invents_nothing(person: Person, boats: HeldBoats, visit: Kept, at: str) -> None:
    read = person.send(f"{at}advert", to="read", advert="A lovely boat, about twenty years old. Offers, please.")

    assert "Nothing was understood of it" in read
    assert not re.search(r'name="(?:asking|claimed_year)"[^>]*value="[^"]', person.text)


STEPS = ["Advert", "Plan", "Viewing", "Decision"]


def the_way(person: Person) -> tuple[list[str], str]:
    """The steps that are shown, and the one where the buyer is."""
    nav = person.text.partition('<nav class="buyers-way"')[2].partition("</nav>")[0]
    said = [re.sub("<[^>]+>|[←→ ]", "", one) for one in re.findall(r"<(?:a|b|button)[ >].*?</(?:a|b|button)>", nav)]
    (here,) = re.findall(r'aria-current="step">(?:<span.*?</span>)?([A-Z][a-z]+)', nav) or [""]
    return said, here


def test_the_way_stands_on_every_screen_of_a_boat_that_may_be_bought(person: Person, at: str) -> None:
    assert [] == the_way_after(person, at)
    person.send(f"{at}advert", to="viewing", **FIGURES)
    for screen, here in (("advert", "Advert"), ("viewing", "Plan"), ("walk", "Viewing"), ("", "Viewing")):
        person.go(f"{at}{screen}")
        assert (STEPS, here) == the_way(person), screen
    person.go(f"{at}buy")
    assert (STEPS, "Decision") == the_way(person)


def the_way_after(person: Person, at: str) -> list[str]:
    person.go(f"{at}walk")
    return the_way(person)[0]


def test_from_the_advert_every_step_keeps_it_first(person: Person, boats: HeldBoats, visit: Kept, at: str) -> None:
    person.send(f"{at}advert", to="walk", asking="2200")

    assert person.path.startswith(f"{at}walk")
    assert 2200 == boats.offer(visit.boat)["asking"]


def test_after_the_damage_of_an_advert_is_told_the_plan_is_one_step_away(person: Person, boats: HeldBoats) -> None:
    at = f"/visit/{boats.begin(replace(wagtail(), note='')).visit}/"
    person.send(f"{at}advert", to="marks", advert="£900. Crack near the mast foot.", asking="900")

    assert (STEPS, "Viewing") == the_way(person)
    assert f'{at.removeprefix("/")}viewing"><span aria-hidden="true">← </span>Plan' in person.text


@pytest.mark.parametrize(
    ("typed", "currency"),
    [({"currency": "£"}, "GBP"), ({"currency": "euros"}, "EUR"), ({"currency": "EUR", "asking": "£1,450"}, "GBP")],
)
def test_a_currency_is_taken_by_its_sign(
    person: Person, boats: HeldBoats, visit: Kept, at: str, typed: dict[str, str], currency: str
) -> None:
    person.send(f"{at}advert", **{"to": "decide", "asking": "900", **typed})
    assert currency == boats.offer(visit.boat)["currency"]


def test_dollars_are_asked_of_which_country(person: Person, boats: HeldBoats, visit: Kept, at: str) -> None:
    read = person.send(f"{at}advert", to="decide", asking="$900", currency="EUR")
    assert (422, True) == (person.status, "which are these?" in read)
    person.send(f"{at}advert", to="decide", asking="$900", currency="USD")
    assert "USD" == boats.offer(visit.boat)["currency"]


def test_every_trouble_of_a_form_is_said_at_once_beside_its_field_and_nothing_is_lost(person: Person, at: str) -> None:
    told = {"advert": "Nice dinghy, £900. Comes with cover.", "asking": "much", "claimed_year": "94"}
    person.send(f"{at}advert", to="viewing", currency="groats", until="soon", called="The blue one", **told)

    assert 422 == person.status
    for field in ("asking", "currency", "claimed_year", "until"):
        assert f'id="{field}-wrong"' in person.text, field
        assert f'aria-describedby="{field}-wrong"' in person.text, field
    assert 'value="The blue one"' in person.text
    assert "This is what I understood of the advert" in person.read
    assert "4 fields to mend" in person.read


def test_boats_without_a_name_are_told_apart(person: Person, boats: HeldBoats) -> None:
    for lives, asking in (("Saltmere", "900"), ("Westkade", "1450")):
        begun = boats.begin(Survey(Boat(FOR_SALE), (SEAM,)))
        person.send(f"/visit/{begun.visit}/advert", asking=asking, currency="GBP", lives=lives)

    read = person.go("/boats")
    assert "Saltmere; £900; Seam between hull and deck at the bow" in read
    assert "Westkade; £1,450; " in read


def test_all_marks_are_listed_with_where_they_stand(person: Person, at: str) -> None:
    person.send(f"{at}do", act="marks")
    assert re.search(r"Seam between hull and deck at the bow: Crack along a seam <small>\S+", person.text)


def test_what_is_told_and_still_asked_about_is_not_called_unseen(person: Person, boats: HeldBoats) -> None:
    at = f"/visit/{boats.begin(wagtail()).visit}/"
    person.send(f"{at}advert", to="marks", advert=PASTED)

    told = person.go(f"{at}buy")

    assert words.STILL_ASKED in told
    assert words.NOTHING_SEEN_YET not in told
