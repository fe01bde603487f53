"""What many tests share: the shipped knowledge, and a way to assess a survey written in a few lines."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings

from triage.concluding.assess import assess_survey
from triage.conclusions.assessment import Assessment
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.survey.read import survey_from_text

ROOT = Path(__file__).resolve().parent.parent

# Where no bytecode may lie beside sources, workers and the programs of tests keep theirs here; else each compiles all.
if os.environ.pop("PYTHONDONTWRITEBYTECODE", None):
    os.environ["PYTHONPYCACHEPREFIX"] = str(ROOT / ".pytest_cache" / "bytecode")

settings.register_profile(
    "triage", deadline=None, suppress_health_check=list(HealthCheck), print_blob=True, max_examples=25
)  # a quarter of what hypothesis tries by itself: every landing tries others, and a quick run is run often
settings.register_profile(
    "mutants", settings.get_profile("triage"), derandomize=True, phases=(Phase.explicit, Phase.generate)
)
settings.load_profile("triage")


@pytest.fixture(scope="session")
def kb() -> KnowledgeBase:
    """The shipped knowledge."""
    return load_knowledge(ROOT / "rules")


@pytest.fixture
def assess_text(kb: KnowledgeBase) -> Callable[[str], Assessment]:
    """Assess a survey given as text."""
    return lambda text: assess_survey(survey_from_text(text, kb), kb)


@pytest.fixture(scope="session")
def root() -> Path:
    """The top of the checkout."""
    return ROOT
