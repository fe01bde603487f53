"""The command line on streams as a shell would hand them over, without starting another Python for each."""

from __future__ import annotations

import io
import sys
from typing import TextIO

import pytest

from triage.cli import main


def printer(encoding: str = "utf-8") -> io.TextIOWrapper:
    """A stream of this encoding that keeps what is printed."""
    return io.TextIOWrapper(io.BytesIO(), encoding=encoding)


def printed_bytes(stream: io.TextIOWrapper) -> bytes:
    """What a `printer` kept, as it would go out."""
    stream.flush()
    assert isinstance(stream.buffer, io.BytesIO)
    return stream.buffer.getvalue()


def printed_on(stream: io.TextIOWrapper) -> str:
    """What a `printer` kept, in the letters of its encoding."""
    return printed_bytes(stream).decode(stream.encoding)


def left_with(out: TextIO | None, err: TextIO | None, *arguments: str) -> int:
    """The code with which the command line leaves when it prints to these streams; None is one that is closed."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(sys, "stdout", out)
        patched.setattr(sys, "stderr", err)
        with pytest.raises(SystemExit) as left:
            main(list(arguments), "triage")
    assert isinstance(left.value.code, int)
    return left.value.code
