"""How long a fresh program takes until the knowledge is there and each engine has judged once: read, and remembered.

Run with ``python -m tests.benchmarks.start``. Figures are for comparing with each other in one run.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile

from tests.conftest import ROOT

RUNS = 5
START = """
import time
begun = time.process_time()
from triage.inference.evaluate import evaluate
from triage.inference.forward import forward
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Boat, Finding
kb = load_knowledge()
mark = [Finding("mark", "stem", "edge_chip")]
evaluate(kb, Boat("Wagtail"), mark)
forward(kb, Boat("Wagtail"), mark)
print(time.process_time() - begun)
"""


def seconds(cache: str) -> float:
    """Processor time of the quickest of several starts."""
    environment = {**os.environ, "TRIAGE_CACHE_DIR": cache}
    command = [sys.executable, "-c", START]
    runs = (
        subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=True)
        for _ in range(RUNS)
    )
    return min(float(done.stdout) for done in runs)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        read, remembered = seconds(""), seconds(folder)
    sys.stdout.write(f"read {read:.2f} s, remembered {remembered:.2f} s, {read / remembered:.1f} times as quick\n")
