"""Each harness on every seed, and on seeds after something went wrong with their letters."""

from __future__ import annotations

import importlib.util
import subprocess
import sys
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.bounded import SECONDS
from tests.conftest import ROOT
from tests.fuzz.__main__ import MISSING, NAMES, main
from tests.fuzz.harnesses import HARNESSES, spoilt_harnesses
from tests.fuzz.seeds import FOUND, seeds, words

WORDS = words()


@pytest.mark.parametrize("name", HARNESSES)
def test_every_seed_is_understood_or_its_problems_are_told(name: str) -> None:
    assert len(seeds(name)) > 40
    for seed, raw in seeds(name).items():
        began = time.process_time()
        try:
            HARNESSES[name](raw)
        except Exception as error:
            raise AssertionError(f"{name} is brought down by {seed}") from error
        assert time.process_time() - began < SECONDS, seed


@pytest.mark.parametrize("name", HARNESSES)
@settings(max_examples=40)
@given(data=st.data())
def test_so_is_every_seed_after_something_went_wrong_with_it(name: str, data: st.DataObject) -> None:
    raw = data.draw(st.sampled_from(list(seeds(name).values())))
    for _ in range(data.draw(st.integers(1, 6))):
        start, length = data.draw(st.integers(0, len(raw))), data.draw(st.integers(0, 12))
        put = data.draw(st.one_of(st.binary(max_size=4), st.sampled_from(WORDS).map(str.encode), st.just(raw[:200])))
        raw = raw[:start] + put + raw[start + length :]

    HARNESSES[name](raw)


def test_what_was_found_is_found_by_the_harnesses_there_are() -> None:
    assert {folder.name for folder in FOUND.iterdir()} <= HARNESSES.keys()
    assert set(NAMES) == HARNESSES.keys() | spoilt_harnesses().keys()


def test_the_bytes_that_say_how_to_spoil_a_file_are_listened_to() -> None:
    for feed in spoilt_harnesses().values():
        for raw in (b"", b"\x01\x02\x03" * 50, bytes(range(256)) * 4):
            feed(raw)


def test_without_atheris_it_is_told_what_to_install(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "atheris", None)

    assert 2 == main(["quantity"])
    assert MISSING == capsys.readouterr().err


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_atheris_finds_nothing_in_a_few_seconds_where_it_can_be_had(name: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.fuzz", name, "--seconds", "3", "--seed", "1"],
        cwd=ROOT,
        capture_output=True,
        text=True,
    )

    if importlib.util.find_spec("atheris"):
        assert 0 == done.returncode, done.stderr[-3000:]
        assert "stat::number_of_executed_units" in done.stderr
    else:
        assert (2, MISSING) == (done.returncode, done.stderr)
