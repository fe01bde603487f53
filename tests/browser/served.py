"""A web space on this machine, as plain as they come: it hands out files, and can be taken away."""

from __future__ import annotations

import functools
import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class _Files(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  # as the library calls it
        """Nobody reads it."""


class WebSpace:
    """The files of a folder at an address."""

    def __init__(self, folder: Path) -> None:
        self._server = http.server.ThreadingHTTPServer(
            ("127.0.0.1", 0), functools.partial(_Files, directory=str(folder))
        )
        self.address = f"http://127.0.0.1:{self._server.server_port}/"
        self._thread = threading.Thread(target=self._server.serve_forever, daemon=True)
        self._thread.start()

    def end(self) -> None:
        """Nothing answers at the address any more."""
        if self._thread.is_alive():
            self._server.shutdown()
            self._thread.join()
        self._server.server_close()


@contextmanager
def web_space(folder: Path) -> Iterator[WebSpace]:
    """One that is there for a while."""
    space = WebSpace(folder)
    try:
        yield space
    finally:
        space.end()
