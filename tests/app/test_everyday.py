"""A mark that everybody meets is settled in few taps, each answer being the mildest."""

from __future__ import annotations

import pytest

from tests.app.conftest import Person

MOST = 6


@pytest.mark.parametrize(
    ("story", "taps"),
    [
        ("chip on the edge of the stem", 3),
        ("web of fine lines in the gelcoat of the cockpit floor", 4),
        ("cracks from the screws of the hatch", 6),
    ],
)
def test_from_the_story_to_the_settled_answer(person: Person, story: str, taps: int) -> None:
    person.tell(story)
    pressed = 1
    while 'data-screen="ended"' not in person.text and pressed <= MOST:
        person.choose(next(iter(person.choices.values())))
        pressed += 1
    assert person.heading in ("Cosmetic.", "Monitor.")
    assert pressed <= taps <= MOST
