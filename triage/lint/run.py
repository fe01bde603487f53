"""Running every pass over a knowledge base, each problem with the line it stands in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from triage.errors import Problem
from triage.knowledge.model import KnowledgeBase
from triage.lint import PASSES
from triage.parsing.documents import Document


def passes(kb: KnowledgeBase, texts: Mapping[str, bytes]) -> Iterator[tuple[str, tuple[Problem, ...]]]:
    """Each pass by name with its problems in reading order; ``texts`` are the files that the knowledge came from."""
    for name, run in PASSES:
        yield name, tuple(sorted(set(with_lines(run(kb), texts))))


def with_lines(problems: Iterable[Problem], texts: Mapping[str, bytes]) -> Iterator[Problem]:
    """The problems as the loader would tell them: with the line that each stands in."""
    documents: dict[str, Document] = {}
    for problem in problems:
        place = problem.place
        if place.source in texts:
            if place.source not in documents:
                text = texts[place.source].decode("utf-8").removeprefix("\ufeff")
                documents[place.source] = Document(place.source, text)
            yield documents[place.source].at(place.line, place.column, problem.what, problem.hint)
        else:
            yield problem
