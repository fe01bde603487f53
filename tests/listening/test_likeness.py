"""What phrases are found by is kept in few bytes and comes back as it was."""

from __future__ import annotations

import pickle

from hypothesis import given
from hypothesis import strategies as st

from triage.listening.features import Numbered, Rows
from triage.listening.likeness import Likeness

WORDS = st.sampled_from(["crack", "cracks", "mast", "wire", "anchorage", "ring", "hatch", "leaks"])
PHRASES = st.dictionaries(
    st.sampled_from(["one", "two", "three"]),
    st.lists(st.tuples(st.lists(WORDS, max_size=4).map(tuple), st.sampled_from([0.3, 0.6, 1.0])), max_size=4),
)
ASKED = st.lists(st.tuples(WORDS | st.just("unheard"), st.sampled_from([0.5, 1.0])), max_size=5)


@given(PHRASES, PHRASES, ASKED)
def test_kept_and_brought_back_it_answers_the_same(
    phrases: dict[str, list[tuple[tuple[str, ...], float]]],
    others: dict[str, list[tuple[tuple[str, ...], float]]],
    asked: list[tuple[str, float]],
) -> None:
    places = Numbered()
    both = Likeness(phrases, ["ring"], places), Likeness(others, (), places)
    alone = Likeness(phrases, ["ring"]), Likeness(others)

    kept = pickle.loads(pickle.dumps(both))

    told = [one.scores(asked) for one in alone]
    assert [one.scores(asked) for one in both] == told
    assert [one.scores(asked) for one in kept] == told


@given(st.lists(st.lists(st.integers(0, 2**32 - 1), max_size=5), max_size=5))
def test_rows_come_back_number_by_number(rows: list[list[int]]) -> None:
    made = Rows(map(len, rows), [number for row in rows for number in row])

    kept = pickle.loads(pickle.dumps(made))

    assert [list(kept[place]) for place in range(len(kept))] == rows
