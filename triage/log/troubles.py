"""What SQLite complains of, in plain words: what is the matter and what to do."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from triage.errors import CannotWork


@contextmanager
def in_plain_words(file: Path) -> Iterator[None]:
    """Have what SQLite complains of said as `CannotWork`."""
    try:
        yield
    except sqlite3.Error as error:
        raise CannotWork(f"Cannot keep boats in {file}: {_why(error)}") from None
    except UnicodeDecodeError as error:  # even of the words in which SQLite complains
        raise CannotWork(f"Cannot keep boats in {file}: {_spoilt(error)}") from None


def _why(error: sqlite3.Error) -> str:
    match error.sqlite_errorname.removeprefix("SQLITE_").partition("_")[0] if _coded(error) else "":
        case "FULL":
            return "there is no room left. Make room."
        case "READONLY" | "CANTOPEN" | "PERM":
            return "it, or the folder it lies in, must not be written. Change who may, or name another file."
        case "BUSY" | "LOCKED":
            return "another program is busy writing it. Try again."
        case "NOTADB":
            return "it holds something else than boats. Name another file."
        case "CORRUPT" | "IOERR":
            return _spoilt(error)
        case _:
            return f"{error}. Name another file."


def _spoilt(error: Exception) -> str:
    return f"the disk does not give back what was written to it ({error}). Look after it, or name another file."


def _coded(error: sqlite3.Error) -> bool:
    """Whether SQLite itself complains, and not what calls it."""
    return getattr(error, "sqlite_errorname", None) is not None
