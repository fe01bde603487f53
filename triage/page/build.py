"""The page as a folder of files for any web space, or as one file."""

from __future__ import annotations

import gzip
import hashlib
import json
import re
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from triage.app import addresses
from triage.files import write_whole
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.cache import as_plain
from triage.page import one
from triage.page.icon import png
from triage.page.parts import PAGE, Parts, parts_of, written
from triage.page.phone import Phone
from triage.page.runtime import PACKAGE, Runtime, runtime
from triage.phrases import page as phrases
from triage.resources import data_dir
from triage.views.site import replace_all

MARKER = ".dinghy-page"
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; connect-src 'self'; "
    "form-action 'self'; manifest-src 'self'; style-src 'self'; img-src 'self' data:"
)
ICON_SIZES = (180, 192, 512)

_LOOK = re.compile(r'(?<=")\./look/([a-z_]+\.[a-z]+)(?=")')
_VERSION_DIGITS = 16


@dataclass(frozen=True)
class Start:
    """The first screen as it is before Python runs, with the style sheets and scripts that it names."""

    html: str
    looks: Mapping[str, bytes]


def build_folder(kb: KnowledgeBase, folder: Path, brought: Path | None = None) -> Mapping[str, bytes]:
    """Write the page into a folder, which may have held it before; the files. Raises CannotWork, BadInput."""
    parts, own = _made(kb, brought)
    files = folder_files(start_screen(kb), parts, own)
    replace_all(folder, files, MARKER, what="a page")
    return files


def build_one(kb: KnowledgeBase, file: Path, brought: Path | None = None) -> bytes:
    """Write the page as one file that opens from a disk; its bytes. Raises CannotWork."""
    parts, own = _made(kb, brought)
    start = start_screen(kb)
    looks = {**start.looks, "page.css": _own("page.css"), "page.js": _script(_version(start.looks)).encode("utf-8")}
    body = one.page(start.html, looks, parts, licences(own))
    write_whole(file, body)
    return body


def start_screen(kb: KnowledgeBase) -> Start:
    """The first screen of somebody who has kept nothing yet."""
    phone = Phone(kb, {})
    html = phone.answer("GET", addresses.START)[2].decode("utf-8")
    return Start(
        html, {name: phone.answer("GET", addresses.look(name))[2] for name in dict.fromkeys(_LOOK.findall(html))}
    )


def folder_files(start: Start, parts: Parts, own: Runtime) -> dict[str, bytes]:
    """Every file of the page by its name."""
    files = {
        **start.looks,
        **{f"icon-{size}.png": png(size) for size in ICON_SIZES},
        "page.css": _own("page.css"),
        "manifest.webmanifest": _manifest(),
        "machine.wasm": parts.machine,
        "core.bin": parts.core,
        "library.zip": parts.library,
        "templates.json": parts.templates,
        "knowledge.bin": parts.knowledge,
        "worker.js": parts.worker,
    }
    files["index.html"] = _index(start).encode("utf-8")
    version = _version({**files, "page.js": _own("page.js"), "sw.js": _own("sw.js")})
    files["page.js"] = _script(version).encode("utf-8")
    files["sw.js"] = written("sw.js", version=version, names=sorted(files)).encode("utf-8")
    return {**files, "licences.txt": licences(own), own.experta[0]: own.experta[1]}


def licences(own: Runtime) -> bytes:
    """On what terms each library may be passed on."""
    texts = [f"\n== {name}\n\n".encode() + text for name, text in sorted(own.licences.items())]
    return phrases.LICENCES.format(package=PACKAGE, experta=own.experta[0]).encode() + b"\n".join(texts)


def gzipped(files: Mapping[str, bytes]) -> int:
    """How many bytes a web space sends that packs what it sends."""
    return sum(len(gzip.compress(body, 6)) for body in files.values())


def _made(kb: KnowledgeBase, brought: Path | None) -> tuple[Parts, Runtime]:
    with tempfile.TemporaryDirectory() as workshop:
        own = runtime(brought, Path(workshop))
        return parts_of(own, as_plain(kb), Path(workshop)), own


def _index(start: Start) -> str:
    head = (
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">',
        '<link rel="manifest" href="manifest.webmanifest">',
        '<link rel="apple-touch-icon" href="icon-180.png">',
        '<link rel="stylesheet" href="page.css" data-always>',
        '<script src="page.js" defer></script>',
    )
    return _LOOK.sub(r"\1", start.html).replace('<meta charset="utf-8">', "\n".join(head), 1)


def _script(version: str) -> str:
    return written("page.js", words=phrases.WORDS, version=version)


def _manifest() -> bytes:
    icons = [{"src": "icon.svg", "sizes": "any", "type": "image/svg+xml"}]
    icons += [{"src": f"icon-{size}.png", "sizes": f"{size}x{size}", "type": "image/png"} for size in ICON_SIZES]
    told = {
        "name": phrases.NAME,
        "short_name": phrases.SHORT_NAME,
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": "#fbf8f0",
        "theme_color": "#12212b",
        "icons": icons,
    }
    return json.dumps(told, indent=1).encode("utf-8")


def _own(name: str) -> bytes:
    return (data_dir("templates") / PAGE / name).read_bytes()


def _version(files: Mapping[str, bytes]) -> str:
    """What is another when any file is."""
    digests = (f"{name} {hashlib.sha256(body).hexdigest()}" for name, body in sorted(files.items()))
    return hashlib.sha256("\n".join(digests).encode()).hexdigest()[:_VERSION_DIGITS]
