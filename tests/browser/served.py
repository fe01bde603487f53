"""What browsers are pointed at: the program on this machine, and a web space that can be taken away."""

from __future__ import annotations

import functools
import http.server
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import uvicorn

if TYPE_CHECKING:
    from starlette.applications import Starlette


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


@contextmanager
def served(app: Starlette) -> Iterator[str]:
    """The address of the program while it is served."""
    server = uvicorn.Server(uvicorn.Config(app, port=0, log_level="warning"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}/"
    server.should_exit = True
    thread.join()
