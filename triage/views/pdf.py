"""A page as PDF, by whichever maker of PDF is there: WeasyPrint (the ``pdf`` extra), or a browser."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import NoReturn

from triage.drawing.self_contained import with_style
from triage.errors import CannotWork

BROWSERS = ("chromium", "chromium-browser", "google-chrome", "chrome", "msedge")
"""As they are called where they can be called by name."""

INSTALLED = (
    r"%ProgramFiles%\Google\Chrome\Application\chrome.exe",
    r"%ProgramFiles(x86)%\Microsoft\Edge\Application\msedge.exe",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
)
"""Where they lie on Windows and on a Mac, which know no name for them."""

SECONDS = 120
"""As long as a browser may take."""

NO_MAKER = (
    "Cannot make a PDF: nothing here can. Install one with pip install 'dinghy-triage[pdf]', or write the report "
    "with -o report.html, open it in a browser and print it to a file."
)


def as_pdf(page: str) -> bytes:
    """A tagged PDF of a page that stands by itself: nothing is fetched for it. Raises CannotWork without a maker."""
    for maker in (_weasyprint, _browser):
        make = maker()
        if make is not None:
            return make(page)
    raise CannotWork(NO_MAKER)


def _weasyprint() -> Callable[[str], bytes] | None:
    try:
        import weasyprint
    except (ImportError, OSError):  # OSError: the library is there, and what it draws with is not
        return None

    class FetchNothing(weasyprint.urls.URLFetcher):  # type: ignore[misc]  # the library has no types
        """A report holds all that it shows; whatever else a page asks for is left out."""

        def fetch(self, url: str, headers: object = None) -> NoReturn:  # noqa: ARG002  # the library calls it so
            raise ValueError(f"a report fetches nothing: {url}")

    def make(page: str) -> bytes:
        made: bytes = weasyprint.HTML(string=with_style(page), url_fetcher=FetchNothing()).write_pdf(
            pdf_variant="pdf/ua-1"
        )
        return made

    return make


def _browser() -> Callable[[str], bytes] | None:
    found = next(filter(None, map(shutil.which, (*BROWSERS, *map(os.path.expandvars, INSTALLED)))), None)
    if found is None:
        return None

    def make(page: str) -> bytes:
        with tempfile.TemporaryDirectory() as folder:
            source, target = Path(folder, "report.html"), Path(folder, "report.pdf")
            source.write_text(page, encoding="utf-8")
            _print(found, source, target)
            return target.read_bytes()

    return make


def _print(browser: str, source: Path, target: Path) -> None:
    root = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    command = [browser, "--headless", *root, "--no-pdf-header-footer", f"--print-to-pdf={target}", source.as_uri()]
    try:
        subprocess.run(command, check=True, timeout=SECONDS, capture_output=True)
    except (OSError, subprocess.SubprocessError) as error:
        raise CannotWork(f"Cannot make a PDF: {browser} did not print the page ({error}). {NO_MAKER}") from None
    if not target.is_file():
        raise CannotWork(f"Cannot make a PDF: {browser} printed nothing. {NO_MAKER}")
