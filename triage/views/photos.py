"""Photos that a survey names, made fit to stand in a page: smaller, upright, without what a camera writes in them."""

from __future__ import annotations

import base64
import contextlib
import io
from collections.abc import Iterable, Iterator
from pathlib import Path

from triage.errors import BadPhoto, CannotWork
from triage.files import read_bounded

LARGEST_FILE = 40_000_000
"""Bytes of a photo that are read."""

SIDE = 1200
"""Pixels of its longer side, as it is shown."""

KEPT_SIDE = 2000
"""Pixels of its longer side, as it is kept: a length can still be taken from it."""

QUALITY = 80
"""Of 100, as JPEG counts it."""

FORMATS = ("JPEG", "PNG", "WEBP")

_JPEG_BEGINS, _JPEG_ENDS = b"\xff\xd8\xff", b"\xff\xd9"

SEGMENT, FRAME_HEAD = 0xFF, 5
"""What a segment of a JPEG begins with, and how long the part of a frame is that tells its size."""

_SCAN = 0xDA
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
_TELLING = frozenset((0xE1, *range(0xE3, 0xEE), 0xFE))
"""Exif and XMP, what makers of cameras write (IPTC too), and comments; not the plain head, colour or Adobe's."""


def photos_of(names: Iterable[str], folder: Path) -> dict[str, str]:
    """By name a photo as a data URI, for those that are pictures and lie in ``folder`` or below it.

    A name that leads elsewhere, or to what is no picture, is left out: a survey may come from a stranger. Place, time
    and camera are not kept. Nothing where there is no library for photos, as on the phone, whose screen shrinks them.
    """
    try:
        import PIL.Image  # noqa: F401  # the phone has none
    except ImportError:
        return {}
    shown = {name: _shown(folder, name) for name in dict.fromkeys(names)}
    return {name: uri for name, uri in shown.items() if uri}


def fit_to_keep(photo: bytes) -> bytes:
    """A photo that somebody hands in, as it is kept: JPEG, upright, not too large, and silent about where it was taken
    and with what. Raises BadPhoto.

    Where there is no library for photos, as on the phone, it is only looked at whether it can be one that tells nothing
    of that: the screen there draws it anew, which leaves out all else.
    """
    try:
        import PIL.Image  # noqa: F401  # the phone has none
    except ImportError:
        if photo.startswith(_JPEG_BEGINS) and photo.rstrip(b"\0").endswith(_JPEG_ENDS) and not _tells_more(photo):
            return photo
        raise BadPhoto from None
    try:
        return _smaller(photo, KEPT_SIDE)
    except (OSError, ValueError, SyntaxError):  # the last is what a broken PNG is called
        raise BadPhoto from None


def size_of(jpeg: bytes) -> tuple[int, int]:
    """How wide and how high a photo is, in pixels. Raises BadPhoto."""
    for kind, body in _segments(jpeg):
        if kind in _FRAMES and len(body) >= FRAME_HEAD:
            return int.from_bytes(body[3:5], "big"), int.from_bytes(body[1:3], "big")
    raise BadPhoto


def in_page(jpeg: bytes) -> str:
    """A photo that was kept, as a data URI for a report: smaller where there is a library for photos."""
    with contextlib.suppress(ImportError, OSError, ValueError, SyntaxError):
        jpeg = _smaller(jpeg)
    return "data:image/jpeg;base64," + base64.b64encode(jpeg).decode("ascii")


def _tells_more(jpeg: bytes) -> bool:
    """Whether it holds a segment in which cameras and programs write of themselves: Exif, XMP, IPTC, a comment."""
    return any(kind in _TELLING for kind, _ in _segments(jpeg))


def _segments(jpeg: bytes) -> Iterator[tuple[int, bytes]]:
    """The segments of a JPEG before its picture, by their markers, as far as they are whole."""
    at = 2
    while at + 4 <= len(jpeg) and jpeg[at] == SEGMENT and jpeg[at + 1] != _SCAN:
        length = int.from_bytes(jpeg[at + 2 : at + 4], "big")
        yield jpeg[at + 1], jpeg[at + 4 : at + 2 + length]
        at += 2 + max(length, 2)


def _shown(folder: Path, name: str) -> str:
    try:
        path = (folder / name).resolve()
        if not path.is_relative_to(folder.resolve()):
            return ""
        return "data:image/jpeg;base64," + base64.b64encode(_smaller(read_bounded(path, LARGEST_FILE))).decode("ascii")
    except (CannotWork, OSError, ValueError):  # not there, no picture, or one that would take too much room
        return ""


def _smaller(photo: bytes, side: int = SIDE) -> bytes:
    from PIL import Image, ImageOps

    try:
        with Image.open(io.BytesIO(photo), formats=FORMATS) as picture:
            upright = ImageOps.exif_transpose(picture).convert("RGB")
    except Image.DecompressionBombError as error:
        raise ValueError(str(error)) from None
    upright.thumbnail((side, side))
    upright.info.clear()
    made = io.BytesIO()
    upright.save(made, "JPEG", quality=QUALITY)
    return made.getvalue()
