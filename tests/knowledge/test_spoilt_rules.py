"""Rules that people, phones and programs have spoilt are refused with reasons, in bounded time; they never crash."""

from __future__ import annotations

import time
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.bounded import SECONDS, bounded
from tests.mistakes import small_base, small_texts
from tests.strategies import WEIRD_WORDS, boats_with_findings, spoilt
from triage.errors import BadRules
from triage.inference.evaluate import evaluate
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import knowledge_from_texts
from triage.parsing.quantities import NotAQuantity, in_unit

SMALL = small_texts()
FILES = {name: yaml.safe_load(text) for name, text in SMALL.items()}

RULE = """
rules:
  - id: stem/spoilt
    when: {when}
    raises: {{laminate: 1}}
    because: It shows.
    basis: estimate
    cases:
      - {{given: {given}, expect: fires}}
      - {{given: {{zone: tank}}, expect: silent}}
"""
SCALE = """
scales:
  width:
    kind: observed
    name: Width
    asks: How wide?
    unit: {unit}
    limits: {limits}
    levels: [{{name: thin, seen: it is thin}}, {{name: wide, seen: it is wide}}]
"""
STEM = "{zone: stem, panel_give: 1}"


def read_or_be_told(texts: dict[str, Any]) -> KnowledgeBase | None:
    """Nothing but a knowledge base or a list of problems may come of any files."""
    try:
        return knowledge_from_texts(texts)
    except BadRules as error:
        problems = error.problems
    assert problems
    assert all(problem.what and str(problem) for problem in problems)
    return None


@settings(max_examples=75)
@given(data=st.data())
def test_no_spoilt_file_makes_the_loader_fail(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(sorted(FILES)))
    text = yaml.safe_dump(data.draw(spoilt(FILES[name])), allow_unicode=True, sort_keys=False)

    kb = read_or_be_told(SMALL | {name: text})

    if kb is not None and any(kb.offers.values()):
        boat, found = data.draw(boats_with_findings(kb, most=2))
        assert len(found) == len(evaluate(kb, boat, found))


@settings(max_examples=40)
@given(data=st.data())
def test_no_spoilt_text_makes_the_loader_fail(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(["rules.yaml", "scales.yaml", "words.yaml"]))
    text = SMALL[name]
    for _ in range(data.draw(st.integers(1, 5))):
        place = data.draw(st.integers(0, len(text)))
        put = data.draw(
            st.one_of(st.text(max_size=3), st.sampled_from(["\n", "  ", "\t", ": ", "- ", "{", "]", "&a "]))
        )
        text = text[:place] + put + text[place + data.draw(st.integers(0, 9)) :]

    read_or_be_told(SMALL | {name: text})


@given(raw=st.one_of(st.binary(), st.text(), st.text().map(lambda text: text.encode("utf-16"))))
def test_no_other_file_makes_the_loader_fail(raw: bytes | str) -> None:
    read_or_be_told({"rules.yaml": raw})


BOMBS = {
    "an any for each line of an all": RULE.format(
        when="{all: [" + ", ".join(["{any: [{zone: stem}, {panel_give: {at_least: 1}}]}"] * 40) + "]}", given=STEM
    ),
    "a case for every word of many lists": RULE.format(
        when="{zone: stem}",
        given="{zone: [stem, tank, side_deck, chainplate], sign: [hairline, play, long_crack, nothing_seen], "
        + "panel_give: [0, 1], crack_length: [0, 1], leak_rate: [0, 1, 2], fitting_play: [0, 1], laminate: [0, 1, 2], "
        + "verdict: [0, 1, 2], elsewhere: ["
        + ", ".join(["{zone: [stem, tank, side_deck], sign: [hairline, play]}"] * 30)
        + "]}",
    ),
    "conditions in conditions": RULE.format(when="{all: [" * 500 + "{zone: stem}" + "]}" * 500, given=STEM),
    "cases in cases": RULE.format(when="{zone: stem}", given="{elsewhere: [" * 500 + "{zone: stem}" + "]}" * 500),
    "shorthand that doubles again and again": "".join(
        f"k{n}: &a{n} [{'*a' + str(n - 1) if n else 'x'}, {'*a' + str(n - 1) if n else 'x'}]\n" for n in range(60)
    ),
    "a number with very many digits": RULE.format(
        when="{zone: stem}", given="{zone: stem, panel_give: " + "9" * 5000 + "}"
    ),
    "a list of one word thousands of times": RULE.format(when="{zone: [" + "stem, " * 5000 + "]}", given=STEM),
    "thousands of unknown words": RULE.format(
        when="{" + ", ".join(f"word{n}: x" for n in range(2000)) + "}", given=STEM
    ),
    "nesting by indentation": "\n".join(" " * n + "a:" for n in range(2000)),
    "a limit beyond all numbers": SCALE.format(unit="mm", limits="[1e999]"),
    "a limit that is no number": SCALE.format(unit="mm", limits="[nan]"),
    "a unit by a unit by a unit": SCALE.format(unit='"mm/mm/mm"', limits="[1]"),
    "text that runs the other way": RULE.format(when='{zone: "\u202estem\u200b"}', given=STEM),
    "letters that only look alike": RULE.format(when="{zone: ｓｔｅｍ}", given=STEM),
}


@pytest.mark.parametrize("bomb", BOMBS)
def test_what_would_grow_without_end_is_refused_at_once(bomb: str) -> None:
    with bounded():
        kb = read_or_be_told(SMALL | {"bomb.yaml": BOMBS[bomb]})

    assert kb is None


def test_what_is_long_but_plain_is_read() -> None:
    one = RULE.format(when="{zone: stem}", given="{zone: stem}").replace("\nrules:", "").rstrip()
    many = "rules:" + "".join(one.replace("spoilt", f"r{n}") for n in range(300))

    kb = small_base(many=many)

    assert 300 < len(kb.rules)


@settings(max_examples=150)
@given(
    text=st.one_of(
        st.text(),
        st.from_regex(r"[-−]?[0-9½¼¾.,/ ]{0,400}\s?[a-zA-Z°%\"'′″/]{0,20}", fullmatch=True),
        st.sampled_from(WEIRD_WORDS),
        st.integers(1, 10**6).map(lambda n: "9" * n + " mm"),
    ),
    unit=st.sampled_from(["mm", "L", "L/h", "%", "deg"]),
)
def test_no_number_makes_the_decoder_fail_or_linger(text: str, unit: str) -> None:
    began = time.monotonic()

    try:
        value = in_unit(text, unit)
    except NotAQuantity:
        value = 0.0

    assert abs(value) < 1e15
    assert time.monotonic() - began < SECONDS
