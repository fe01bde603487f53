"""Writing a file whole or not at all, on the disk before anybody is told so."""

from __future__ import annotations

import os
import stat
import tempfile
from pathlib import Path


def write_whole(path: Path, content: str) -> None:
    """Write a file so that whoever reads it, and whatever happens meanwhile, finds the old or the new.

    A link is followed, and an older file keeps its mode. Raises OSError when the file is read-only, or when the system
    refuses; what was there before is then still there.
    """
    target = Path(os.path.realpath(path))
    target.parent.mkdir(parents=True, exist_ok=True)
    mode = stat.S_IMODE(target.stat().st_mode) if target.exists() else None
    if mode is not None and not mode & 0o222:  # taking a file's place needs no leave to write it, so it is asked here
        raise PermissionError(0, "it is read-only")
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name[:80]}.")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(name, 0o666 & ~_umask() if mode is None else mode)
        os.replace(name, target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    _sync_folder(target.parent)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _sync_folder(folder: Path) -> None:
    """Have the disk know the names in a folder, where the system can be asked to."""
    if hasattr(os, "O_DIRECTORY"):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
