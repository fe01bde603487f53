"""Holding a file for oneself while it is read, merged and written.

The system's own lock is used, on a small file beside the one that is held: it goes with the process that holds it, so a
lock is never stale, whatever became of its holder. The small file is taken away again; one that a killed process left
behind holds nobody up. Where the file system knows no locks, nothing is held.
"""

from __future__ import annotations

import errno
import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

PATIENCE, PAUSE = 10.0, 0.02
"""Seconds that somebody else may take, and between two looks."""

_NO_LOCKS = (errno.ENOLCK, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS)


@contextmanager
def held(file: Path, patience: float = PATIENCE) -> Iterator[None]:
    """Keep everybody else who asks like this away from the file. Raises OSError; TimeoutError after ``patience``."""
    target = Path(os.path.realpath(file))
    lock = target.with_name(f".{target.name[:80]}.lock")
    handle = _taken(lock, time.monotonic() + patience)
    try:
        yield
    finally:
        _let_go(lock, handle)


def _taken(lock: Path, until: float) -> int:
    while True:
        handle = os.open(lock, os.O_RDWR | os.O_CREAT | getattr(os, "O_CLOEXEC", 0), 0o666)
        try:
            if _locked(handle) and _is_there(lock, handle):
                return handle
        except BaseException:
            os.close(handle)
            raise
        os.close(handle)
        if time.monotonic() > until:
            raise TimeoutError(errno.ETIMEDOUT, "another conversation is busy writing it")
        time.sleep(PAUSE)


def _is_there(lock: Path, handle: int) -> bool:
    """Whether the file that was locked still has its name: its last holder may have taken it away meanwhile."""
    try:
        return os.path.samestat(os.fstat(handle), lock.stat())
    except FileNotFoundError:
        return False


if sys.platform == "win32":
    import msvcrt

    def _locked(handle: int) -> bool:
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

    def _let_go(lock: Path, handle: int) -> None:
        os.close(handle)
        with suppress(OSError):  # somebody else has it open already
            lock.unlink()

else:
    try:
        import fcntl
    except ImportError:  # in a browser there is one process and nobody to keep away
        fcntl = None  # type: ignore[assignment]

    def _locked(handle: int) -> bool:
        if fcntl is None:
            return True
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            if error.errno not in (*_NO_LOCKS, errno.EWOULDBLOCK, errno.EACCES):
                raise
            return error.errno in _NO_LOCKS
        return True

    def _let_go(lock: Path, handle: int) -> None:
        with suppress(OSError):
            lock.unlink()  # while it is held, so that nobody can have locked what has no name any more
        os.close(handle)
