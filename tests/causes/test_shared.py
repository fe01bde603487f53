"""One cause on several boats is told once, with what follows on each of them."""

from __future__ import annotations

from collections.abc import Callable

from triage.causes.shared import shared_causes
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase

Assess = Callable[[str], Assessment]

WORN = "{zone: aft_run, sign: flat_worn}"
SEAM = "{zone: joint_stern, sign: joint_crack}"


def boat(name: str, findings: str) -> str:
    return f"boat: {{name: {name}}}\nfindings: [{findings}]"


def test_boats_with_worn_ridges_and_open_seams_share_the_way_they_are_landed(
    assess_text: Assess, kb: KnowledgeBase
) -> None:
    club = [assess_text(boat(name, f"{WORN}, {SEAM}")) for name in ("Knot", "Ruff", "Dunlin")]

    first = shared_causes(club, kb)[0]

    assert "slip_drag" == first.cause
    assert ["Knot", "Ruff", "Dunlin"] == [on.boat for on in first.boats]
    assert all("joint_stern" in {line.zone for line in on.look} for on in first.boats)
    assert "trolley" in first.tell


def test_what_is_likely_on_one_boat_only_is_not_shared(assess_text: Assess, kb: KnowledgeBase) -> None:
    club = [assess_text(boat("Knot", f"{WORN}, {SEAM}")), assess_text(boat("Ruff", "{zone: sails, sign: cloth_tired}"))]

    assert () == shared_causes(club, kb)
