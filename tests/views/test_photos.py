"""Photos in a report: seen, small, upright, and silent about where they were taken."""

from __future__ import annotations

import base64
import io
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from triage.cli import main
from triage.errors import BadPhoto
from triage.views.photos import KEPT_SIDE, SIDE, fit_to_keep, in_page, photos_of, size_of

ORIENTATION, MAKE, GPS = 0x0112, 0x010F, 0x8825


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    here = tmp_path / "survey"
    here.mkdir()
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE] = 6, "somebody's camera"
    exif.get_ifd(GPS)[1] = "N"
    Image.new("RGB", (3000, 1500), "white").save(here / "anchor.jpg", exif=exif)
    Image.new("RGB", (30, 20), "white").save(tmp_path / "elsewhere.png")
    (here / "words.jpg").write_text("no picture", encoding="utf-8")
    return here


def picture(uri: str) -> Image.Image:
    return Image.open(io.BytesIO(base64.b64decode(uri.removeprefix("data:image/jpeg;base64,"))))


def test_a_photo_is_small_upright_and_says_nothing_of_place_or_camera(folder: Path) -> None:
    shown = picture(photos_of(["anchor.jpg"], folder)["anchor.jpg"])

    assert (SIDE // 2, SIDE) == shown.size
    assert not dict(shown.getexif())


@pytest.mark.parametrize("name", ["../elsewhere.png", "words.jpg", "none.jpg", "", "http://example.org/a.jpg", "\0"])
def test_what_is_no_picture_of_the_survey_is_left_out(folder: Path, name: str) -> None:
    assert {} == photos_of([name, str(folder.parent / "elsewhere.png")], folder)


def test_the_page_shows_them_and_says_what_they_are_of(folder: Path) -> None:
    survey = folder / "boat.yaml"
    survey.write_text(
        "boat: {name: Wagtail}\nfindings: [{zone: stem, sign: edge_chip, photos: [anchor.jpg, words.jpg]}]",
        encoding="utf-8",
    )

    CliRunner().invoke(main, ["assess", str(survey), "-o", str(folder / "report.html")])
    page = (folder / "report.html").read_text(encoding="utf-8")

    assert 1 == page.count('<img src="data:image/jpeg;base64,')
    assert 'alt="Photo: Nose of the hull: Chip on an edge"' in page
    assert "words.jpg" in page


def test_a_photo_to_keep_is_jpeg_upright_and_silent(folder: Path) -> None:
    taken = (folder / "anchor.jpg").read_bytes()

    kept = fit_to_keep(taken)

    picture = Image.open(io.BytesIO(kept))
    assert ("JPEG", (KEPT_SIDE // 2, KEPT_SIDE)) == (picture.format, picture.size)
    assert not dict(picture.getexif())
    assert b"somebody" in taken
    assert b"somebody" not in kept
    assert b"Exif" not in kept


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_other_kinds_are_kept_as_jpeg(kind: str) -> None:
    taken = io.BytesIO()
    Image.new("RGBA", (30, 20), "white").save(taken, kind)

    assert "JPEG" == Image.open(io.BytesIO(fit_to_keep(taken.getvalue()))).format


def spoilt() -> dict[str, bytes]:
    made = {}
    for kind in ("JPEG", "PNG", "GIF"):
        taken = io.BytesIO()
        Image.effect_noise((300, 200), 90).convert("RGB").save(taken, kind)
        made[kind] = taken.getvalue()
    return {
        "nothing": b"",
        "words": b"no picture",
        "another kind": made["GIF"],
        "half a JPEG": made["JPEG"][:9000],
        "half a PNG": made["PNG"][:9000],
        "a page": b"<svg xmlns='http://www.w3.org/2000/svg'/>",
    }


@pytest.mark.parametrize("what", spoilt())
def test_what_is_no_photo_is_refused_in_plain_words(what: str) -> None:
    with pytest.raises(BadPhoto, match="Choose one in JPEG"):
        fit_to_keep(spoilt()[what])


def test_without_a_library_only_a_jpeg_that_tells_nothing_more_is_kept(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    taken = (folder / "anchor.jpg").read_bytes()
    drawn_anew = fit_to_keep(taken)
    monkeypatch.setitem(sys.modules, "PIL.Image", None)

    assert drawn_anew == fit_to_keep(drawn_anew)
    for other in (b"", b"no picture", drawn_anew[:-2], drawn_anew[2:], taken):
        with pytest.raises(BadPhoto):
            fit_to_keep(other)


@pytest.mark.parametrize("size", [(3, 2), (1200, 900), (640, 2000)])
@pytest.mark.parametrize("more", [{}, {"progressive": True}, {"comment": b"by the slip"}])
def test_the_size_of_a_photo_is_read_from_it(size: tuple[int, int], more: dict[str, object]) -> None:
    made = io.BytesIO()
    Image.new("RGB", size, "white").save(made, "JPEG", **more)

    assert size == size_of(made.getvalue())


@pytest.mark.parametrize("what", [b"", b"\xff\xd8", b"\xff\xd8\xff\xe0\x00\x00", b"\xff\xd8\xff\xc0\x00\x04\x00\x00"])
def test_what_has_no_size_is_no_photo(what: bytes) -> None:
    with pytest.raises(BadPhoto):
        size_of(what)


def test_a_photo_stands_in_a_page_without_a_library_too(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept = fit_to_keep((folder / "anchor.jpg").read_bytes())
    smaller = in_page(kept)
    monkeypatch.setitem(sys.modules, "PIL", None)

    assert smaller.startswith("data:image/jpeg;base64,")
    assert len(smaller) < len(in_page(kept))
