"""``triage ask`` as a person meets it: in words, one question at a time, with nothing lost."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pexpect
import pytest
from click.testing import CliRunner, Result

from tests.conftest import ROOT
from triage.cli import main
from triage.cli.kept import DEFAULT
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Survey
from triage.survey.read import read_survey

MAST_WIRES = "crack where the mast wires bolt on, about an inch"
YES, PORT = "1", "1"

Talk = Callable[..., Result]


@pytest.fixture
def talk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Talk:
    """Run ``triage ask`` in an empty folder: what was said on the command line, then line by line what was typed."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TRIAGE_RULES_DIR", str(ROOT / "rules"))

    def run(said: str, *typed: str, options: tuple[str, ...] = ()) -> Result:
        return CliRunner().invoke(main, ["ask", *options, *([said] if said else [])], input="\n".join((*typed, "")))

    return run


def kept(kb: KnowledgeBase, file: Path = DEFAULT) -> Survey:
    return read_survey(file, kb)


def in_one_line(text: str) -> str:
    return " ".join(text.split())


def test_the_first_journey_step_by_step(talk: Talk, kb: KnowledgeBase) -> None:
    """An owner's spring check on the drive: from plain words to a plain no, a note to send, and nothing lost."""
    # 1. The words are understood, shown back with the alternatives, and a question follows with how to do it.
    first = talk(MAST_WIRES, YES, PORT, "still", "can't reach under there", "stays shut", "quit")
    told = in_one_line(first.output)

    assert 0 == first.exit_code, first.output
    assert "Place Shroud anchor on deck. The metal plate or eye at each side" in told
    assert "Mark Cracks from a fitting." in told
    assert "an inch, taken as 25.4 mm" in told
    assert "no, it is another place" in told

    # 2. One question at a time, each with how to do it: reach beneath with a mirror or a phone.
    assert "Does the fitting move against the boat" in told
    assert "a mirror, or a phone on a stick" in told

    # 3. "Can't reach" is no answer: it cannot be told yet, from monitor to structural, and she stays ashore till then.
    assert "Noted: could not tell. It is not asked again." in told
    assert "Can't tell yet: between monitor and structural." in told
    assert "Until it can be told, she stays ashore." in told
    assert "Everything is kept in survey.yaml" in told

    # ... and when no other question can settle it, the deciding test is named.
    second = talk("", YES, "rings", "all firm", "quit")
    told = in_one_line(second.output)

    assert "What decides it is the check “Mirror behind the fitting”" in told

    # 4. An hour later nothing has to be said again: there is a photograph, with cracks beside the plate, below.
    photo = "got a photo, cracks under the deck below the shroud plate"
    third = talk("", YES, photo, YES, PORT, "finish")
    told = in_one_line(third.output)
    survey = kept(kb)

    assert "My boat, so far:" in told
    assert ["chainplate", "chainplate_under"] == sorted(finding.zone for finding in survey.findings)
    assert "Structural" in told
    assert "a repairer has to mend it" in told or "repairer" in told

    # 5. A plain no, and why, in one sentence.
    fourth = talk("", YES, "can I go out in light wind?", "quit")
    (answered,) = re.findall(r"No: she stays ashore, because [^.]+\.", in_one_line(fourth.output))

    assert answered.count(".") == 1

    # 6. Something to send: the report in the terminal, and the file from which a page is made.
    assert "Shroud anchor on deck, port" in told
    assert "triage assess survey.yaml -o report.html" in told
    assert 1 == CliRunner().invoke(main, ["assess", "survey.yaml", "-o", "report.html"]).exit_code
    assert "Shroud anchor on deck" in Path("report.html").read_text(encoding="utf-8")


def test_it_ends_in_the_same_report_as_assess(talk: Talk) -> None:
    result = talk(MAST_WIRES, YES, PORT, "finish")
    report = CliRunner().invoke(main, ["assess", str(DEFAULT)]).stdout

    assert report.strip() in result.output


def test_a_harmless_mark_takes_one_answer(talk: Talk) -> None:
    result = talk("three cracks side by side on the side deck", YES, PORT, "1", "1")

    assert "Now cosmetic; before, still between cosmetic and structural." in in_one_line(result.output)
    assert "COSMETIC" in result.output.upper()


