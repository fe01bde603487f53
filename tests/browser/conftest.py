"""One real browser for all page tests, and the page for those that try it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.served import WebSpace, web_space
from triage.knowledge.model import KnowledgeBase
from triage.page.build import build_folder

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        yield driver.chromium.launch(executable_path="/usr/bin/chromium")


@pytest.fixture(scope="session")
def built(kb: KnowledgeBase, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page as a folder, with the runtime that the package clients bring."""
    folder = tmp_path_factory.mktemp("page")
    build_folder(kb, folder)
    return folder


@pytest.fixture
def space(built: Path) -> Iterator[WebSpace]:
    with web_space(built) as there:
        yield there


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    with browser.new_context(viewport={"width": 390, "height": 800}) as one:
        yield one
