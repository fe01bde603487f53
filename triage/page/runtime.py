"""Python for a browser and what runs beside it: brought by the package clients, checked, kept, never committed.

The runtime comes as one package, the libraries as wheels; every file is pinned by its digest. They are kept in the
cache folder, or lie in a folder that somebody brought them to.
"""

from __future__ import annotations

import base64
import hashlib
import io
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from triage.errors import CannotWork
from triage.files import make_folder, read_bounded
from triage.resources import cache_dir

PACKAGE = "pyodide@314.0.7"
INTEGRITY = "sha512-0YvXxEhfEdpLfb/XkM2BFAeMROq0iMUX2bzzH9pOttyMcWkwq+HbE5uyuGD82LN7y2q+SNvi/6V5JEsOlD2R1A=="
PYTHON, PLATFORM = "3.14", "pyemscripten_2026_0_wasm32"
WHEELS = Path(__file__).with_name("wheels.txt")

_PIN = re.compile(r"^(?P<name>[a-z0-9-]+)==(?P<version>\S+) --hash=sha256:(?P<digest>[0-9a-f]{64})$", re.MULTILINE)
_PLAIN_PARTS = ("manylinux2014_x86_64", "manylinux_2_28_x86_64")  # any machine's wheel has the plain parts in it too
_MOST_BYTES = 50_000_000
_LICENCE = re.compile(r"(^|/)(LICEN[CS]E|COPYING|NOTICE)[^/]*$", re.IGNORECASE)
_MINUTES = 10


@dataclass(frozen=True)
class Runtime:
    """Everything that is not ours. ``loader`` starts ``machine``, which is Python; ``core`` is pydantic's own part.

    ``folder`` has the whole package unpacked, for a run outside the browser; ``modules`` are the sources
    of Python's library and the others.
    ``experta`` is a whole library as it is passed on, by the name of its file.
    """

    folder: Path
    loader: str
    glue: str
    machine: bytes
    core: bytes
    modules: Mapping[str, bytes]
    licences: Mapping[str, bytes]
    experta: tuple[str, bytes]


def runtime(brought: Path | None, workshop: Path) -> Runtime:
    """The runtime from where it was brought to, or from the cache folder, into which what is missing is fetched.

    ``workshop`` is a folder for unpacking it. Raises CannotWork when it cannot be had, or is not what was pinned.
    """
    folder = brought or _own_folder() or workshop / "fetched"
    package = _package(folder, fetch=brought is None)
    files = _unpacked(package, workshop / "runtime")
    modules = dict(_members((files / "python_stdlib.zip").read_bytes()))
    licences: dict[str, bytes] = {}
    core, experta = b"", b""
    for name, archive in _wheels(folder, fetch=brought is None):
        experta = archive if name == "experta" else experta
        for path, body in _members(archive):
            if path.startswith("pydantic_core/") and path.endswith(".so"):
                core = body
            elif _LICENCE.search(path):
                licences[name] = body
            elif path.endswith(".py") and "setup.py" not in path:
                modules[path] = body
    return Runtime(
        folder=files,
        loader=(files / "pyodide.mjs").read_text(encoding="utf-8"),
        glue=(files / "pyodide.asm.mjs").read_text(encoding="utf-8"),
        machine=(files / "pyodide.asm.wasm").read_bytes(),
        core=core,
        modules=modules,
        licences=licences,
        experta=("experta.whl", experta),
    )


def npm_command(folder: Path) -> tuple[str, ...]:
    """What brings the runtime into a folder."""
    return ("npm", "pack", PACKAGE, "--pack-destination", str(folder))


def pip_command(folder: Path, python: str = "python") -> tuple[str, ...]:
    """What brings the libraries into a folder."""
    platforms = (part for platform in (PLATFORM, *_PLAIN_PARTS, "any") for part in ("--platform", platform))
    wanted = ("--no-deps", "--require-hashes", "--implementation", "cp", "--python-version", PYTHON, *platforms)
    return (python, "-m", "pip", "download", "-q", *wanted, "-r", str(WHEELS), "-d", str(folder))


