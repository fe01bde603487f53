"""What the page on a phone says by itself, when no screen can."""

from __future__ import annotations

NAME = "Dinghy triage"
SHORT_NAME = "Triage"

WORDS = {
    "starting": "One moment, the program is starting. What you wrote is kept and will be answered.",
    "first_time": "One moment. The first time, the whole program comes over the network, which may take a minute or "
    "two. What you wrote is kept and will be answered.",
    "no_start": "The program does not start in this browser. Load the page again, or try another browser.",
    "keeps_nothing": "This browser keeps nothing. Save the survey as a file before you close the page.",
    "not_kept": "That could not be kept, and nothing was changed. Send it again.",
    "again": "The program broke down and was started again. What you had answered is kept.",
    "back": "Back",
    "share": "Share",
    "keep_file": "Keep as a file",
}


def written(where: str, files: int, megabytes: float, gzipped: float) -> str:
    return f"{where}: {counted_files(files)}, {megabytes:.1f} MB, {gzipped:.1f} MB when a web space packs them."


def counted_files(files: int) -> str:
    return "1 file" if files == 1 else f"{files} files"


LICENCES = """What this page is made of beside the program itself, and on what terms.

Python, its library (PSF licence) and Pyodide (MPL-2.0), unchanged, as {package} of the npm registry; their sources are
named there. experta (LGPL-3.0) lies beside this file with its sources, as {experta}: whoever changes it may build the
page again with the changed one. The others are used under the licences that follow.
"""
