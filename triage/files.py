"""The one place that writes files, and that reads them no further than is needed.

What is written is there whole, or not at all; what was there before stays until the new is on the disk.
"""

from __future__ import annotations

import errno
import os
import stat
from contextlib import suppress
from pathlib import Path

from triage.errors import CannotWork

_WHY = {
    errno.ENOSPC: ("there is no room left", "Make room, or name another place."),
    errno.EDQUOT: ("there is no room left for you", "Make room, or name another place."),
    errno.EFBIG: ("it would be larger than is allowed here", "Name another place."),
    errno.EROFS: ("nothing can be written there", "Name another place."),
    errno.EACCES: ("you are not allowed to", "Change who may, or name another place."),
    errno.EPERM: ("you are not allowed to", "Change who may, or name another place."),
    errno.ENOENT: ("it is not there", "Check the name and the folder."),
    errno.ENOTDIR: ("a part of its name is a file and not a folder", "Name another place."),
    errno.EEXIST: ("something else of that name is in the way", "Name another place."),
    errno.EISDIR: ("it is a folder", "Name a file."),
    errno.ELOOP: ("links lead in a circle", "Name another place."),
    errno.ENAMETOOLONG: ("its name is too long", "Give it a shorter name."),
    errno.EIO: ("the disk or the device does not answer as it should", "Look after it, or name another place."),
    errno.EBADF: ("it is closed", "Open it, or name a file."),
    errno.EPIPE: ("whoever was listening has gone", "Name a file."),
}
_IN_USE = ("another program has it open", "Close it there, or name another place.")
_SHARING = (32, 33)
"""What Windows calls a file, or a part of one, that another program keeps to itself."""

_NEW = ".new"
_AT_ONCE = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)


def cannot(what: str, error: OSError) -> CannotWork:
    """What the system refused, in plain words: ``what`` could not be done, why, and what to do about it."""
    unknown = (error.strerror or str(error) or type(error).__name__, "Name another place.")
    in_use = getattr(error, "winerror", None) in _SHARING
    why, advice = _IN_USE if in_use else _WHY.get(error.errno or 0, unknown)
    return CannotWork(f"{what}: {why}. {advice}")


def read_bounded(path: Path, most: int) -> bytes:
    """The first ``most`` bytes of a file; never waits for a device or a pipe.

    Raises CannotWork when it is no plain file or cannot be read.
    """
    try:
        handle = os.open(path, os.O_RDONLY | _AT_ONCE)
        with os.fdopen(handle, "rb") as file:
            if not stat.S_ISREG(os.fstat(handle).st_mode):
                raise CannotWork(f"Cannot read {path}: it is a device or a pipe and not a file. Take it away.")
            return file.read(most)
    except OSError as error:
        raise cannot(f"Cannot read {path}", error) from None


def identity(path: Path) -> tuple[object, ...]:
    """What is equal for all names of one file, whether it is there yet or not."""
    try:
        known = path.stat()
    except OSError:
        return (os.path.normcase(os.path.realpath(path)),)
    return known.st_dev, known.st_ino


def make_folder(folder: Path) -> None:
    """Make a folder and those it lies in, where they are missing. Raises CannotWork."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise cannot(f"Cannot make the folder {folder}", error) from None


def write_whole(path: Path, content: str | bytes, *, durable: bool = True) -> None:
    """Write a file, whole or not at all; the folder it lies in is made when it is missing.

    The content is written under another name beside it and then takes its place, so that whoever reads the file, and
    whatever happens meanwhile, finds the old or the new. ``durable``: only after the disk has it. A link is followed;
    an older file keeps its mode. One with several names (hard links) would lose the others if a new one took its
    place, so it is overwritten where it stands, after a whole copy has been made beside it; if that fails half-way,
    the copy stays and the error names it. A device or a pipe has nothing to keep whole and is written to directly.

    Raises CannotWork when the file is read-only, or when the system refuses.
    """
    try:
        body = content.encode("utf-8") if isinstance(content, str) else content
    except UnicodeEncodeError:
        raise CannotWork(f"Cannot write {path}: it would hold what is no text. Type the words again.") from None
    target = Path(os.path.realpath(path))
    make_folder(target.parent)
    try:
        known = _known(path)
        if known is not None and not stat.S_ISREG(known.st_mode):
            with open(path, "wb") as device:
                device.write(body)
            return
        _refuse_read_only(path, known)
        new = _beside(target, body, known, durable=durable)
        if known is not None and known.st_nlink > 1:
            _overwrite(target, body, new)
        else:
            _take_the_place(new, target)
        if durable:
            sync_folder(target.parent)
    except OSError as error:
        raise cannot(f"Cannot write {path}", error) from None


def sync_folder(folder: Path) -> None:
    """Have the disk know the names in a folder, where the system can be asked to."""
    if hasattr(os, "O_DIRECTORY"):
        with suppress(OSError):  # some file systems have no such thing
            handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
            try:
                os.fsync(handle)
            finally:
                os.close(handle)


def _known(path: Path) -> os.stat_result | None:
    try:
        return path.stat()
    except FileNotFoundError:
        return None


def _refuse_read_only(path: Path, known: os.stat_result | None) -> None:
    """Taking a file's place needs no leave to write it, so it is asked for here; of the superuser too."""
    if known is not None and not (known.st_mode & 0o222 and os.access(path, os.W_OK)):
        raise CannotWork(f"Cannot write {path}: it is read-only. Make it writable, or name another file.")


def _beside(target: Path, body: bytes, known: os.stat_result | None, *, durable: bool) -> Path:
    """A new file beside the target that holds the whole body."""
    new = target.with_name(f".{os.urandom(8).hex()}{_NEW}")
    handle = os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _AT_ONCE, 0o666)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(body)
            file.flush()
            if durable:
                os.fsync(handle)
        if known is not None:
            _like(new, known)
    except BaseException:
        new.unlink(missing_ok=True)
        raise
    return new


def _take_the_place(new: Path, target: Path) -> None:
    try:
        os.replace(new, target)
    except BaseException:
        new.unlink(missing_ok=True)
        raise


def _like(new: Path, known: os.stat_result) -> None:
    """Give the new file the owner and the mode of the old one, as far as we may."""
    if hasattr(os, "chown") and (known.st_uid, known.st_gid) != (os.geteuid(), os.getegid()):
        with suppress(OSError):
            os.chown(new, known.st_uid, known.st_gid)
    os.chmod(new, stat.S_IMODE(known.st_mode))


def _overwrite(target: Path, body: bytes, copy: Path) -> None:
    """Write over the target where it stands; the copy goes when that is done, and not before."""
    try:
        with open(target, "r+b") as file:
            file.write(body)
            file.truncate()
            file.flush()
            os.fsync(file.fileno())
    except OSError as error:
        raise CannotWork(f"{cannot(f'Cannot write {target}', error)} All of it is in {copy}.") from None
    copy.unlink(missing_ok=True)