def test_answers_may_be_numbers_names_or_measurements(talk: Talk, kb: KnowledgeBase) -> None:
    talk(MAST_WIRES, YES, PORT, "0.3 mm", "4", "finish")
    readings = kept(kb).findings[0].readings

    assert ("0.3 mm", (0.3, 0.3), 1) == (
        readings["fitting_play"].said,
        readings["fitting_play"].measured,
        readings["fitting_play"].high,
    )


def test_an_answer_that_is_none_is_asked_back(talk: Talk) -> None:
    told = in_one_line(talk(MAST_WIRES, YES, PORT, "wobbly-ish", "9", "quit").output)

    assert 'cannot be "wobbly-ish". Answer with 0 = still; 1 = felt not seen' in told
    assert told.count("Does the fitting move against the boat") == 1


def test_why_and_how_are_told_whenever_asked(talk: Talk) -> None:
    told = in_one_line(talk(MAST_WIRES, YES, PORT, "why", "how", "quit").output)

    assert "one of the checks that must not be left out" in told
    assert "If the fitting moves more than 1.5 mm, lifts or squirts water: structural." in told
    assert 2 == told.count("Put one hand on the fitting")


def test_somebody_who_knows_how_is_not_told(talk: Talk) -> None:
    told = in_one_line(talk(MAST_WIRES, YES, PORT, "quit", options=("--brief",)).output)

    assert "Does the fitting move" in told
    assert "Put one hand on the fitting" not in told


def test_back_takes_one_answer_back_and_then_the_mark(talk: Talk, kb: KnowledgeBase) -> None:
    result = talk(MAST_WIRES, YES, PORT, "still", "back", "quit")
    once = kept(kb)
    talk("", YES, "back", "quit")

    assert "The last answer is taken back." in result.output
    assert {"crack_length"} == set(once.findings[0].readings)
    assert 2 == result.output.count("Does the fitting move against the boat")
    assert once == kept(kb)  # a conversation taken up again has nothing to take back


def test_an_earlier_answer_can_be_changed_and_any_other_given(talk: Talk, kb: KnowledgeBase) -> None:
    listed = talk(MAST_WIRES, YES, PORT, "still", "other", "quit").output
    number = next(line.split()[0] for line in listed.splitlines() if "Movement of the fitting" in line)
    assert "(answered: still)" in listed

    talk("", YES, "other", number, "lifts or knocks", "quit")

    assert 3 == kept(kb).findings[0].readings["fitting_play"].high


def test_one_may_change_ones_mind_in_the_middle_of_anything(talk: Talk, kb: KnowledgeBase) -> None:
    result = talk(MAST_WIRES, "back", "new", MAST_WIRES, "2", "new", MAST_WIRES, YES, PORT, "other", "back", "finish")

    assert 0 == result.exit_code, result.output
    assert () == kept(kb).findings
    assert "Nothing was answered yet" in result.output or "Everything is kept" in result.output


def test_where_nothing_stands_out_candidates_with_pictures_are_offered_and_any_place_can_be_reached(
    talk: Talk, kb: KnowledgeBase
) -> None:
    result = talk("crack", "list", "3", "4", "2", "1", "quit")
    told = in_one_line(result.output)

    assert "Which place is it? Give its number, say it in other words, or “list” to go round the boat." in told
    assert "Where is it?" in told
    assert "side_deck" == kept(kb).findings[0].zone


def test_what_was_misunderstood_is_put_right(talk: Talk, kb: KnowledgeBase) -> None:
    talk("dent in the foredeck", "2", "the bottom of the hull", "1", "3", "1", YES, "3", "quit")

    (finding,) = kept(kb).findings
    assert "bottom" == finding.zone
    assert "dent" != finding.sign


def test_an_interrupted_conversation_is_kept(talk: Talk, kb: KnowledgeBase) -> None:
    result = talk(MAST_WIRES, YES, PORT, "still")  # and then the line goes dead

    assert 1 == result.exit_code
    assert "Everything is kept in survey.yaml" in result.output
    assert 0 == kept(kb).findings[0].readings["fitting_play"].high


