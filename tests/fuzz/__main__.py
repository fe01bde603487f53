"""``python -m tests.fuzz NAME [--seconds N] [--seed N]``: let atheris look for bytes that bring a harness down.

What it learns is kept in build/fuzz and used the next time. Bytes that bring the harness down are written there too;
put them into tests/fuzz/found/NAME, so that every run of the tests tries them, and mend what they found.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

BUILD = Path(__file__).resolve().parent.parent.parent / "build" / "fuzz"
NAMES = ("survey", "rules", "quantity", "sentence", "spoilt-survey", "spoilt-rules")
LONGEST, LONGEST_RECIPE = 20_000, 2000
"""Bytes of one input, and of one that says how to spoil a file; longer ones are slow and find no more."""

MISSING = """atheris is not installed: pip install atheris
There are wheels for Linux on x86-64 and Python 3.11 to 3.13. Elsewhere `pytest tests/fuzz` does what it can without.
"""


def main(arguments: list[str]) -> int:
    options = argparse.ArgumentParser(prog="python -m tests.fuzz")
    options.add_argument("name", choices=NAMES)
    options.add_argument("--seconds", type=int, default=0, help="Stop after so many; 0 goes on until interrupted.")
    options.add_argument("--seed", type=int, default=0, help="To do the same again; 0 does something else each time.")
    wanted = options.parse_args(arguments)
    try:
        import atheris
    except ImportError:
        sys.stderr.write(MISSING)
        return 2
    with atheris.instrument_imports(include=["triage"]):
        from tests.fuzz.harnesses import HARNESSES, spoilt_harnesses
        from tests.fuzz.seeds import seeds, words
    kept, start, dictionary = (BUILD / wanted.name / part for part in ("kept", "start", "words"))
    _write(start, seeds(wanted.name))
    kept.mkdir(exist_ok=True)
    dictionary.write_text("".join(f'"{_escaped(word)}"\n' for word in words()), encoding="ascii")
    flags = [f"-dict={dictionary}", f"-artifact_prefix={start.parent}/", f"-max_total_time={wanted.seconds}"]
    flags += [f"-seed={wanted.seed}", "-timeout=20", "-rss_limit_mb=2048", "-print_final_stats=1"]
    flags += [f"-max_len={LONGEST_RECIPE}", "-len_control=0"] if "spoilt" in wanted.name else [f"-max_len={LONGEST}"]
    atheris.Setup([sys.argv[0], *flags, str(kept), str(start)], (HARNESSES | spoilt_harnesses())[wanted.name])
    atheris.Fuzz()  # ends the process
    return 0


def _write(folder: Path, texts: dict[str, bytes]) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for number, raw in enumerate(texts.values()):
        (folder / f"{number:04}").write_bytes(raw)


def _escaped(word: str) -> str:
    """As libFuzzer wants it in a dictionary."""
    return "".join(chr(c) if 32 < c < 127 and chr(c) not in '"\\' else f"\\x{c:02x}" for c in word.encode())


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
