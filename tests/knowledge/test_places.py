"""Everything that a problem may be told about remembers the file and the line it stands in."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.mistakes import small_base, small_texts
from triage.errors import BadRules, Place
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import knowledge_from_texts


def places(kb: KnowledgeBase) -> Iterator[tuple[str, Place]]:
    """Every named thing with its place."""
    for named in (kb.zones, kb.signs, kb.scales, kb.checks, kb.facts, kb.groups, kb.causation.causes):
        for key, thing in named.items():
            yield key, thing.place
    for listed in (kb.all_rules, kb.promises, kb.mending.repairs):
        for one in listed:
            yield one.id, one.place


def test_every_named_thing_knows_the_line_it_stands_in() -> None:
    texts = small_texts()
    found = list(places(small_base()))

    assert len(found) >= 30
    for key, place in found:
        assert key in texts[place.source].splitlines()[place.line - 1], (key, place)


def test_the_shipped_knowledge_stands_in_files_too(kb: KnowledgeBase) -> None:
    assert [] == [key for key, place in places(kb) if not (place.source.endswith(".yaml") and place.line)]


def test_a_follow_up_and_the_weights_know_their_lines() -> None:
    causation = small_base().causation
    lines = small_texts()["causes.yaml"].splitlines()
    (follow_up,) = causation.causes["hard_landing"].follow_ups

    assert causation.weights
    assert "zone: side_deck, check: press" in lines[follow_up.place.line - 1]
    assert "weights:" == lines[causation.weights.place.line - 1]


@pytest.mark.parametrize(
    ("file", "gone", "told"),
    [
        ("scales.yaml", "  tow:\n", 'scales.yaml:1:1: the derived scale "tow" is missing'),
        ("words.yaml", "  nothing_seen:\n", 'the sign "nothing_seen" is missing'),
    ],
)
def test_what_every_base_must_have_is_missed_where_it_would_stand(file: str, gone: str, told: str) -> None:
    texts = small_texts()
    texts[file] = texts[file].replace(gone, gone.replace(gone.strip(": \n"), "other"))

    with pytest.raises(BadRules) as caught:
        knowledge_from_texts(texts)

    (missing,) = (problem for problem in caught.value.problems if "is missing" in problem.what)
    assert told in str(missing)
    assert file == missing.place.source
    assert missing.excerpt