def test_a_file_of_ones_own_keeps_the_boat_by_name(talk: Talk, kb: KnowledgeBase) -> None:
    options = ("--file", "wagtail.yaml", "--boat", "Wagtail")

    talk(MAST_WIRES, YES, PORT, "quit", options=options)
    talk("scratches on the port topside", YES, "quit", options=("--file", "wagtail.yaml"))

    assert ["chainplate", "topside"] == sorted(one.zone for one in kept(kb, Path("wagtail.yaml")).findings)
    assert "Wagtail" == kept(kb, Path("wagtail.yaml")).boat.name
    assert not DEFAULT.exists()


def test_a_file_that_holds_something_else_is_never_overwritten(talk: Talk) -> None:
    DEFAULT.write_text("shopping: [bread, gelcoat]\n", encoding="utf-8")

    named = talk(MAST_WIRES, options=("--file", str(DEFAULT)))
    unnamed = talk(MAST_WIRES, YES, PORT, "quit")

    assert 2 == named.exit_code
    assert 'unknown word "shopping"' in named.output
    assert "survey-2.yaml" in unnamed.output
    assert "shopping: [bread, gelcoat]\n" == DEFAULT.read_text(encoding="utf-8")


def test_a_new_survey_beside_an_old_one_gets_a_name_of_its_own(talk: Talk) -> None:
    talk(MAST_WIRES, YES, PORT, "quit")

    talk("scratches on the port topside", "2", YES, "quit")

    assert Path("survey-2.yaml").exists()


def test_leaving_before_anything_was_said_keeps_nothing(talk: Talk) -> None:
    result = talk("", "quit")

    assert 0 == result.exit_code
    assert "nothing is kept" in result.output
    assert [] == list(Path.cwd().iterdir())


def test_it_reads_on_eighty_columns_without_colour_or_moving_the_cursor(talk: Talk) -> None:
    result = talk(MAST_WIRES, YES, PORT, "help", "why", "how", "skip", "skip", "skip", "other", "1", "1", "finish")

    assert max(map(len, result.output.splitlines())) <= 80
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f]", result.output)


def test_somebody_alone_is_asked_first_what_needs_no_helper(talk: Talk) -> None:
    together = talk("hairline on the bow", YES, "quit").output
    Path(DEFAULT).unlink()
    alone = talk("hairline on the bow", YES, "quit", options=("--alone",)).output

    assert "with a helper" not in alone
    assert alone.count("minutes") == together.count("minutes") == 1


def hear_interrupts() -> None:
    """What is started in the background, as tests may be, is born deaf to them."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


@pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals")
def test_it_runs_in_a_real_terminal_and_survives_being_interrupted(tmp_path: Path, kb: KnowledgeBase) -> None:
    environment = {**os.environ, "TERM": "dumb", "COLUMNS": "80", "PYTHONPATH": str(ROOT), "NO_COLOR": "1"}
    environment["TRIAGE_RULES_DIR"] = str(ROOT / "rules")
    child = pexpect.spawn(
        sys.executable,
        ["-m", "triage", "ask", MAST_WIRES],
        cwd=str(tmp_path),
        env=environment,
        timeout=60,
        preexec_fn=hear_interrupts,
    )

    child.expect("Is that right")
    child.sendline("1")
    child.expect("Which side")
    child.sendline("2")
    child.expect("Does the fitting move")
    child.sendline("1")
    child.expect("What spreads the load")
    child.sendintr()
    child.expect("Everything is kept in survey.yaml")
    child.expect(pexpect.EOF)
    child.close()

    assert 1 == child.exitstatus
    assert "starboard" == kept(kb, tmp_path / DEFAULT).findings[0].side
    assert 0 == kept(kb, tmp_path / DEFAULT).findings[0].readings["fitting_play"].high


def test_asking_for_help_loads_nothing_heavy() -> None:
    code = "import sys; from click.testing import CliRunner as R; from triage.cli import main; "
    code += (
        "R().invoke(main, ['ask', '--help']); print(sorted({'pydantic', 'networkx', 'rapidfuzz'} & set(sys.modules)))"
    )

    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)

    assert "[]" == done.stdout.strip()
