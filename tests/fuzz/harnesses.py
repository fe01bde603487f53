"""What must come of any bytes at all: something that was understood, or problems that are well told. Nothing else."""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Callable, Iterable
from functools import cache
from typing import Any

import yaml
from hypothesis import given

from tests.conftest import ROOT
from tests.mistakes import small_texts
from tests.strategies import spoilt
from triage.errors import BadRules, BadSurvey, Problem
from triage.inference.evaluate import evaluate
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import knowledge_from_texts, load_knowledge
from triage.lint import PASSES
from triage.listening.sizes import sizes_in
from triage.listening.understand import understand
from triage.parsing.documents import read_document
from triage.parsing.quantities import NotAQuantity, in_unit, is_unit, looks_measured
from triage.survey.model import Boat, Finding, Reading
from triage.survey.read import survey_from_text
from triage.survey.write import survey_text

Harness = Callable[[bytes], None]

UNITS = ("mm", "m", "L", "L/h", "deg", "%", "kg", "year")
LONGEST_TOLD = 20_000
"""Characters of one problem. Whoever gets more will not read it."""


@cache
def shipped() -> KnowledgeBase:
    return load_knowledge(ROOT / "rules")


@cache
def _small() -> dict[str, bytes]:
    return {name: text.encode() for name, text in small_texts().items()}


def well_told(problems: Iterable[Problem]) -> None:
    """Each says what is wrong and what to do, in a text that can be printed and does nothing to a terminal."""
    told = list(problems)
    assert told
    for problem in told:
        text = str(problem)
        assert problem.what
        assert problem.hint or " should be " in problem.what  # which says what to do
        assert len(text) < LONGEST_TOLD
        assert not {c for c in text.replace("\n", "") if unicodedata.category(c) in ("Cc", "Cs")}


def survey(raw: bytes) -> None:
    """A survey, which is the same once it was written down and read again."""
    try:
        read = survey_from_text(raw, shipped())
    except BadSurvey as error:
        well_told(error.problems)
    else:
        assert read == survey_from_text(survey_text(read), shipped())


def rules(raw: bytes) -> None:
    """One more file beside the small base: knowledge that can be checked and judges every mark it knows."""
    try:
        kb = knowledge_from_texts(_small() | {"more.yaml": raw})
    except BadRules as error:
        well_told(error.problems)
        return
    for _, lint in PASSES:
        if problems := list(lint(kb)):
            well_told(problems)
    for zone, signs in kb.offers.items():
        for sign in signs:
            worst = {scale: Reading.at(kb.worst(sign, scale), "worst") for scale in kb.applicable(zone, sign)}
            (judged,) = evaluate(kb, Boat("any"), [Finding("any", zone, sign, None, worst)])
            assert all(best <= at_worst for best, at_worst in map(judged.interval, kb.scales))


def quantity(raw: bytes) -> None:
    """A number in the unit that was asked for, which then is not taken for the name of a level."""
    text = raw.decode("utf-8", "replace")
    is_unit(text)
    for unit in UNITS:
        try:
            value = in_unit(text, unit)
        except NotAQuantity:
            continue
        assert math.isfinite(value)
        assert abs(value) < 1e15
        assert looks_measured(text)


def sentence(raw: bytes) -> None:
    """Sizes that stand in the sentence and can be measured, and a sentence of the same length without them."""
    text, kb = raw.decode("utf-8", "replace"), shipped()
    found, rest = sizes_in(text, kb.lexicon.taken_as)
    assert len(text) == len(rest)
    for size in found:
        assert size.said in " ".join(text.split())
        assert any(_measures(size.quantity, unit) for unit in UNITS)
    understood = understand(text, kb)
    assert {candidate.id for candidate in understood.zones} <= kb.zones.keys()


def _measures(quantity: str, unit: str) -> bool:
    try:
        return math.isfinite(in_unit(quantity, unit))
    except NotAQuantity:
        return False


def _spoilt(harness: Harness, valid: Any) -> Harness:
    """The harness fed with a valid file after a few things went wrong with it, as the bytes decide."""

    @given(spoilt(valid))
    def once(value: Any) -> None:
        harness(yaml.safe_dump(value, allow_unicode=True, sort_keys=False).encode("utf-8", "replace"))

    feed: Harness = once.hypothesis.fuzz_one_input  # type: ignore[attr-defined]  # hypothesis gives it to tests
    return feed


HARNESSES: dict[str, Harness] = {"survey": survey, "rules": rules, "quantity": quantity, "sentence": sentence}


def spoilt_harnesses() -> dict[str, Harness]:
    """The same for bytes that say how to spoil the structure of a file, and not its letters."""
    boat = read_document((ROOT / "examples" / "club-boat.yaml").read_bytes(), "a boat")
    file = read_document(_small()["rules.yaml"], "rules")
    return {"spoilt-survey": _spoilt(survey, boat.value), "spoilt-rules": _spoilt(rules, file.value)}
