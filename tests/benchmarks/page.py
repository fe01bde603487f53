"""How quick the page on a phone is: ``python -m tests.benchmarks.page``.

It is built and driven in Chromium as it is, and once more with its process held still for three quarters of the time,
which stands for a cheap telephone. Times are medians; nothing here is a test.
"""

from __future__ import annotations

import os
import signal
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from tests.browser.served import web_space
from tests.conftest import ROOT
from triage.knowledge.store.load import load_knowledge
from triage.page.build import build_folder, gzipped

if TYPE_CHECKING:
    from playwright.sync_api import Page

TURNS, ANSWERS = 3, 5
UNTIL_WARM = 60
"""Seconds until everything is made ready, on any machine."""

RUN = 0.005
"""Seconds between two times of being held still."""

STORY = "Crack by the bolt that holds the mast wire on port, about an inch."
BUDGET = {
    "first question, s": (2, 6),
    "next answer, ms": (100, 300),
    "report, ms": (200, 600),
}
ASK = """async ([method, address, kind, body]) => {
  const begun = performance.now();
  const got = await window.page.ask({ method, address, kind, body: new TextEncoder().encode(body) });
  return [performance.now() - begun, got.address];
}"""


def measured(folder: Path, slower: int) -> dict[str, float]:
    """One visit, from opening the page to the report."""
    from playwright.sync_api import sync_playwright

    with web_space(folder) as space, sync_playwright() as driver, tempfile.TemporaryDirectory() as profile:
        context = driver.chromium.launch_persistent_context(profile, executable_path="/usr/bin/chromium")
        page = context.pages[0]
        page.set_default_timeout(300_000)
        with held_still(Path(profile), slower):
            begun = time.perf_counter()
            page.goto(space.address)
            page.fill("textarea", STORY)
            page.click("form.start button.main")
            page.wait_for_selector("html[data-address^=visit]")
            first = time.perf_counter() - begun
            answers, reports = list(_answers(page)), list(_reports(page))
        context.close()
    return {
        "first question, s": first,
        "next answer, ms": statistics.median(answers),
        "report, ms": statistics.median(reports),
    }


def _answers(page: Page) -> Iterator[float]:
    """Answering with the first choice, until there is none."""
    for _ in range(ANSWERS):
        form = page.locator("main form:has(button)").first
        shown = int(page.get_attribute("html", "data-shown") or 0)
        begun = time.perf_counter()
        form.locator("button").first.click()
        page.wait_for_selector(f'html[data-shown="{shown + 1}"]')
        yield (time.perf_counter() - begun) * 1e3


def _reports(page: Page) -> Iterator[float]:
    """The report of the boat with many marks, again and again."""
    survey = (ROOT / "examples/club-boat.yaml").read_text(encoding="utf-8")
    body = f'--x\r\ncontent-disposition: form-data; name="file"; filename="a.yaml"\r\n\r\n{survey}\r\n--x--\r\n'
    _, visit = page.evaluate(ASK, ["POST", "open", "multipart/form-data; boundary=x", body])
    for _ in range(TURNS):
        yield page.evaluate(ASK, ["GET", f"{visit}report.html", "", ""])[0]


@contextmanager
def held_still(profile: Path, slower: int) -> Iterator[None]:
    """Have what shows the pages run for one part in so many of the time."""
    over = threading.Event()

    def hold() -> None:
        while not over.is_set():
            ours = renderers(profile)
            for _ in range(20):
                for kind, pause in ((signal.SIGSTOP, RUN * (slower - 1)), (signal.SIGCONT, RUN)):
                    for process in ours:
                        _send(process, kind)
                    time.sleep(pause)

    holding = threading.Thread(target=hold)
    if slower > 1:
        holding.start()
    try:
        yield
    finally:
        over.set()
        if slower > 1:
            holding.join()


def renderers(profile: Path) -> list[int]:
    """The processes of the browser with this profile that show pages."""
    parents = {int(one.name): _told(one) for one in Path("/proc").iterdir() if one.name.isdigit()}
    ours = {number for number, (_, said) in parents.items() if str(profile).encode() in said}

    def is_ours(number: int) -> bool:
        while number > 1 and number not in ours:
            number = parents.get(number, (0, b""))[0]
        return number > 1

    return [number for number, (_, said) in parents.items() if b"--type=renderer" in said and is_ours(number)]


def _told(process: Path) -> tuple[int, bytes]:
    """Whose child a process is, and how it was called."""
    try:
        return int((process / "stat").read_text().rpartition(")")[2].split()[1]), (process / "cmdline").read_bytes()
    except (OSError, ValueError):
        return 0, b""


def _send(process: int, kind: signal.Signals) -> None:
    try:
        os.kill(process, kind)
    except ProcessLookupError:
        return


def memory(folder: Path) -> float:
    """Megabytes that the tab has for itself once the next screens are made ready, which tells a story as people do.

    Nobody looks into this browser: for whoever does, it keeps a second one of everything that was fetched.
    """
    with web_space(folder) as space, tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        command = ["/usr/bin/chromium", "--headless=new", "--no-sandbox", f"--user-data-dir={profile}", space.address]
        browser = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        try:
            time.sleep(UNTIL_WARM)
            return max(map(_own, renderers(Path(profile))))  # the tab; the others are the browser's own
        finally:
            browser.terminate()
            browser.wait()


def _own(process: int) -> float:
    """Megabytes; the browser's program is not among them, which all tabs share."""
    lines = Path(f"/proc/{process}/status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("RssAnon:")) / 1e3


def main() -> None:
    """Print the table."""

    def say(line: str) -> None:
        sys.stdout.write(f"{line}\n")

    with tempfile.TemporaryDirectory() as there:
        files = build_folder(load_knowledge(), Path(there))
        rows = {slower: [measured(Path(there), slower) for _ in range(TURNS)] for slower in (1, 4)}
        tab = statistics.median(memory(Path(there)) for _ in range(TURNS))
    say("| on a phone | as it is | at most | 4 × slower | at most |")
    say("|---|--:|--:|--:|--:|")
    for name, (most, most_slow) in BUDGET.items():
        here, slow = (statistics.median(turn[name] for turn in rows[slower]) for slower in (1, 4))
        say(f"| {name} | {here:.1f} | {most} | {slow:.1f} | {most_slow} |")
    say(f"| the tab's own memory, MB | {tab:.0f} | 180 | | |")
    say(f"| files packed, MB | {gzipped(files) / 1e6:.1f} | 10 | | |")


if __name__ == "__main__":
    main()
