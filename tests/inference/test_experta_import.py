"""Importing the engine leaves the process as it was: a library is a guest."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ENTERS = """
import collections, logging
logger = logging.getLogger("experta")
{before}
def state():
    return (
        hasattr(collections, "Mapping"), list(logging.root.handlers), logging.root.level,
        logger.level, list(logger.handlers), logger.propagate, logger.disabled,
    )
found = state()
from triage.inference.forward import forward
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Boat, Finding
(judged,) = forward(load_knowledge(), Boat("Wagtail"), [Finding("mark", "stem", "edge_chip")])
assert judged.upper.firings
assert found == state(), (found, state())
"""


@pytest.mark.parametrize(
    "before",
    [
        "",
        "logging.basicConfig(level=logging.ERROR)",
        "logger.setLevel(logging.DEBUG)",
        "import collections.abc; collections.Mapping = collections.abc.Mapping",
    ],
)
def test_a_fresh_process_is_left_as_it_was(before: str, root: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", ENTERS.format(before=before)], cwd=root, capture_output=True, text=True, check=False
    )

    assert (0, "") == (done.returncode, done.stderr if done.returncode else "")