def checked(file: Path, body: bytes, *, integrity: str) -> bytes:
    """The bytes, if they are those that were pinned. Raises CannotWork."""
    kind, _, wanted = integrity.partition("-")
    if base64.b64encode(hashlib.new(kind, body).digest()).decode() != wanted:
        raise CannotWork(f"{file} is not the file that this program was tried with. Take it away and fetch it again.")
    return body


def _own_folder() -> Path | None:
    folder = cache_dir()
    return folder / "page" if folder else None


def _package(folder: Path, *, fetch: bool) -> bytes:
    file = folder / f"{PACKAGE.replace('@', '-')}.tgz"
    if not file.is_file():
        command = npm_command(folder)
        if not fetch:
            raise CannotWork(f"{file.name} is not in {folder}. This brings it there: {' '.join(command)}")
        npm = shutil.which("npm")
        if npm is None:
            raise CannotWork(
                "The page needs Python for browsers, which npm brings, and there is no npm here. Where there is one, "
                f"run: {' '.join(npm_command(Path('FOLDER')))}. Then name the folder here with --runtime FOLDER."
            )
        _fetched(folder, (npm, *command[1:]), command)
    return checked(file, read_bounded(file, _MOST_BYTES), integrity=INTEGRITY)


def _wheels(folder: Path, *, fetch: bool) -> Iterator[tuple[str, bytes]]:
    """Every library by its name. Where they were not brought, they are fetched as the runtime is."""
    pins = {pin["digest"]: pin["name"] for pin in _PIN.finditer(WHEELS.read_text(encoding="utf-8"))}
    if not (found := _found(folder, pins)).keys() >= set(pins.values()):
        command = pip_command(folder)
        if not fetch and (own := _own_folder()) and _found(own, pins).keys() >= set(pins.values()):
            folder = own
        else:
            _fetched(folder, (sys.executable, *command[1:]), command)
        found = _found(folder, pins)
    for name in sorted(pins.values()):
        if name not in found:
            raise CannotWork(f"{name} is missing in {folder}. This brings it there: {' '.join(pip_command(folder))}")
        yield name, found[name]


def _found(folder: Path, pins: Mapping[str, str]) -> dict[str, bytes]:
    """The pinned files that are there, by the name of the library; what was not pinned counts as not there."""
    found = {}
    for file in sorted((*folder.glob("*.whl"), *folder.glob("*.tar.gz"))):
        body = read_bounded(file, _MOST_BYTES)
        if name := pins.get(hashlib.sha256(body).hexdigest()):
            found[name] = body
    return found


def _fetched(folder: Path, command: Sequence[str], told: Sequence[str]) -> None:
    """Have a package client bring something. Raises CannotWork with what it said, and the command to try by hand."""
    make_folder(folder)
    try:
        with tempfile.TemporaryDirectory() as elsewhere:
            done = subprocess.run(
                command, cwd=elsewhere, capture_output=True, encoding="utf-8", errors="replace",
                timeout=_MINUTES * 60, check=False,
            )  # fmt: skip
        said = "" if done.returncode == 0 else (done.stderr.strip() or done.stdout.strip() or "no word of why")
    except (OSError, subprocess.TimeoutExpired) as error:
        said = str(error)
    if said:
        raise CannotWork(
            f"What the page is made of could not be fetched: {said.splitlines()[-1]} Try this by hand: {' '.join(told)}"
        )


def _unpacked(package: bytes, folder: Path) -> Path:
    """The package as files; it was checked before."""
    make_folder(folder)
    for path, body in _members(package):
        (folder / Path(path).name).write_bytes(body)
    return folder


def _members(archive: bytes) -> Iterator[tuple[str, bytes]]:
    """Every file in a wheel or a source archive, as it lies in its package."""
    if archive.startswith(b"PK"):
        with zipfile.ZipFile(io.BytesIO(archive)) as wheel:
            yield from ((name, wheel.read(name)) for name in wheel.namelist() if not name.endswith("/"))
        return
    with tarfile.open(fileobj=io.BytesIO(archive)) as source:
        for member in source:
            content = source.extractfile(member)
            if content is not None:
                yield member.name.partition("/")[2], content.read()
