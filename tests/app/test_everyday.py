"""A mark that everybody meets is settled in few taps, each answer being the mildest."""

from __future__ import annotations

import re
from html import unescape

import pytest

from tests.app.conftest import Person
from tests.conftest import ROOT
from triage import load_knowledge
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.knowledge.model.everyday import EverydayMark
from triage.log.held import HeldBoats
from triage.survey.model import Boat, Survey

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


FROM_THE_BOAT = 3
"""Taps until the first question: the drawing, which of the places nearest to it, the mark."""

EVERYDAY = load_knowledge(ROOT / "rules").everyday
LONGEST = [one for one in EVERYDAY.marks if one.outcome.answers > 2 and one.sign != NOTHING_SEEN]
"""Those that the rules let ask most; what takes two answers cannot come to six taps."""


@pytest.mark.parametrize("mark", LONGEST, ids=lambda mark: f"{mark.zone}-{mark.sign}")
def test_from_a_tap_on_the_drawing_to_the_settled_answer(
    person: Person, boats: HeldBoats, kb: KnowledgeBase, mark: EverydayMark
) -> None:
    visit = boats.begin(Survey(Boat("Wagtail", facts=EVERYDAY.boat), ())).visit
    side = "port" if kb.zones[mark.zone].sided else ""
    person.go(f"/visit/{visit}/boat")
    spot = f"zone={mark.zone}&side={side}"
    tapped = next(to for to in re.findall(r'href="(near\?[^"]+)"', person.text) if spot in unescape(to))
    person.go(f"/visit/{visit}/{unescape(tapped)}")
    assert spot in re.findall(r'href="place\?([^"]+)"', unescape(person.text))
    person.go(f"/visit/{visit}/place?{spot}")
    assert f'value="mark/{mark.sign}"' in person.text
    person.send(f"/visit/{visit}/place", zone=mark.zone, side=side, do=f"mark/{mark.sign}")

    taps = FROM_THE_BOAT
    while 'data-screen="ended"' not in person.text and taps < 2 * MOST:
        person.choose(next(iter(person.choices.values())))
        taps += 1

    assert person.heading == f"{kb.scales['verdict'].levels[mark.outcome.verdict].name.capitalize()}."
    argued = FROM_THE_BOAT + mark.comes_to.answers if mark.comes_to and mark.because else MOST
    assert taps <= max(MOST, argued)


def test_only_what_is_argued_takes_more_taps_than_six(kb: KnowledgeBase) -> None:
    longer = [one for one in LONGEST if FROM_THE_BOAT + one.outcome.answers > MOST]

    assert [("chainplate", "rust_bleed")] == [(one.zone, one.sign) for one in longer]
    assert all(one.because for one in longer)
