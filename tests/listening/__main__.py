"""What the listener takes from sentences and whole stories: worked towards, and only counted, apart.

python -m tests.listening [stories voices …]
"""

from __future__ import annotations

import sys

from tests.conftest import ROOT
from tests.listening.scoring import COUNTING, ONLY_COUNTED, WORKED_TOWARDS, written
from triage.knowledge.store.load import load_knowledge

if __name__ == "__main__":
    kb = load_knowledge(ROOT / "rules")
    for name in sys.argv[1:] or COUNTING:
        keys = written(name)
        columns = [COUNTING[name](kb, keys.get(which, ())) for which in (WORKED_TOWARDS, ONLY_COUNTED)]
        print(f"{name:30}{'worked towards':>16}{'only counted':>16}")  # noqa: T201
        for what in dict.fromkeys(what for column in columns for what in column):
            print(f"  {what:28}{columns[0][what]:>16}{columns[1][what]:>16}")  # noqa: T201
    sys.exit(0)
