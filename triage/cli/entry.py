"""The one door of the command line: whatever goes wrong behind it becomes a plain sentence and an exit code."""

from __future__ import annotations

import sys
import traceback
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import click

from triage.cli.codes import BAD_INPUT, COULD_NOT_WORK, SETTLED_AND_FIT, STOPPED
from triage.cli.printing import flush, give_up, prepare_streams, tell
from triage.errors import BadInput, TriageError
from triage.files import cannot
from triage.version import __version__

T = TypeVar("T")
_PACKAGE = Path(__file__).resolve().parents[1]


class Entry(click.Group):
    """A group of commands of which none ends with a traceback, unless Python runs in its development mode."""

    def main(self, args: Sequence[str] | None = None, prog_name: str | None = None, **extra: Any) -> Any:  # type: ignore[override]
        """Run, and leave with an exit code (see `codes`). Always raises SystemExit."""
        prepare_streams()
        try:
            code = super().main(args, prog_name, **{**extra, "standalone_mode": False})
            flush()
        except SystemExit as leaving:
            raise SystemExit(_leave(leaving)) from None
        except BaseException as error:  # this is the last door
            if sys.flags.dev_mode and isinstance(error, Exception) and not _is_told(error):
                raise
            raise SystemExit(_tell(error)) from None
        raise SystemExit(code if isinstance(code, int) else SETTLED_AND_FIT)

    def make_context(self, *args: Any, **extra: Any) -> click.Context:
        """As click has it, except that it does not hear of a broken pipe, of which it would make an exit code."""
        return _unheard(lambda: super(Entry, self).make_context(*args, **extra))

    def invoke(self, ctx: click.Context) -> Any:
        """As click has it, with the same exception."""
        return _unheard(lambda: super(Entry, self).invoke(ctx))


class _Refused(Exception):
    """The system refused something, in a form that click lets pass."""

    def __init__(self, error: OSError) -> None:
        self.error = error


def _unheard(run: Callable[[], T]) -> T:
    try:
        return run()
    except OSError as error:
        raise _Refused(error) from error


def _leave(leaving: SystemExit) -> int | str | None:
    """The code that a command left with, unless what it printed does not arrive."""
    try:
        flush()
    except OSError as error:
        return _tell(error)
    return leaving.code


def _is_told(error: BaseException) -> bool:
    return isinstance(error, (TriageError, click.ClickException, click.exceptions.Abort, OSError, _Refused))


def _tell(error: BaseException) -> int:
    """Say what went wrong, if anybody hears it; the exit code."""
    if isinstance(error, _Refused):
        error = error.error
    code, said = _code_and_words(error)
    try:
        flush()
    except OSError:
        give_up(sys.stdout)
    try:
        if said and sys.stderr is not None:
            tell(said, err=True)
        flush()
    except (OSError, ValueError):
        give_up(sys.stderr)
    return code


def _code_and_words(error: BaseException) -> tuple[int, str]:
    match error:
        case BadInput():
            return BAD_INPUT, str(error)
        case TriageError():
            return COULD_NOT_WORK, str(error)
        case click.UsageError():
            return BAD_INPUT, _usage(error)
        case click.ClickException():
            return COULD_NOT_WORK, error.format_message()
        case click.exceptions.Abort() | KeyboardInterrupt():
            return STOPPED, "Stopped."
        case BrokenPipeError():
            return COULD_NOT_WORK, ""
        case MemoryError():
            return COULD_NOT_WORK, "There is not enough memory for this. Close other programs, or give it less at once."
        case OSError():
            return COULD_NOT_WORK, str(cannot(f"Cannot use {error.filename or 'the output'}", error))
        case _:
            return COULD_NOT_WORK, our_mistake(error)


def _usage(error: click.UsageError) -> str:
    if error.ctx is None:
        return f"Error: {error.format_message()}"
    hint = f"Try '{error.ctx.command_path} --help' for help."
    return f"{error.ctx.get_usage()}\n{hint}\n\nError: {error.format_message()}"


def our_mistake(error: BaseException) -> str:
    """One sentence: that it is our mistake, and what to send so that it can be mended."""
    frames = [
        frame for frame in traceback.extract_tb(error.__traceback__) if Path(frame.filename).is_relative_to(_PACKAGE)
    ]
    where = f" at {Path(frames[-1].filename).relative_to(_PACKAGE).as_posix()}:{frames[-1].lineno}" if frames else ""
    running = f"triage {__version__}, Python {sys.version.split()[0]}, {sys.platform}"
    said = " ".join(str(error).split())[:200]
    return (
        "This is a mistake of ours and not of yours; so that it can be mended, please send the command, the files that "
        f"you gave it, and this line: {type(error).__name__}{where}: {said or 'nothing more is known'} ({running})."
    )
