"""``triage`` and ``python -m triage``: where the command line is started."""

from __future__ import annotations

import sys


def run() -> None:
    """Run the command line; somebody who stops it while it is still being read gets no traceback either."""
    try:
        from triage.cli import main

        main(prog_name="triage")
    except KeyboardInterrupt:
        from triage.cli.codes import STOPPED

        sys.exit(STOPPED)


if __name__ == "__main__":
    run()
