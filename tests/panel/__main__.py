"""How the program does by the panel: ``python -m tests.panel``. Figures are reported; two of them are tests too."""

from __future__ import annotations

import argparse
import sys

from tests.conftest import ROOT
from tests.panel.answers import answer
from tests.panel.cases import SETS, cases
from tests.panel.figures import figures, misses
from tests.panel.judging import judge
from triage.knowledge.store.load import load_knowledge


def main() -> None:
    """Print the figures of the sets asked for, and with ``--list`` every case on which the two differ."""
    asked = argparse.ArgumentParser(prog="python -m tests.panel", description=(__doc__ or "").partition(":")[0])
    for which in SETS:
        asked.add_argument(f"--{which}", action="store_true", help=f"only the {which} (without a choice: all of them)")
    asked.add_argument("--list", action="store_true", help="each miss: what was told, what is said by both")
    options = asked.parse_args()
    kb = load_knowledge(ROOT / "rules")
    for which in [one for one in SETS if getattr(options, one)] or SETS:
        judged = [judge(case, answer(kb, case)) for case in cases(which)]
        for line in (*figures(which, judged), *(misses(judged) if options.list else ())):
            sys.stdout.write(f"{line}\n")


if __name__ == "__main__":
    main()
