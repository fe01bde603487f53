"""A folder of pages that is ours: marked as such, and changed from one whole state to another."""

from __future__ import annotations

import os
import shutil
import stat
from collections.abc import Collection, Mapping
from pathlib import Path

from triage.errors import BadInput, CannotWork, Place, Problem
from triage.files import cannot, make_folder, read_bounded, sync_folder, write_whole

_ASIDE = ".dinghy-new"
_MOST_BYTES = 1_000_000


def replace_all(folder: Path, files: Mapping[str, str | bytes], marker: str, *, what: str) -> None:
    """Have a folder hold these files, and none that an earlier call put there.

    The marker comes first and lists our files, so that a folder in which this was stopped is still known as ours, and
    nothing is ever taken away that we did not write. Then all is written aside, inside the folder; only when the disk
    has it do the files take their places one by one, for which no room is needed. A link in their place is replaced
    and not followed. The folder itself stays: it may be somebody's working folder, or a disk of its own.

    Raises BadInput when the folder holds other things and no marker, and CannotWork when it cannot be written.
    """
    made = not folder.exists()
    make_folder(folder)
    aside = folder / _ASIDE
    try:
        before = _listed(folder, marker, what)
        _take_away(aside)
        write_whole(folder / marker, _list(what, {*before, *files}))
        aside.mkdir()
        for name, body in files.items():
            write_whole(aside / name, body)
        _swap(aside, folder, files)
        for name in before - set(files):
            (folder / name).unlink(missing_ok=True)
        write_whole(folder / marker, _list(what, set(files)))
    except OSError as error:
        raise cannot(f"Cannot write into {folder}", error) from None
    finally:
        shutil.rmtree(aside, ignore_errors=True)
        if made:
            _leave_nothing(folder, marker)


def _listed(folder: Path, marker: str, what: str) -> set[str]:
    """The files that we put there before. Raises BadInput when the folder is not ours to write into."""
    file = folder / marker
    if file.is_symlink() or not file.is_file():
        if any(folder.iterdir()):
            hint = "Name another folder, or an empty one."
            raise BadInput([Problem(Place(str(folder)), f"already holds something that is not {what} of ours", hint)])
        return set()
    names = read_bounded(file, _MOST_BYTES).decode("utf-8", "replace").splitlines()[1:]
    return {name for name in names if name and name == Path(name).name and not name.startswith(".")}


def _list(what: str, names: set[str]) -> str:
    return "\n".join([f"This folder holds {what}; these files are written anew each time:", *sorted(names), ""])


def _take_away(aside: Path) -> None:
    """What a call that was stopped has left."""
    if aside.is_symlink() or (aside.exists() and not stat.S_ISDIR(aside.stat().st_mode)):
        raise CannotWork(f"Cannot write into {aside.parent}: {aside.name} is in the way. Take it away.")
    shutil.rmtree(aside, ignore_errors=True)


def _swap(aside: Path, folder: Path, files: Collection[str]) -> None:
    for name in files:
        os.replace(aside / name, folder / name)
    sync_folder(folder)


def _leave_nothing(folder: Path, marker: str) -> None:
    """Of a folder that was made in vain nothing is left."""
    if [one.name for one in folder.iterdir()] == [marker]:
        shutil.rmtree(folder, ignore_errors=True)
