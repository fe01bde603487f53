"""What people call things and how often they are met: read from files, with every mistake told where it stands."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base
from triage.errors import BadRules, Problem

WORDS = """
words:
  zones:
    chainplate: {picture: The plate that a wire fastens to., said: [wire plate]}
  signs:
    hairline: {said: [crack], usual_in: [trodden, chainplate]}
  ignored: [the]
  denials: [no]
  asides: [below]
  sides: {port: [left side]}
  sizes: {basis: estimate, taken_as: [{said: [hand, palm], is: 100 mm}]}
  readings: {crack_length: {beside: [long], alone: yes}}
  asking: {afloat: [can i sail]}
  could_not_tell: [no idea]
"""
FREQUENCIES = """
frequencies:
  basis: estimate
  scales:
    crack_length: {sound: [60, 30, 10], damaged: [1, 1, 2]}
  signs:
    hairline: {damaged: 20, levels: {crack_length: {sound: [2, 1, 1], damaged: [0, 1, 1]}}}
  facts:
    deck: {single: 30, cored: 10}
    encloses_buoyancy: {yes: 1, no: 1}
"""


def told(text: str) -> tuple[Problem, ...]:
    """What is told about a file grafted on the small base."""
    with pytest.raises(BadRules) as error:
        small_base(more=text)
    return error.value.problems


def test_words_are_read_and_groups_become_their_places() -> None:
    lexicon = small_base(more=WORDS).lexicon

    assert "The plate that a wire fastens to." == lexicon.zones["chainplate"].picture
    assert {"side_deck", "chainplate"} <= lexicon.signs["hairline"].usual_in
    assert {"hand": "100 mm", "palm": "100 mm"} == lexicon.taken_as
    assert lexicon.readings["crack_length"].alone
    assert ("can i sail",) == lexicon.asking["afloat"]
    assert [{"the"}, {"no"}, {"below"}] == [set(lexicon.ignored), set(lexicon.denials), set(lexicon.asides)]


def test_several_files_may_say_how_an_answer_is_given() -> None:
    one, other = (f"words: {{observations: {{panel_give: {{soft: [{said}]}}}}}}" for said in ("springy", "it sags"))

    said = small_base(one=one, other=other).lexicon.speech.observations

    assert {"panel_give": {"soft": ("springy", "it sags")}} == said


def test_shares_are_taken_of_their_own_sum() -> None:
    frequencies = small_base(more=FREQUENCIES).frequencies

    assert (0.6, 0.3, 0.1) == pytest.approx(frequencies.levels["crack_length"].sound)
    assert (0.25, 0.25, 0.5) == pytest.approx(frequencies.levels["crack_length"].damaged)
    assert (0.5, 0.25, 0.25) == pytest.approx(frequencies.under["hairline", "crack_length"].sound)
    assert 0.2 == pytest.approx(frequencies.damaged["hairline"])
    assert {"single": 0.75, "cored": 0.25} == frequencies.facts["deck"]


def test_a_base_without_either_has_none() -> None:
    kb = small_base()

    assert {} == kb.lexicon.zones
    assert {} == kb.frequencies.levels


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ("chainplate: {picture", "chainplat: {picture", '"chainplat"'),
        ("hairline: {said", "hairlin: {said", '"hairlin"'),
        ("[trodden, chainplate]", "[troden]", '"troden"'),
        ("port: [left side]", "larboard: [left side]", '"larboard"'),
        ("100 mm", "100 acres", '"100 acres" is no length or volume'),
        ("crack_length: {beside", "fitting_play: {beside", '"fitting_play"'),
        ("afloat: [can i sail]", "float: [can i sail]", '"float"'),
    ],
)
def test_a_mistake_in_the_words_is_told_where_it_stands(old: str, new: str, what: str) -> None:
    (problem,) = told(WORDS.replace(old, new))

    assert what in problem.what
    assert problem.place.line > 0
    assert problem.hint


def test_a_list_that_is_looked_up_word_by_word_takes_single_words() -> None:
    (problem,) = told("words:\n  listening:\n    tests: [pushed, leaned on it]\n")

    assert '"leaned on it" is more than one word' in problem.what
    assert problem.place.line == 3


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ("crack_length: {sound: [60", "crack_lenght: {sound: [60", '"crack_lenght"'),
        ("[60, 30, 10]", "[60, 40]", "2 shares for a scale of 3 levels"),
        ("[60, 30, 10]", "[0, 0, 0]", "nothing but noughts"),
        ("deck: {single: 30, cored: 10}", "deck: {single: 30}", "nothing for cored"),
        ("deck: {single", "dekc: {single", '"dekc"'),
        ("basis: estimate", "basis: published", '"published"'),
        ("damaged: 20", "damaged: 200", "cannot be 200"),
    ],
)
def test_a_mistake_in_the_frequencies_is_told_where_it_stands(old: str, new: str, what: str) -> None:
    (problem,) = told(FREQUENCIES.replace(old, new))

    assert what in problem.what
    assert problem.place.line > 0
    assert problem.hint


@pytest.mark.parametrize(("text", "what"), [(WORDS, "already has its words"), (FREQUENCIES, "already has its shares")])
def test_what_is_told_twice_is_told(text: str, what: str) -> None:
    with pytest.raises(BadRules, match=what):
        small_base(more=text, again=text)
