"""Photos that a survey names, made fit to stand in a page: smaller, upright, without what a camera writes in them."""

from __future__ import annotations

import base64
import io
from collections.abc import Iterable
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

    Where there is no library for photos, as on the phone, it is only looked at whether it can be one: the screen there
    draws it anew, which leaves out all else.
    """
    try:
        import PIL.Image  # noqa: F401  # the phone has none
    except ImportError:
        if photo.startswith(_JPEG_BEGINS) and photo.rstrip(b"\0").endswith(_JPEG_ENDS):
            return photo
        raise BadPhoto from None
    try:
        return _smaller(photo, KEPT_SIDE)
    except (OSError, ValueError, SyntaxError):  # the last is what a broken PNG is called
        raise BadPhoto from None


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
