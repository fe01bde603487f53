"""The small base, read once."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base
from triage.knowledge.model import KnowledgeBase


@pytest.fixture(scope="session")
def small() -> KnowledgeBase:
    """A boat of four places."""
    return small_base()
