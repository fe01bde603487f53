"""From a folder of YAML to the KnowledgeBase, or to every problem at once."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from triage.errors import BadRules, Place, Problem
from triage.files import cannot, read_bounded
from triage.knowledge.digest import digest_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.cache import remember, remembered
from triage.resources import data_dir

MOST_BYTES = 20_000_000
"""Of one file. The reader refuses far shorter ones with a reason; this keeps one without an end out of memory."""


def load_knowledge(folder: Path | str | None = None) -> KnowledgeBase:
    """The knowledge in ``folder``, or the one shipped with this package.

    The files are looked at every time, and read again only when one of them has changed; an unchanged folder gives
    the same object. Raises BadRules with every problem in every file, and CannotWork when one cannot be opened.
    """
    texts = rule_texts(folder)
    return _known(_Texts(digest_of(texts), texts))


def rule_texts(folder: Path | str | None = None) -> dict[str, bytes]:
    """The files of ``folder``, or of the rules shipped with this package, by name. Raises BadRules if it has none."""
    return _texts(Path(folder) if folder is not None else data_dir("rules"))


def knowledge_from_texts(texts: dict[str, str] | dict[str, bytes]) -> KnowledgeBase:
    """The knowledge in these texts, by file name. Raises BadRules with every problem in every one of them."""
    from triage.knowledge.readers.assemble import assemble

    return assemble(texts)


@dataclass(frozen=True)
class _Texts:
    """Texts that are alike when their digests are."""

    digest: str
    texts: dict[str, bytes] = field(compare=False)


@lru_cache(maxsize=4)
def _known(read: _Texts) -> KnowledgeBase:
    kb = remembered(read.digest)
    if kb is None:
        kb = knowledge_from_texts(read.texts)
        remember(kb)
    return kb


def _texts(folder: Path) -> dict[str, bytes]:
    """The text of every file of rules, by its name in the folder, in the order of the names."""
    found = sorted(_files(folder))
    names = [name for name in found if name.endswith(".yaml")]
    if not names:
        raise BadRules([Problem(Place(str(folder)), "no *.yaml files here", "Name the folder that holds the rules.")])
    problems = [problem for name in found if (problem := _doubt(folder, name))]
    if problems:
        raise BadRules(problems)
    return {name: read_bounded(folder / name, MOST_BYTES) for name in names}


def _files(folder: Path) -> list[str]:
    """Everything that is called like a file of rules. What cannot be looked into is told and never passed over."""

    def refused(error: OSError) -> None:
        raise cannot(f"Cannot read the rules in {error.filename}", error) from None

    return [
        Path(where, name).relative_to(folder).as_posix()
        for where, _, names in os.walk(folder, onerror=refused)
        for name in names
        if name.endswith((".yaml", ".yml"))
    ]


def _doubt(folder: Path, name: str) -> Problem | None:
    """Why a file cannot be one of rules, whatever stands in it."""
    try:
        name.encode("utf-8")
    except UnicodeEncodeError:
        shown = name.encode("utf-8", "replace").decode("utf-8")
        return Problem(Place(shown), "the name of this file is not plain text", "Give it another name.")
    if name.endswith(".yml"):
        return Problem(Place(name), "would not be read, because its name ends in .yml", "Let it end in .yaml.")
    if not (folder / name).is_file():
        hint = "Take it away, or put a file of rules there."
        return Problem(Place(name), "is a device, a pipe or a link to nothing, and not a file", hint)
    return None
