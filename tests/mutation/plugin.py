"""What pytest does otherwise while mutants are tried. mutmut loads it; see [tool.mutmut] in pyproject.toml."""

from __future__ import annotations

import gc
import json
import os
import resource
from pathlib import Path

import pytest

from triage.knowledge.model import KnowledgeBase

STATS = Path("mutmut-stats.json")
"""mutmut's own notes, with the seconds that each test took; pytest runs beside them."""

MEMORY = 4 * 1024**3
"""In bytes. A loop that never ends may also gather things."""


def pytest_configure() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


def pytest_runtest_setup() -> None:
    """Forget what was worked out before, so that each test is seen to call all that it rests on."""
    if os.environ.get("MUTANT_UNDER_TEST") == "stats":
        for thing in gc.get_objects():
            if isinstance(thing, KnowledgeBase):
                thing.worked_out.clear()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The quickest test first: most mutants fall to one of these."""
    if STATS.exists():
        seconds = json.loads(STATS.read_text(encoding="utf-8"))["duration_by_test"]
        items.sort(key=lambda item: seconds.get(item.nodeid, 0.0))
