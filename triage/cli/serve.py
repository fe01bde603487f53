"""``triage serve``: the program in a browser, on this machine or for the telephones on its network."""

from __future__ import annotations

import io
import os
import socket
import sys
import threading
from pathlib import Path
from typing import TYPE_CHECKING

import click

from triage.cli.printing import tell
from triage.errors import CannotWork
from triage.files import cannot

if TYPE_CHECKING:
    from starlette.applications import Starlette
    from starlette.middleware import Middleware

    from triage.app.sharing import Keys

PORT = 8017
HERE = "127.0.0.1"
NOWHERE = ("192.0.2.1", 9)
"""An address that nobody has, to ask the system by which of ours it would be reached; nothing is sent."""

WHITE_ON_BLACK, AS_BEFORE = "\033[97;40m", "\033[0m"


@click.command()
@click.option(
    "--file", type=click.Path(path_type=Path), help="Keep the boats in this file, not in your own folder for data."
)
@click.option("--port", type=click.IntRange(0, 65535), default=PORT, help=f"Use another port than {PORT}; 0: any.")
@click.option("--share", is_flag=True, help="Let telephones on the same network in, with a link or its code.")
@click.option("--browser/--no-browser", default=True, help="Do not open the browser.")
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)
def serve(file: Path | None, port: int, share: bool, browser: bool, rules: Path | None) -> None:
    """Use the program in a browser.

    Boats and their visits are kept in one file. Only this machine can reach it, unless you --share it: then it is told
    by a link, with a code to scan, and whoever has that and is on the same network can read and change all of it.
    Ctrl-C ends it.
    """
    from triage import load_knowledge
    from triage.app.application import create_app
    from triage.app.sharing import link, new_keys
    from triage.log.sqlite import SqliteBoats

    kb = load_knowledge(rules)
    boats = SqliteBoats(file or _own_file(), kb)
    host = _address_here() if share else HERE
    with _listening(host, port) as listening:
        address = f"http://{host}:{listening.getsockname()[1]}/"
        keys = new_keys() if share else None
        opens = link(address, keys.all) if keys else address
        _say_what_to_do(opens, boats.file, share=share)
        if browser:
            _open(opens)
        for_class = link(address, keys.learner) if keys else ""
        _run(create_app(kb, boats, guards=_guards(host, keys), class_link=for_class), listening)
    boats.close()
    tell(f"Ended. The boats are kept in {boats.file}.")


def _own_file() -> Path:
    import platformdirs

    try:
        return Path(platformdirs.user_data_dir("dinghy-triage", appauthor=False)) / "boats.sqlite"
    except RuntimeError:
        raise CannotWork("There is no folder of your own to keep boats in. Name a file with --file.") from None


def _listening(host: str, port: int) -> socket.socket:
    try:
        return socket.create_server((host, port))
    except OSError as error:
        if isinstance(error, PermissionError):
            raise CannotWork(f"Port {port} is only for the system. Name one above 1023 with --port.") from None
        if port:
            raise CannotWork(
                f"Port {port} is taken: perhaps the program runs already at http://{host}:{port}/. Open that, or name "
                "another with --port."
            ) from None
        raise cannot(f"Cannot be reached at {host}", error) from None


def _address_here() -> str:
    """The address of this machine on its network. Raises CannotWork."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(NOWHERE)
            address = str(asking.getsockname()[0])
        except OSError:
            address = ""
    if not address or address.startswith("127."):
        raise CannotWork("This machine is on no network, so nothing can be shared. Join one, or leave --share out.")
    return address


def _guards(host: str, keys: Keys | None) -> list[Middleware]:
    """What stands before the screens; without ``keys`` only this machine reaches them."""
    from starlette.middleware import Middleware as Guard

    from triage.app.sharing import Guests, Hosts

    hosts = Guard(Hosts, allowed={host, "localhost"} if host == HERE else {host})
    return [hosts, Guard(Guests, keys=keys)] if keys else [hosts]


def _say_what_to_do(link: str, file: Path, *, share: bool) -> None:
    if share:
        _show_code(link)
        tell(f"Scan the code with a telephone on the same network, or open {link}")
        tell("For a class: what it needs, and no boats, opens by the code on its own page, under “Practise on a case”.")
        tell(f"Whoever has the link above can read and change every boat in {file}. Ctrl-C ends it.")
    else:
        tell(f"Open {link} in a browser. Only this machine can.")
        tell(f"The boats are kept in {file}. Ctrl-C ends it.")


def _show_code(link: str) -> None:
    """The link as a code to scan, where the terminal has the blocks that it is drawn with."""
    import segno

    drawn = io.StringIO()
    segno.make(link, error="l", micro=False).terminal(drawn, border=2, compact=True)
    code = drawn.getvalue().rstrip()
    try:
        code.encode(sys.stdout.encoding or "ascii")
    except UnicodeEncodeError:
        return
    if sys.stdout.isatty():
        tell("\n".join(f"{WHITE_ON_BLACK}{line}{AS_BEFORE}" for line in code.splitlines()), coloured=True)
    else:
        tell(code)


def _open(link: str) -> None:
    """Have the browser open the link, unless one would have to do so in this very terminal."""
    import webbrowser

    if sys.platform in ("win32", "darwin") or os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"):
        threading.Thread(target=webbrowser.open, args=(link,), daemon=True).start()


def _run(app: Starlette, listening: socket.socket) -> None:
    """Answer until Ctrl-C."""
    import uvicorn

    _tell_mistakes()
    quiet = uvicorn.Config(
        app, log_config=None, access_log=False, ws="none", lifespan="off", server_header=False,
        timeout_graceful_shutdown=2,
    )  # fmt: skip
    try:
        uvicorn.Server(quiet).run(sockets=[listening])
    except KeyboardInterrupt:
        tell()


def _tell_mistakes() -> None:
    """Have what goes wrong while serving told in one sentence, as everywhere."""
    import logging

    from triage.cli.entry import our_mistake

    class Told(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            if record.exc_info and record.exc_info[1] is not None:
                tell(our_mistake(record.exc_info[1]), err=True)

    log = logging.getLogger("uvicorn")
    log.addHandler(Told(logging.ERROR))
    log.propagate = False
