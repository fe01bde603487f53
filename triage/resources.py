"""Where the knowledge and the report templates are, and what is kept from one run to the next.

They are beside a checkout, or inside an installed wheel. What is kept is in the user's own cache folder, each thing
behind its own digest; whatever is spoilt, or is not ours alone to write, counts as not there. ``TRIAGE_CACHE_DIR``
names another folder; set to nothing, it turns keeping off.
"""

from __future__ import annotations

import hashlib
import os
import stat
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from triage.errors import CannotWork
from triage.files import read_bounded, write_whole

if TYPE_CHECKING:
    import jinja2

_PACKAGE = Path(__file__).resolve().parent
_PROJECT = "dinghy-triage"
_IN_CHECKOUT = {"rules": "rules", "templates": "reports/templates"}

MOST = 8
"""Files of a kind that are kept, the newest first."""

MOST_BYTES = 50_000_000
"""Of one file that is kept; the rules come to less than one million."""


def data_dir(kind: Literal["rules", "templates"]) -> Path:
    """The folder of ``kind``; the environment variable TRIAGE_RULES_DIR or TRIAGE_TEMPLATES_DIR overrides it.

    Raises CannotWork when it is nowhere.
    """
    variable = f"TRIAGE_{kind.upper()}_DIR"
    override = os.environ.get(variable)
    candidates = [Path(override)] if override else [_PACKAGE / "_data" / kind]
    if not override and _is_our_project(_PACKAGE.parent / "pyproject.toml"):
        candidates.insert(0, _PACKAGE.parent / _IN_CHECKOUT[kind])
    for candidate in candidates:
        if candidate.is_dir():
            return candidate
    advice = f"Mend {variable}." if override else f"Install the program again, or name a folder in {variable}."
    raise CannotWork(f"The {kind} are not where they should be, at {' or '.join(map(str, candidates))}. {advice}")


def template_environment(
    folder: str = "", *, autoescape: bool = True, keep_trailing_newline: bool = True
) -> jinja2.Environment:
    """The templates in ``folder`` of the report templates: lines of tags leave none, and an unknown name is an error.

    Where TRIAGE_TEMPLATES_COMPILED names a folder, those that were compiled into it come from there. Raises CannotWork
    when there are no templates.
    """
    import jinja2

    loaders: list[jinja2.BaseLoader] = [jinja2.FileSystemLoader(data_dir("templates") / folder)]
    if compiled := os.environ.get("TRIAGE_TEMPLATES_COMPILED"):
        loaders.insert(0, jinja2.ModuleLoader(f"{compiled}/{compiled_folder(folder, autoescape=autoescape)}"))
    return jinja2.Environment(
        loader=jinja2.ChoiceLoader(loaders),
        undefined=jinja2.StrictUndefined,
        autoescape=autoescape,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=keep_trailing_newline,
    )


def compiled_folder(folder: str, *, autoescape: bool) -> str:
    """Where the compiled templates of an environment lie: those that escape are other code than those that do not."""
    return f"{folder or 'reports'}-{'escaped' if autoescape else 'plain'}"


def _is_our_project(file: Path) -> bool:
    """Whether this declares our own project, and not some other that lies beside an installed package."""
    try:
        return f'name = "{_PROJECT}"' in read_bounded(file, 100_000).decode("utf-8", "replace").splitlines()
    except CannotWork:
        return False


def cache_dir() -> Path | None:
    """The folder for what is kept from one run to the next; None when keeping is turned off, or there is no home."""
    named = os.environ.get("TRIAGE_CACHE_DIR")
    if named is not None:
        return Path(named) if named else None
    import platformdirs

    try:
        folder = Path(platformdirs.user_cache_dir(_PROJECT, appauthor=False))
    except RuntimeError:  # there is no home
        return None
    return folder if folder.is_absolute() else None  # the same, as earlier versions tell it: a tilde that stays


def kept_file(name: str) -> Path | None:
    """Where a file of this name is kept, for what reads and writes it by other means; the folder is made.

    None when keeping is turned off, and when the folder or the file may have been written by somebody else.
    """
    folder = cache_dir()
    if folder is None:
        return None
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not _ours_alone(folder.stat()):
            return None
        known = (folder / name).stat()
    except FileNotFoundError:
        return folder / name
    except OSError:
        return None
    return folder / name if _ours_alone(known) and stat.S_ISREG(known.st_mode) else None


def kept(name: str) -> bytes | None:
    """What was kept under this name, if it is whole and, as far as the system can tell, nobody else has written it."""
    file = kept_file(name)
    if file is None:
        return None
    try:
        digest, _, body = read_bounded(file, MOST_BYTES).partition(b"\n")
    except CannotWork:
        return None
    return body if digest == _digest(body) else None


def keep(name: str, body: bytes) -> None:
    """Keep this under the name, and of its kind (what the name ends in) the newest. Failing to is no misfortune."""
    file = kept_file(name)
    if file is None:
        return
    try:
        write_whole(file, _digest(body) + b"\n" + body, durable=False)  # what is lost or spoilt is only read anew
        file.chmod(0o600)
        files = sorted(file.parent.glob(f"*{file.suffix}"), key=lambda one: one.stat().st_mtime, reverse=True)
        for old in files[MOST:]:
            old.unlink(missing_ok=True)
    except (OSError, CannotWork):
        return


def _ours_alone(known: os.stat_result) -> bool:
    """Whether nobody but this user can have written it, as far as the system can tell."""
    return not hasattr(os, "getuid") or (known.st_uid == os.getuid() and not known.st_mode & 0o022)


def _digest(body: bytes) -> bytes:
    return hashlib.sha256(body).hexdigest().encode("ascii")
