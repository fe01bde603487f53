"""Photos in a report: seen, small, upright, and silent about where they were taken."""

from __future__ import annotations

import base64
import io
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from triage.cli import main
from triage.views.photos import SIDE, photos_of

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
