"""The PDF: one page that answers, then the reasons; tagged, and made without fetching anything."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from tests.conftest import ROOT
from triage import assess_survey, read_survey
from triage.errors import CannotWork
from triage.knowledge.model import KnowledgeBase
from triage.views import pdf
from triage.views.report import render

pytestmark = pytest.mark.slow

EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))

MAKERS = {"weasyprint": pdf._weasyprint, "browser": pdf._browser}


def page(kb: KnowledgeBase, example: Path) -> str:
    return render(assess_survey(read_survey(example, kb), kb), "html")


@pytest.mark.parametrize("maker", MAKERS)
@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_the_answer_is_one_page_and_boat_and_reasons_follow(kb: KnowledgeBase, example: Path, maker: str) -> None:
    import pypdf

    make = MAKERS[maker]()
    assert make is not None, f"{maker} has to be here, or nobody sees that the PDF is broken"
    made = pypdf.PdfReader(io.BytesIO(make(page(kb, example))))
    first, second, third = (" ".join(made.pages[number].extract_text().split()) for number in range(3))

    assert "Sailing" in first
    assert "Towing" in first
    assert "licensed practice come first" in first
    assert "The boat" in second
    assert "Each in detail" in second + third
    assert {"/MarkInfo", "/StructTreeRoot", "/Lang"} <= set(made.root_object)


def test_nothing_outside_the_page_is_fetched(tmp_path: Path) -> None:
    import pypdf

    secret = tmp_path / "secret.txt"
    secret.write_text("hidden words", encoding="utf-8")
    hostile = f'<!doctype html><title>x</title><p>here</p><img src="{secret.as_uri()}"><iframe src="{secret.as_uri()}">'

    made = pypdf.PdfReader(io.BytesIO(pdf.as_pdf(hostile)))

    assert "here" in made.pages[0].extract_text()
    assert "hidden" not in made.pages[0].extract_text()


def test_without_a_maker_it_is_told_how_to_get_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf, "_weasyprint", lambda: None)
    monkeypatch.setattr(pdf, "_browser", lambda: None)

    with pytest.raises(CannotWork, match="print it to a file"):
        pdf.as_pdf("<p>x</p>")


def test_a_browser_that_has_no_name_to_call_it_by_is_found_where_it_lies(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    browser = tmp_path / "browser"
    browser.write_text('#!/bin/sh\nfor one; do case $one in --print*) echo made > "${one#*=}";; esac; done\n')
    browser.chmod(0o700)
    monkeypatch.setenv("PROGRAMS", str(tmp_path))
    monkeypatch.setattr(pdf, "BROWSERS", ())
    monkeypatch.setattr(pdf, "INSTALLED", ("$PROGRAMS/none", "$PROGRAMS/browser"))

    make = pdf._browser()

    assert make is not None
    assert b"made\n" == make("<p>x</p>")
