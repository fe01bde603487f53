"""A boat for many tests: a common one, of which every fact is known."""

from __future__ import annotations

from triage.survey.model import Boat

BOAT = Boat(
    "Wagtail",
    {
        "deck": "single",
        "hull": "single",
        "spar": "alloy",
        "stayed": "yes",
        "standing_rigging": "wire",
        "floor": "separate",
        "bow_pole": "yes",
        "trapeze": "yes",
        "after_swamp_test": "no",
        "halyards_end": "mast",
        "trolley_on_road": "no",
    },
)
