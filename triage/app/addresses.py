"""Every path of the screens, below wherever the program lives: nothing begins with a stroke.

Paths are written into pages after the way up to the program's own folder (`up`), so that it may live below any.
"""

from __future__ import annotations

import re
from urllib.parse import quote

START = ""
NEW = "new"
BOATS = "boats"
COMMON = "boats/common"
OPEN = "open"
DUE = "due.ics"
LOOK = "look"
TEACH = "teach"


def look(name: str) -> str:
    """A style sheet, a script or the icon."""
    return f"{LOOK}/{quote(name)}"


def visit(visit_id: str, what: str = "") -> str:
    """A screen of a visit: what is asked now, or ``what`` (say, choose, do, answer, boat, walk, again …)."""
    return f"visit/{quote(visit_id, safe='')}/{what}"


def photo(visit_id: str, name: str) -> str:
    """A photograph of a visit."""
    return visit(visit_id, f"photos/{quote(name, safe='')}")


def run(run_id: str, what: str = "") -> str:
    """A screen of a learner's run: where it is now, or ``what`` (answer, check, more, next)."""
    return f"{TEACH}/run/{quote(run_id, safe='')}/{what}"


def classroom(code: str, what: str = "") -> str:
    """What a trainer sees of a class, or ``what`` of it (results.json, remove)."""
    return f"{TEACH}/class/{quote(code, safe='')}/{what}"


def printed(name: str) -> str:
    """A page to print or to project: of a lesson, the cards, a quiz, the sheet of points."""
    return f"{TEACH}/{quote(name, safe='')}.html"


_LEARNERS = re.compile(rf"/{TEACH}(/begin|/run/.+|/class/[^/]+/)?")


def for_learners(path: str) -> bool:
    """Whether somebody who learns needs this screen; what is new is for trainers until it is said here."""
    return bool(_LEARNERS.fullmatch(path))


def up(path: str) -> str:
    """The way from the screen at this path, as the program sees it, to the program's own folder."""
    return "../" * (path.count("/") - 1) or "./"
