"""The parts of the page that Python is made of: one library, the templates, the knowledge, the worker around them."""

from __future__ import annotations

import hashlib
import io
import json
import re
import shutil
import subprocess
import zipfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType
from typing import Any

from triage.errors import CannotWork
from triage.page import beforehand, compiling
from triage.page.runtime import Runtime
from triage.resources import data_dir, keep, kept, template_environment

PAGE = "page"
"""The folder of the page's own templates."""

_NOT_IN_THE_PAGE = (
    *(
        "__main__",
        "cli",
        "lint",
        "proof",
        "knowledge/forms",
        "knowledge/readers",
        "knowledge/store/load",
        "app/sharing",
    ),
    *("views/handbook", "views/handbook_pictures", "views/pdf", "views/rule_text", "views/site"),
    *("causes/graph", "causes/export", "drawing/diagram", "drawing/layout", "drawing/picture"),
    *("log/sqlite", "log/sqlite_file", "log/sqlite_classes", "log/troubles", "survey/store"),
    *("views/sum_page", "drawing/curve"),
    *("page/beforehand", "page/build", "page/compiling", "page/icon", "page/one", "page/parts", "page/runtime"),
)
_LEFT_OUT = Path(__file__).with_name("left_out.txt")
_NO_TEMPLATES = (PAGE, "handbook")
_COMPILED = re.compile(r"(screens/)?\w+\.html|\w+\.(txt|svg)")
_LISTED = re.compile(r"drawings/.*\.svg")
"""Templates that lie in the library, and that nobody asks for as a file; of drawings the names alone are listed."""

_DAY = (1980, 1, 1, 0, 0, 0)
_MINUTES = 5


@dataclass(frozen=True)
class Parts:
    """What the worker is given. ``machine`` is Python, ``core`` the one library that is compiled for it."""

    machine: bytes
    core: bytes
    library: bytes
    templates: bytes
    knowledge: bytes
    worker: bytes


def parts_of(runtime: Runtime, knowledge: bytes, workshop: Path) -> Parts:
    """All of them; ``knowledge`` is plain. Raises CannotWork where the page's Python cannot be run here."""
    library = _library(runtime, workshop)
    return Parts(
        machine=runtime.machine,
        core=runtime.core,
        library=library,
        templates=_plain(_as_files()),
        knowledge=_made(beforehand, runtime, workshop, {"plain.json": knowledge, "library.zip": library}),
        worker=_worker(runtime).encode("utf-8"),
    )


def written(template: str, **values: Any) -> str:
    """A script of the page, with its values in it."""
    return template_environment(PAGE, autoescape=False).get_template(template).render(values)


def _library(runtime: Runtime, workshop: Path) -> bytes:
    """Everything that Python imports, compiled."""
    left_out = tuple(line for line in _LEFT_OUT.read_text(encoding="utf-8").splitlines() if not line.startswith("#"))
    found = {**runtime.modules, **dict(_own_modules())}
    modules = {name: body for name, body in found.items() if not name.startswith(left_out)}
    templates = {f"{compiling.TEMPLATES}{name}": body for name, body in _templates()}
    sources = _zipped({**modules, **templates})
    return _made(compiling, runtime, workshop, {"sources.zip": sources})


def _made(by: ModuleType, runtime: Runtime, workshop: Path, given: Mapping[str, bytes]) -> bytes:
    """What a module makes of these files in the page's own Python, and of the part that is compiled for it.

    It is kept from one run to the next, since it takes a while.
    """
    script = Path(str(by.__file__))
    given = {**given, "core.so": runtime.core}
    made_by = script.read_bytes(), runtime.machine, *given.values()
    name = f"{hashlib.sha256(b''.join(hashlib.sha256(one).digest() for one in made_by)).hexdigest()}.{script.stem}"
    made = kept(name)
    if made is None:
        made = _run(script, runtime, workshop, given)
        keep(name, made)
    return made


def _run(script: Path, runtime: Runtime, workshop: Path, given: Mapping[str, bytes]) -> bytes:
    """The page's own Python runs the script, outside the browser."""
    node = shutil.which("node")
    if node is None:
        raise CannotWork("To build the page, Python for browsers has to run here once, for which node is needed.")
    target, files = workshop / "made", [workshop / name for name in given]
    for file, body in zip(files, given.values(), strict=True):
        file.write_bytes(body)
    run = data_dir("templates") / PAGE / "run.mjs"
    command = [node, *map(str, (run, runtime.folder, target, script, *files))]
    try:
        done = subprocess.run(command, capture_output=True, text=True, timeout=_MINUTES * 60, check=False)
        why = "" if done.returncode == 0 else (done.stderr.strip() or "no word of why").splitlines()[-1]
    except (OSError, subprocess.TimeoutExpired) as error:
        why = str(error)
    if why:
        raise CannotWork(f"Python for browsers could not be run here with {node}: {why}. Try a newer node.")
    return target.read_bytes()


def _own_modules() -> Iterable[tuple[str, bytes]]:
    package = Path(__file__).parents[1]
    for file in sorted(package.rglob("*.py")):
        name = file.relative_to(package).with_suffix("").as_posix()
        if not any(name == one or name.startswith(f"{one}/") for one in _NOT_IN_THE_PAGE) and "_data/" not in name:
            yield f"triage/{name}.py", file.read_bytes()


def _templates() -> Iterable[tuple[str, bytes]]:
    folder = data_dir("templates")
    for file in sorted(one for one in folder.rglob("*") if one.is_file()):
        name = file.relative_to(folder).as_posix()
        if name.partition("/")[0] not in _NO_TEMPLATES:
            yield name, file.read_bytes()


def _as_files() -> dict[str, str]:
    """The templates that are read from where they lie, or listed there."""
    read = {name: text.decode("utf-8") for name, text in _templates() if not _COMPILED.fullmatch(name)}
    return {name: "" if _LISTED.fullmatch(name) else text for name, text in read.items()}


def _worker(runtime: Runtime) -> str:
    """One plain script: from a disk, a browser takes no modules. The loader is told that there is nothing to import."""
    loader = runtime.loader.partition("//# sourceMappingURL")[0]
    body, _, names = loader.rpartition("export{")
    start = names.partition(" as loadPyodide")[0]
    glue = runtime.glue.replace("export default _createPyodideModule;", "")
    pieces = (
        "'use strict';",
        'self.importScripts = () => { throw new TypeError("nothing to import"); };',
        f"const loadPyodide = (() => {{{body};return {start}}})();",
        glue,
        written("python.js", lock=json.loads((runtime.folder / "pyodide-lock.json").read_bytes())["info"]),
        written("worker.js"),
    )
    return "\n".join(pieces).replace("import.meta.url", "self.location.href")


def _zipped(files: Mapping[str, bytes]) -> bytes:
    """The same bytes for the same files."""
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        for name, body in sorted(files.items()):
            archive.writestr(zipfile.ZipInfo(name, _DAY), body)
    return written.getvalue()


def _plain(value: Any) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode("utf-8")
