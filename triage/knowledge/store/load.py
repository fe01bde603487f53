"""From a folder of YAML to the KnowledgeBase, or to every problem at once."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from triage.errors import BadRules, Place, Problem
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.cache import remember, remembered
from triage.resources import data_dir


def load_knowledge(folder: Path | str | None = None) -> KnowledgeBase:
    """The knowledge in ``folder``, or the one shipped with this package.

    Raises BadRules with every problem in every file.
    """
    return _load(_folder(folder))


def rule_texts(folder: Path | str | None = None) -> dict[str, bytes]:
    """The files of ``folder``, or of the rules shipped with this package, by name. Raises BadRules if it has none."""
    return _texts(_folder(folder))


def _folder(folder: Path | str | None) -> Path:
    return Path(folder) if folder is not None else data_dir("rules")


@lru_cache(maxsize=4)
def _load(folder: Path) -> KnowledgeBase:
    texts = _texts(folder)
    kb = remembered(texts)
    if kb is None:
        kb = knowledge_from_texts(texts)
        remember(texts, kb)
    return kb


def _texts(folder: Path) -> dict[str, bytes]:
    found = {file.relative_to(folder).as_posix(): file for file in folder.rglob("*.y*ml") if file.is_file()}
    names = sorted(name for name in found if name.endswith(".yaml"))
    if not names:
        raise BadRules([Problem(Place(str(folder)), "no *.yaml files here", "Name the folder that holds the rules.")])
    if ignored := sorted(name for name in found if name.endswith(".yml")):
        what, hint = "would not be read, because its name ends in .yml", "Let it end in .yaml."
        raise BadRules([Problem(Place(name), what, hint) for name in ignored])
    return {name: found[name].read_bytes() for name in names}


def knowledge_from_texts(texts: dict[str, str] | dict[str, bytes]) -> KnowledgeBase:
    """The knowledge in these texts, by file name. Raises BadRules with every problem in every one of them."""
    from triage.knowledge.readers.assemble import assemble

    return assemble(texts)
