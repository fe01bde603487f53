"""Mistakes that people make in rules and in surveys; the message that each gets stands beside it.

A mistake in the rules is grafted on the small base; a survey with a mistake is read against it. After a wanted change
of the messages, write them anew (``python -m tests.mistakes``) and read the difference as the people would who get it.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from triage.errors import BadRules, BadSurvey, Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import knowledge_from_texts
from triage.survey.read import survey_from_text

TESTS = Path(__file__).resolve().parent
SMALL = TESTS / "knowledge" / "small"
IN_RULES = sorted((TESTS / "knowledge" / "mistakes").glob("*.yaml"))
IN_SURVEYS = sorted(file for file in (TESTS / "survey" / "mistakes").iterdir() if file.suffix in (".yaml", ".json"))


def small_texts() -> dict[str, str]:
    """The files of the small base, by name."""
    return {file.name: file.read_text(encoding="utf-8") for file in sorted(SMALL.glob("*.yaml"))}


def small_base(*changes: tuple[str, str], **grafted: str) -> KnowledgeBase:
    """The small base with passages changed (old, new) and more files grafted on it (``name="text"``)."""
    texts = small_texts()
    for old, new in changes:
        (name,) = (name for name, text in texts.items() if text.count(old) == 1)
        texts[name] = texts[name].replace(old, new)
    return knowledge_from_texts(texts | {f"{name}.yaml": text for name, text in grafted.items()})


def problems_of(mistake: Path) -> tuple[Problem, ...]:
    """What is told about a mistake; nothing if it goes unnoticed."""
    try:
        if mistake in IN_RULES:
            knowledge_from_texts(small_texts() | {mistake.name: mistake.read_text(encoding="utf-8")})
        else:
            survey_from_text(mistake.read_bytes(), small_base(), source=mistake.name)
    except (BadRules, BadSurvey) as error:
        return error.problems
    return ()


def message(problems: Sequence[Problem]) -> str:
    """The whole of what is told."""
    return "\n\n".join(map(str, problems)) + "\n"


def expected(mistake: Path) -> Path:
    """Where the message about a mistake is written down."""
    return mistake.with_suffix(".txt")


if __name__ == "__main__":
    for one in (*IN_RULES, *IN_SURVEYS):
        expected(one).write_text(message(problems_of(one)), encoding="utf-8")
