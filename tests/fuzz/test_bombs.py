"""Surveys and sentences that would grow without end are refused at once: long lists, long words, many of everything."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bounded import bounded
from tests.fuzz.harnesses import sentence, shipped, survey, well_told
from triage.errors import BadSurvey
from triage.survey.form import MOST_ENTRIES
from triage.survey.read import read_survey, survey_from_text

BOAT = "boat: {name: Wagtail%s}\n"
MARK = BOAT % "" + "findings: [{zone: topside, sign: hairline%s}]\n"
ANCHOR = "a shroud ankor at deck numbr "


def many(count: int, entry: str) -> str:
    return ", ".join(entry.format(n=n) for n in range(count))


BOMBS = {
    "a list of very many numbers": "[" + "1," * 200_000 + "]",
    "a list of very many numbers, deep inside": "[" * 39 + "1," * 200_000 + "]" * 39,
    "readings nobody knows": MARK % (", readings: {" + many(3000, "panel{n}: 1") + "}"),
    "facts nobody knows": BOAT % (", facts: {" + many(3000, "deck{n}: x") + "}"),
    "closed spaces she has not": BOAT % (", encloses_buoyancy: {" + many(3000, "tank{n}: yes") + "}"),
    "causes nobody knows": BOAT % "" + "history: {" + many(3000, "blow{n}: yes") + "}\n",
    "keys that no survey has": BOAT % "" + "".join(f"survex{n}: 1\n" for n in range(3000)),
    "one key again and again": BOAT % "" + "note: x\n" * 10_000,
    "shorthand of nothing": BOAT % "" + "".join(f"a{n}: *b\n" for n in range(10_000)),
    "places misspelt": BOAT % "" + f"findings: [{many(100, f'{{{{zone: {ANCHOR}{{n}}, sign: hairlin}}}}')}]",
    "places that are a book": BOAT % "" + f"findings: [{{zone: {ANCHOR * 9000}, sign: hairline}}]",
    "findings that say nothing": BOAT % "" + f"findings: [{'{},' * 60_000}]",
    "photographs": MARK % (f", photos: [{'a,' * 20_000}]"),
    "a number of very many digits": MARK % (f", readings: {{crack_length: '{'9' * 1_000_000} mm'}}"),
    "a number and very many spaces": MARK % (f", readings: {{crack_length: '9{' ' * 1_000_000}x'}}"),
}


@pytest.mark.parametrize("bomb", BOMBS)
def test_a_survey_that_would_grow_without_end_is_refused_at_once(bomb: str) -> None:
    with bounded(), pytest.raises(BadSurvey) as refused:
        survey_from_text(BOMBS[bomb], shipped())

    well_told(refused.value.problems)


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("1" + " " * 20_000 + "x", id="a number and a long row of spaces"),
        pytest.param("one" + "-" * 20_000 + "inch", id="a word and a long row of dashes"),
        pytest.param("1 mm " * 500, id="thousands of sizes"),
        pytest.param("a couple of " * 2000, id="thousands of small numbers"),
        pytest.param("crack " * 3000, id="the same word thousands of times"),
        pytest.param("q" * 20_000, id="one long word"),
    ],
)
def test_no_sentence_takes_long(text: str) -> None:
    with bounded():
        sentence(text.encode())


def test_as_many_answers_as_there_are_things_to_answer_for_are_read() -> None:
    kb = shipped()

    assert MOST_ENTRIES > max(len(kb.facts), len(kb.zones), len(kb.scales), len(kb.causation.causes))


def test_of_a_file_without_an_end_only_the_beginning_is_read() -> None:
    endless = Path("/dev/zero")
    assert endless.exists()

    with bounded(), pytest.raises(BadSurvey, match="this file is too large"):
        read_survey(endless, shipped())


def test_a_text_of_several_lines_is_told_in_one() -> None:
    with pytest.raises(BadSurvey) as refused:
        survey_from_text('boat: {name: Wagtail, facts: {"de\\tck\\nof\\u2028her": single}}', shipped())

    (problem,) = refused.value.problems
    assert 'no boat fact is called "de ck of her"' == problem.what


def test_a_large_survey_is_read() -> None:
    text = BOAT % "" + f"findings: [{many(300, '{{zone: topside, sign: hairline, id: f{n}}}')}]"

    survey(text.encode())
