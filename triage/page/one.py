"""The page as one file that opens from a disk: everything in it, packed, and nothing fetched."""

from __future__ import annotations

import base64
import gzip
import hashlib
import re
from collections.abc import Mapping
from dataclasses import asdict
from html import escape

from triage.page.parts import Parts

_LINKED = re.compile(r'<link rel="(?:icon|stylesheet)" [^>]*>\n?|<script src="[^>]*></script>\n?')
_CHARSET = '<meta charset="utf-8">'


def page(start: str, looks: Mapping[str, bytes], parts: Parts, licences: bytes) -> bytes:
    """The first screen with everything in it. Its policy lets run only what stands in it."""
    scripts = [body.decode("utf-8") for name, body in sorted(looks.items()) if name.endswith(".js")]
    sheets = [(name, body.decode("utf-8")) for name, body in sorted(looks.items()) if name.endswith(".css")]
    head = (
        _CHARSET,
        f'<meta http-equiv="Content-Security-Policy" content="{_policy(scripts)}">',
        f'<link rel="icon" href="data:image/svg+xml;base64,{base64.b64encode(looks["icon.svg"]).decode()}">',
        *(f"<style{' data-always' * (name == 'page.css')}>{text}</style>" for name, text in sheets),
    )
    body = (
        *(
            f'<script type="text/plain" data-part="{name}">{_packed(name, part)}</script>'
            for name, part in _in_it(parts)
        ),
        f'<script type="text/plain" data-licences>{escape(licences.decode("utf-8"))}</script>',
        *(f"<script>{text}</script>" for text in scripts),
    )
    html = _LINKED.sub("", start).replace(_CHARSET, "\n".join(head), 1)
    return html.replace("</body>", "\n".join(body) + "\n</body>", 1).encode("utf-8")


def _in_it(parts: Parts) -> list[tuple[str, bytes]]:
    return sorted(asdict(parts).items())


def _packed(name: str, part: bytes) -> str:
    """The worker unpacks the others, and so is not packed itself."""
    return base64.b64encode(part if name == "worker" else gzip.compress(part, 9, mtime=0)).decode()


def _policy(scripts: list[str]) -> str:
    own = " ".join(f"'sha256-{base64.b64encode(hashlib.sha256(one.encode()).digest()).decode()}'" for one in scripts)
    return (
        f"default-src 'none'; script-src {own} blob: 'wasm-unsafe-eval'; worker-src blob:; "
        "style-src 'unsafe-inline'; img-src data: blob:; base-uri 'none'; form-action 'none'"
    )
