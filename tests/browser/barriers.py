"""What axe finds that would keep somebody out of a page.

The browser and its libraries are imported where they are used: the quick tests collect these modules without them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Page


def barriers(page: Page) -> list[tuple[str, str, list[str]]]:
    """Each barrier on a page: its rule, what to do about it, and the first elements that it was found in."""
    from axe_playwright_python.sync_playwright import Axe

    violations = Axe().run(page).response["violations"]
    return [(one["id"], one["help"], [node["html"][:120] for node in one["nodes"][:3]]) for one in violations]
