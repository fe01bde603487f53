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
from triage.views.photos import KEPT_SIDE, SIDE, fit_to_keep, photos_of

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


def test_without_a_library_only_what_can_be_jpeg_is_kept(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    taken = (folder / "anchor.jpg").read_bytes()
    monkeypatch.setitem(sys.modules, "PIL.Image", None)

    assert taken == fit_to_keep(taken)
    for other in (b"", b"no picture", taken[:-2], taken[2:]):
        with pytest.raises(BadPhoto):
            fit_to_keep(other)
