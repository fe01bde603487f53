"""What a folder of rules came to the last time, so that an unchanged one need not be read again.

One file in the user's own cache folder, named after the digest of all that it depends on: the rules and the code that
reads them. It holds plain JSON behind its own digest, and nothing but our frozen dataclasses is made from it; whatever
does not fit, or is not ours alone to write, counts as not there. ``TRIAGE_CACHE_DIR`` names another folder; set to
nothing, it turns remembering off.
"""

from __future__ import annotations

import dataclasses
import hashlib
import json
import os
import tempfile
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from triage import __version__, errors
from triage.knowledge import cause, conditions, frequencies, model, promise, repair, scale, words
from triage.knowledge.model import KnowledgeBase

MOST = 8
"""Files that are kept, the newest first."""

_MADE_OF = (cause, conditions, errors, frequencies, model, promise, repair, scale, words)
_CLASSES = {
    thing.__name__: thing
    for module in _MADE_OF
    for thing in vars(module).values()
    if isinstance(thing, type) and dataclasses.is_dataclass(thing) and thing.__module__ == module.__name__
}
_MAPPING, _PAIRS, _SET = "mapping", "pairs", "set"


def remembered(texts: Mapping[str, bytes]) -> KnowledgeBase | None:
    """The knowledge that exactly these texts came to, if it can be had without reading them."""
    folder = _folder()
    if folder is None:
        return None
    try:
        file = folder / f"{_digest(texts)}.json"
        if not _ours_alone(file):
            return None
        digest, _, body = file.read_bytes().partition(b"\n")
        if digest.decode("ascii") != hashlib.sha256(body).hexdigest():
            return None
        kb = _decoded(json.loads(body))
    except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None
    return kb if isinstance(kb, KnowledgeBase) else None


def remember(texts: Mapping[str, bytes], kb: KnowledgeBase) -> None:
    """Write down what these texts came to. A folder that cannot be written to is no misfortune."""
    folder = _folder()
    if folder is None:
        return
    body = json.dumps(_encoded(kb), ensure_ascii=False, separators=(",", ":")).encode("utf-8")
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not _ours_alone(folder):
            return
        with tempfile.NamedTemporaryFile(dir=folder, suffix=".new", delete=False) as new:
            new.write(hashlib.sha256(body).hexdigest().encode("ascii") + b"\n" + body)
        os.replace(new.name, folder / f"{_digest(texts)}.json")
        files = sorted(folder.glob("*.json"), key=lambda file: file.stat().st_mtime, reverse=True)
        for old in files[MOST:]:
            old.unlink(missing_ok=True)
    except OSError:
        return


def _folder() -> Path | None:
    named = os.environ.get("TRIAGE_CACHE_DIR")
    if named is not None:
        return Path(named) if named else None
    home = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA") or Path.home() / ".cache"
    return Path(home) / "dinghy-triage"


def _ours_alone(path: Path) -> bool:
    """Whether nobody but this user can have written it, as far as the system can tell."""
    if not hasattr(os, "getuid"):
        return True
    known = path.stat()
    return known.st_uid == os.getuid() and not known.st_mode & 0o022


def _digest(texts: Mapping[str, bytes]) -> str:
    """Of every name and text, and of the code that makes knowledge of them."""
    digest = hashlib.sha256(_code())
    for name, text in texts.items():
        digest.update(f"{len(name)} {name} {len(text)} ".encode())
        digest.update(text)
    return digest.hexdigest()


@cache
def _code() -> bytes:
    package = Path(__file__).parent.parent
    sources = sorted((*package.glob("*.py"), *package.glob("parsing/*.py"), *package.glob("knowledge/*.py")))
    return hashlib.sha256(__version__.encode() + b"".join(source.read_bytes() for source in sources)).digest()


def _encoded(value: Any) -> Any:
    if isinstance(value, (str, int, float, type(None))):
        return value
    if isinstance(value, tuple):
        return [_encoded(part) for part in value]
    if isinstance(value, frozenset):
        return {_SET: sorted(value)}
    if isinstance(value, Mapping):
        if all(isinstance(key, str) for key in value):
            return {_MAPPING: {key: _encoded(part) for key, part in value.items()}}
        return {_PAIRS: [[_encoded(key), _encoded(part)] for key, part in value.items()]}
    assert type(value).__name__ in _CLASSES, f"{type(value)} has no place in a knowledge base"
    return {type(value).__name__: [_encoded(getattr(value, field.name)) for field in dataclasses.fields(value)]}


def _decoded(value: Any) -> Any:
    if isinstance(value, list):
        return tuple([_decoded(part) for part in value])
    if not isinstance(value, dict):
        return value
    ((kind, inside),) = value.items()
    if kind == _MAPPING:
        return {key: _decoded(part) for key, part in inside.items()}
    if kind == _PAIRS:
        return {_decoded(key): _decoded(part) for key, part in inside}
    if kind == _SET:
        return frozenset(inside)
    return _CLASSES[kind](*[_decoded(part) for part in inside])
