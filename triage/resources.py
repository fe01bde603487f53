"""Where the knowledge and the report templates are, and what is kept from one run to the next.

They are beside a checkout, or inside an installed wheel. What is kept is in the user's own cache folder, each thing
behind its own digest; whatever is spoilt, or is not ours alone to write, counts as not there. ``TRIAGE_CACHE_DIR``
names another folder; set to nothing, it turns keeping off.
"""

from __future__ import annotations

import hashlib
import os
import tempfile
from pathlib import Path
from typing import Literal

_PACKAGE = Path(__file__).resolve().parent
_IN_CHECKOUT = {"rules": "rules", "templates": "reports/templates"}

MOST = 8
"""Files of a kind that are kept, the newest first."""


def data_dir(kind: Literal["rules", "templates"]) -> Path:
    """The folder of ``kind``; the environment variable TRIAGE_RULES_DIR or TRIAGE_TEMPLATES_DIR overrides it.

    Raises FileNotFoundError when it is nowhere.
    """
    override = os.environ.get(f"TRIAGE_{kind.upper()}_DIR")
    candidates = [Path(override)] if override else [_PACKAGE / "_data" / kind]
    if not override and (_PACKAGE.parent / "pyproject.toml").is_file():
        candidates.insert(0, _PACKAGE.parent / _IN_CHECKOUT[kind])
    for candidate in candidates:
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"no {kind} folder at {', '.join(map(str, candidates))}")


def cache_dir() -> Path | None:
    """The folder for what is kept from one run to the next; None when keeping is turned off."""
    named = os.environ.get("TRIAGE_CACHE_DIR")
    if named is not None:
        return Path(named) if named else None
    home = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA") or Path.home() / ".cache"
    return Path(home) / "dinghy-triage"


def kept(name: str) -> bytes | None:
    """What was kept under this name, if it is whole and, as far as the system can tell, nobody else has written it."""
    folder = cache_dir()
    if folder is None:
        return None
    try:
        with (folder / name).open("rb") as file:
            if not (_ours_alone(folder.stat()) and _ours_alone(os.fstat(file.fileno()))):
                return None
            digest, _, body = file.read().partition(b"\n")
    except OSError:
        return None
    return body if digest == _digest(body) else None


def keep(name: str, body: bytes) -> None:
    """Keep this under the name, and of its kind (what the name ends in) the newest. Failing to is no misfortune."""
    folder = cache_dir()
    if folder is None:
        return
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not _ours_alone(folder.stat()):
            return
        with tempfile.NamedTemporaryFile(dir=folder, suffix=".new", delete=False) as new:
            new.write(_digest(body) + b"\n" + body)
        os.replace(new.name, folder / name)
        files = sorted(folder.glob(f"*{Path(name).suffix}"), key=lambda file: file.stat().st_mtime, reverse=True)
        for old in files[MOST:]:
            old.unlink(missing_ok=True)
    except OSError:
        return


def _ours_alone(known: os.stat_result) -> bool:
    """Whether nobody but this user can have written it, as far as the system can tell."""
    return not hasattr(os, "getuid") or (known.st_uid == os.getuid() and not known.st_mode & 0o022)


def _digest(body: bytes) -> bytes:
    return hashlib.sha256(body).hexdigest().encode("ascii")
