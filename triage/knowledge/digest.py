"""The digest by which knowledge is known."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping


def digest_of(texts: Mapping[str, str] | Mapping[str, bytes]) -> str:
    """SHA-256 over every file name and text, in hexadecimal; of a text the same as of its bytes in UTF-8."""
    digest = hashlib.sha256()
    for name in sorted(texts):
        text = texts[name]
        body = text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text
        called = name.encode("utf-8", "surrogatepass")
        digest.update(b"%d %s %d " % (len(called), called, len(body)))
        digest.update(body)
    return digest.hexdigest()
