"""What may stand but once in all files of a folder."""

from __future__ import annotations

from typing import Any

from triage.knowledge.readers.references import Loaded
from triage.parsing.documents import Document


def only(files: Loaded, word: str) -> tuple[Document, Any] | None:
    """What stands under a word that may stand but once, with the document; every other one is told."""
    given = [(document, said) for document, form in files if (said := getattr(form, word)) is not None]
    for document, _ in given[1:]:
        what = f"{word} is already in {given[0][0].source}"
        document.problems.append(document.problem((word,), what, "Keep one of them."))
    return given[0] if given else None
