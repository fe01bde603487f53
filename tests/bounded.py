"""A bound on what reading a few kilobytes may take, in processor time and memory: some fifty times what it takes."""

from __future__ import annotations

import time
import tracemalloc
from collections.abc import Iterator
from contextlib import contextmanager

SECONDS, BYTES = 5.0, 200_000_000


@contextmanager
def bounded(seconds: float = SECONDS) -> Iterator[None]:
    """Fails when what is done inside takes too long or too much memory."""
    tracemalloc.start()
    began = time.process_time()
    try:
        yield
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert time.process_time() - began < seconds
    assert peak < BYTES
