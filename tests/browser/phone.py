"""The page in somebody's hand."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

STORY = "Crack by the bolt that holds the mast wire on port, about an inch."
PATIENCE = 120_000
"""Milliseconds, for a machine that does other things too; how long it takes is measured in tests/benchmarks."""


@dataclass
class Phone:
    """A page in somebody's hand, and what its console says."""

    page: Page
    said: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.page.set_default_timeout(PATIENCE)
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda error: self.said.append(str(error)))

    def tells(self, story: str) -> str:
        """Tell what was found; where that led to."""
        self.page.fill("textarea", story)
        self.page.click("form.start button.main")
        self.page.wait_for_selector("html[data-address^=visit]")
        return self.page.get_attribute("html", "data-address") or ""

    def chooses_first(self) -> None:
        """Take the first choice, and wait for what comes of it."""
        self.until_shown(self.page.locator("main form button").first.click)

    def is_ready(self, of: str = "python") -> None:
        self.page.wait_for_selector(f"html[data-{of}=ready]")

    def until_shown(self, act: Callable[[], object]) -> None:
        """Do it, and wait until another screen stands and nothing is under way."""
        before = self.page.get_attribute("html", "data-shown") or ""
        act()
        self.page.wait_for_selector(f'html[data-shown]:not([data-shown="{before}"]):not([aria-busy])')

    def opens(self, address: str) -> None:
        """As if nothing had been open: where only what follows the stroke differs, a browser would not open anew."""
        self.page.goto("about:blank")
        self.page.goto(address)
