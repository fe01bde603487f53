"""``triage ask`` as a person meets it: in words, one question at a time, with nothing lost."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pexpect
import pytest
from click.testing import CliRunner, Result

from tests.conftest import ROOT
from triage.cli import main
from triage.cli.kept import DEFAULT, store_at
from triage.cli.typed import event_of
from triage.dialogue import interview
from triage.dialogue import judged as judged_module
from triage.dialogue.events import Chose, Event, Said, Undo
from triage.dialogue.keeping import kept as kept_state
from triage.dialogue.looking import view_of
from triage.dialogue.messages import Message, SoFar
from triage.dialogue.question import View
from triage.dialogue.state import State
from triage.dialogue.step import begin, step
from triage.inference.evaluation import Evaluation
from triage.inference.forward import forward
from triage.knowledge.model import NOTHING_SEEN, KnowledgeBase
from triage.phrases.conversation import clash_sentence, measure_it
from triage.survey.model import Boat, Finding, Survey
from triage.survey.read import read_survey
from triage.survey.readings import reading_of
from triage.survey.store import NotSaved, Saved, Store
from triage.survey.write import write_survey

MAST_WIRES = "crack where the mast wires bolt on, about an inch"
YES = PORT = "1"
"""Yes where the side is known or there is none; where nobody told it, the first yes is that of the port side."""

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
    first = talk(MAST_WIRES, PORT, "still", "can't reach under there", "stays shut", "quit")
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
    assert "Do not sail before that is known." in told
    assert "Everything is kept in survey.yaml" in told

    # ... and when no other question can settle it, the deciding test is named.
    second = talk("", YES, "no edge of it catches a nail", "rings", "all firm", "quit")
    told = in_one_line(second.output)

    assert "What decides it is the check “Mirror behind the fitting”" in told

    # 4. An hour later nothing has to be said again: there is a photograph, with cracks beside the plate, below.
    photo = "got a photo, cracks under the deck below the shroud plate"
    third = talk("", YES, photo, PORT, "finish")
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
    result = talk(MAST_WIRES, PORT, "finish")
    report = CliRunner().invoke(main, ["assess", str(DEFAULT)]).stdout

    assert report.strip() in result.output


def test_a_harmless_mark_takes_one_answer(talk: Talk) -> None:
    """And how she is built, where that is not known."""
    result = talk("hairline on the side deck", PORT, "1", "1")

    assert "Now cosmetic; before, still between cosmetic and structural." in in_one_line(result.output)
    assert "COSMETIC" in result.output.upper()


def test_answers_may_be_numbers_names_or_measurements(talk: Talk, kb: KnowledgeBase) -> None:
    talk(MAST_WIRES, PORT, "0.3 mm", "4", "finish")
    readings = kept(kb).findings[0].readings

    assert ("0.3 mm", (0.3, 0.3), 1) == (
        readings["fitting_play"].said,
        readings["fitting_play"].measured,
        readings["fitting_play"].high,
    )


def test_an_answer_that_is_none_is_asked_back_with_the_numbers_of_the_choices(talk: Talk, kb: KnowledgeBase) -> None:
    told = talk(MAST_WIRES, PORT, "wobbly-ish", "9", "2", "quit").output
    asked, refused, *_ = (part.split("Answer:")[0] for part in told.split("1  the base of the fitting stays still")[1:])

    assert "what “wobbly-ish” means. Nearest to it: “" in in_one_line(told)
    assert "There is no choice 9; there are 8." in in_one_line(told)
    assert refused.split() == asked.replace("Or measure it, in mm or another unit.", "").split()
    assert "0 =" not in told
    assert 1 == in_one_line(told).count("Does the fitting move against the boat")
    assert "felt but not seen" in kb.scales["fitting_play"].words(1)
    assert 1 == kept(kb).findings[0].readings["fitting_play"].high  # the second choice is the second level, 1


def test_where_two_quantities_or_a_count_will_do_it_is_said_how() -> None:
    assert "Or measure it, in mm or another unit." == measure_it("mm", [])
    assert "Or say it as in “two of six spin”." == measure_it("", ["two of six spin"])
    assert not measure_it("", [])
    told = "Or measure it, in % or another unit, or say it as in “14 mm over 1.7 m”."
    assert told == measure_it("%", ["14 mm over 1.7 m"])


def test_why_and_how_are_told_whenever_asked(talk: Talk) -> None:
    told = in_one_line(talk(MAST_WIRES, PORT, "why", "how", "quit").output)

    assert "one of the checks that must not be left out" in told
    assert "If the fitting moves more than 1.5 mm: structural." in told
    assert 2 == told.count("Put one hand on the fitting")


def test_somebody_who_knows_how_is_not_told(talk: Talk) -> None:
    told = in_one_line(talk(MAST_WIRES, PORT, "quit", options=("--brief",)).output)

    assert "Does the fitting move" in told
    assert "Put one hand on the fitting" not in told


def test_any_step_is_taken_back_even_after_leaving_and_coming_back(talk: Talk, kb: KnowledgeBase) -> None:
    talk(MAST_WIRES, PORT, "still", "quit")
    once = talk("", YES, "back", "quit")
    without_the_answer = kept(kb)
    talk("", YES, "back", "back", "back", "back", "quit")

    assert "The last step is taken back." in once.output
    assert {"crack_length"} == set(without_the_answer.findings[0].readings)
    assert "Does the fitting move against the boat" in in_one_line(once.output)
    assert () == kept(kb).findings


def test_it_is_taken_up_where_it_was_left(talk: Talk) -> None:
    """The same mark, the same question, the same half-described sentence."""
    left = talk(MAST_WIRES, PORT, "still", "new", "scratches on the topside", "yes", "quit").output
    again = talk("", YES, "quit").output

    assert "Which side?" in left.rsplit("Answer:", 2)[-2]
    assert (
        left.rsplit("Answer:", 2)[-2].split("Which side?")[1] == again.rsplit("Answer:", 2)[-2].split("Which side?")[1]
    )

    talk("", YES, PORT, "marks", "Shroud anchor on deck, port", "quit")
    question = talk("", YES, "quit").output

    assert "Shroud anchor on deck, port: Cracks from a fitting; 6 more may follow" in in_one_line(question)


def test_a_mark_can_be_deleted_and_the_answer_of_a_settled_one_changed(talk: Talk, kb: KnowledgeBase) -> None:
    name = kb.scales["panel_give"].name
    told = in_one_line(
        talk("three cracks side by side on the side deck", PORT, "1", "1", "2", name, "6", "quit").output
    )
    changed = kept(kb)
    talk("", YES, "delete", "quit")

    assert f"{kb.scales['panel_give'].asks} (answered: firm)" in told
    assert "Now structural; before, monitor." in told
    assert 3 == changed.findings[0].readings["panel_give"].high
    assert () == kept(kb).findings


def test_an_earlier_answer_can_be_changed_and_any_other_given(talk: Talk, kb: KnowledgeBase) -> None:
    listed = talk(MAST_WIRES, PORT, "still", "other", "quit").output
    number = next(line.split()[0] for line in listed.splitlines() if "Movement of the fitting" in line)
    assert "(answered: still)" in listed

    talk("", YES, "other", number, "lifts or knocks", "quit")

    assert 3 == kept(kb).findings[0].readings["fitting_play"].high


def test_a_letter_is_the_mark_on_a_storys_screen_and_a_command_elsewhere(talk: Talk) -> None:
    story = "The port shroud plate is loose by 2 mm. The self bailer leaks even when it is shut."

    assert "Which of these is “The self bailer leaks" in talk(story, "b", "quit").output
    assert "Which of these is" not in talk("b", "quit").output


def test_one_may_change_ones_mind_in_the_middle_of_anything(talk: Talk, kb: KnowledgeBase) -> None:
    result = talk(
        MAST_WIRES, "back", "new", MAST_WIRES, "5", "new", MAST_WIRES, "yes", PORT, "other", "back", "back", "quit"
    )

    assert 0 == result.exit_code, result.output
    assert () == kept(kb).findings
    assert "Which side?" in result.output.rsplit("taken back", 1)[1]


def test_where_nothing_stands_out_candidates_with_pictures_are_offered_and_any_place_can_be_reached(
    talk: Talk, kb: KnowledgeBase
) -> None:
    result = talk("crack", "none of these", "3", "5", "1", "1", "1", "quit")
    told = in_one_line(result.output)

    assert "Which place is it? Choose one, or say it in other words." in told
    assert "Where is it?" in told
    assert "side_deck" == kept(kb).findings[0].zone


def test_what_was_misunderstood_is_put_right(talk: Talk, kb: KnowledgeBase) -> None:
    talk("dent in the foredeck", "2", "the bottom of the hull", "6", "1", "4", "quit")

    (finding,) = kept(kb).findings
    assert "bottom" == finding.zone
    assert "dent" != finding.sign
    assert finding.side is None


@pytest.mark.parametrize("prompt", [(), ("yes",), (PORT,), (PORT, "other"), (PORT, "marks"), ("2",)])
def test_whether_she_may_sail_can_be_asked_at_every_prompt(talk: Talk, prompt: tuple[str, ...]) -> None:
    talk("three cracks side by side on the side deck", PORT, "new", "quit")

    told = talk(MAST_WIRES, *(YES, *prompt), "can I go out in light wind?", "quit").output

    assert re.search(r"(Yes: |Yes, but: |No: |Not yet[,.] )", in_one_line(told.rsplit("Answer:", 2)[-2]))


def test_an_interrupted_conversation_is_kept(talk: Talk, kb: KnowledgeBase) -> None:
    result = talk(MAST_WIRES, PORT, "still")  # and then the line goes dead

    assert 130 == result.exit_code
    assert "Everything is kept in survey.yaml" in result.output
    assert 0 == kept(kb).findings[0].readings["fitting_play"].high


def test_a_file_of_ones_own_keeps_the_boat_by_name(talk: Talk, kb: KnowledgeBase) -> None:
    options = ("--file", "wagtail.yaml", "--boat", "Wagtail")

    talk(MAST_WIRES, PORT, "quit", options=options)
    talk("scratches on the port topside", YES, "quit", options=("--file", "wagtail.yaml"))

    assert ["chainplate", "topside"] == sorted(one.zone for one in kept(kb, Path("wagtail.yaml")).findings)
    assert "Wagtail" == kept(kb, Path("wagtail.yaml")).boat.name
    assert not DEFAULT.exists()


def test_a_file_that_holds_something_else_is_never_overwritten(talk: Talk) -> None:
    DEFAULT.write_text("shopping: [bread, gelcoat]\n", encoding="utf-8")

    named = talk(MAST_WIRES, options=("--file", str(DEFAULT)))
    unnamed = talk(MAST_WIRES, PORT, "quit")

    assert 2 == named.exit_code
    assert 'unknown word "shopping"' in named.output
    assert "survey-2.yaml" in unnamed.output
    assert "shopping: [bread, gelcoat]\n" == DEFAULT.read_text(encoding="utf-8")


def test_a_new_survey_beside_an_old_one_gets_a_name_of_its_own(talk: Talk) -> None:
    talk(MAST_WIRES, PORT, "quit")

    talk("scratches on the port topside", "2", YES, "quit")

    assert Path("survey-2.yaml").exists()


def test_leaving_before_anything_was_said_keeps_nothing(talk: Talk) -> None:
    result = talk("", "quit")

    assert 0 == result.exit_code
    assert "nothing is kept" in result.output
    assert [] == list(Path.cwd().iterdir())


def test_it_reads_on_eighty_columns_without_colour_or_moving_the_cursor(talk: Talk) -> None:
    result = talk(MAST_WIRES, PORT, "help", "why", "how", "skip", "skip", "skip", "other", "1", "1", "finish")

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


def in_a_terminal(folder: Path, *arguments: str) -> pexpect.spawn[str]:
    """``triage ask`` in a pseudo-terminal of its own."""
    environment = {**os.environ, "TERM": "dumb", "COLUMNS": "80", "PYTHONPATH": str(ROOT), "NO_COLOR": "1"}
    environment["TRIAGE_RULES_DIR"] = str(ROOT / "rules")
    return pexpect.spawn(
        sys.executable,
        ["-m", "triage", "ask", *arguments],
        cwd=str(folder),
        env=environment,
        timeout=60,
        encoding="utf-8",
        preexec_fn=hear_interrupts,
    )


@pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals")
def test_it_runs_in_a_real_terminal_and_survives_being_interrupted(tmp_path: Path, kb: KnowledgeBase) -> None:
    child = in_a_terminal(tmp_path, MAST_WIRES)

    child.expect("Is that right")
    child.sendline("2")
    child.expect("Does the fitting move")
    child.sendline("1")
    child.expect("What spreads the load")
    child.sendintr()
    child.expect("Everything is kept in survey.yaml")
    child.expect(pexpect.EOF)
    child.close()

    assert 130 == child.exitstatus
    assert "starboard" == kept(kb, tmp_path / DEFAULT).findings[0].side
    assert 0 == kept(kb, tmp_path / DEFAULT).findings[0].readings["fitting_play"].high


def killed_right_after_an_answer_was_told(folder: Path, kb: KnowledgeBase, answers: int) -> Survey:
    """A conversation that ends with kill -9 in the moment in which the last of so many answers was told."""
    child = in_a_terminal(folder, MAST_WIRES, "--brief")
    child.expect("Is that right")
    child.sendline(PORT)
    child.expect("Can't tell yet")
    for _ in range(answers):
        child.sendline("1")
        child.expect("Noted: ")
    assert child.pid is not None
    os.kill(child.pid, signal.SIGKILL)
    child.close(force=True)
    return kept(kb, folder / DEFAULT)


def killings(folder: Path, kb: KnowledgeBase, count: int) -> list[int]:
    """How many answers were in the file after each; one and two in turn."""
    found = []
    for number in range(count):
        (folder / str(number)).mkdir()
        survey = killed_right_after_an_answer_was_told(folder / str(number), kb, 1 + number % 2)
        found.append(len(survey.findings[0].readings) - 1)  # the size was said at the start
    return found


@pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals")
def test_what_was_told_as_noted_survives_being_killed(tmp_path: Path, kb: KnowledgeBase) -> None:
    assert [1, 2] == killings(tmp_path, kb, 2)


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals")
def test_of_eight_killings_none_loses_an_answer(tmp_path: Path, kb: KnowledgeBase) -> None:
    assert [1, 2] * 4 == killings(tmp_path, kb, 8)


@pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals")
def test_two_conversations_on_one_file_lose_nothing(tmp_path: Path, kb: KnowledgeBase) -> None:
    first = in_a_terminal(tmp_path, MAST_WIRES, "--brief", "--file", "boat.yaml")
    second = in_a_terminal(tmp_path, "scratches on the port topside", "--brief", "--file", "boat.yaml")
    for child in (first, second):
        child.expect("Is that right")
    first.sendline(PORT)
    first.expect("Does the fitting move")
    second.sendline("1")
    second.expect("Somebody else has written to boat.yaml")
    first.sendline("1")
    first.expect("Somebody else has written to boat.yaml")
    for child in (second, first):
        child.sendline("quit")
        child.expect("Everything is kept in boat.yaml")
        child.expect(pexpect.EOF)
        child.close()

    found = {one.zone: set(one.readings) for one in kept(kb, tmp_path / "boat.yaml").findings}
    assert {"chainplate", "topside"} == found.keys()
    assert {"crack_length", "fitting_play"} == found["chainplate"]
    assert ["boat.yaml"] == [left.name for left in tmp_path.iterdir()]


def test_the_same_question_answered_twice_keeps_the_newer_answer_and_says_so(talk: Talk, kb: KnowledgeBase) -> None:
    talk(MAST_WIRES, PORT, "quit")
    store = store_at(kb, DEFAULT)
    state, _ = begin(kb, store.survey)
    talk("", YES, "lifts or knocks", "quit")

    state, _ = step(kb, state, Said("still"))
    saved = store.save(kept_state(state))

    assert isinstance(saved, Saved)
    (clash,) = saved.clashes
    assert "“lifts or knocks” in another conversation; “still”, which is newer, stands" in clash_sentence(
        kb, saved.survey, clash
    )
    assert 0 == kept(kb).findings[0].readings["fitting_play"].high


def test_when_the_file_cannot_be_written_nothing_is_lost_and_another_is_offered(talk: Talk, kb: KnowledgeBase) -> None:
    talk(MAST_WIRES, PORT, "quit")
    DEFAULT.chmod(0o444)
    before = DEFAULT.read_bytes()

    told = in_one_line(talk("", YES, "still", "", "could not tell", "survey.yaml", "rescued.yaml", "quit").output)

    assert "could not be kept: Cannot write survey.yaml" in told
    assert "read-only" in told
    assert "Everything you said is still here" in told
    assert "there is already something called survey.yaml" in told
    assert "Everything is kept in rescued.yaml" in told
    assert before == DEFAULT.read_bytes()
    assert {"crack_length", "fitting_play", "backing"} == set(kept(kb, Path("rescued.yaml")).findings[0].readings)


def test_leaving_without_another_file_says_what_was_not_kept(talk: Talk) -> None:
    talk(MAST_WIRES, PORT, "quit")
    DEFAULT.chmod(0o444)

    told = in_one_line(talk("", YES, "still", "", "quit").output)

    assert "Not everything is kept: survey.yaml could not be written" in told
    assert "Everything is kept" not in told


def test_no_answer_is_taken_for_the_name_of_another_file(talk: Talk) -> None:
    talk(MAST_WIRES, PORT, "quit")
    DEFAULT.chmod(0o444)

    told = talk("", YES, "still", "2", "quit")

    assert 3 == told.exit_code
    assert "“2” is no name for it" in told.output
    assert "Noted" not in told.output
    assert [DEFAULT] == list(Path().iterdir())


def test_what_is_told_without_the_disk_is_told_so(talk: Talk) -> None:
    talk(MAST_WIRES, PORT, "quit")
    DEFAULT.chmod(0o444)

    told = talk("", YES, "still", "", "quit").output

    assert told.index("Not on the disk") < told.index("Noted")


def test_what_was_not_taken_back_is_not_told_as_taken_back(
    talk: Talk, kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody else has answered the same question since; theirs stands."""
    talk(MAST_WIRES, PORT, "still", "quit")
    store = Store.save

    def after_somebody_else(self: Store, survey: Survey) -> Saved | NotSaved:
        monkeypatch.setattr(Store, "save", store)
        other = store_at(kb, DEFAULT)
        finding = other.survey.findings[0]
        lifts = reading_of(kb.scales["fitting_play"], "lifts or knocks")
        answers = {**finding.readings, "fitting_play": lifts}
        other.save(replace(other.survey, findings=(replace(finding, readings=answers),)))
        return store(self, survey)

    monkeypatch.setattr(Store, "save", after_somebody_else)
    told = talk("", YES, "back", "quit").output

    assert "which stands" in in_one_line(told)
    assert "taken back" not in told


def test_an_answer_is_not_told_before_it_is_kept(talk: Talk) -> None:
    talk(MAST_WIRES, PORT, "quit")
    DEFAULT.chmod(0o444)

    told = talk("", YES, "still").output  # and then the line goes dead at the question for another file

    assert "could not be kept" in told
    assert "Noted" not in told


def test_breaking_off_in_the_middle_of_saving_loses_nothing(
    talk: Talk, kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch
) -> None:
    talk(MAST_WIRES, PORT, "quit")
    save = Store.save

    def broken_off(store: Store, survey: Survey) -> Saved | NotSaved:
        monkeypatch.setattr(Store, "save", save)
        raise KeyboardInterrupt

    monkeypatch.setattr(Store, "save", broken_off)
    result = talk("", YES, "still")

    assert 130 == result.exit_code
    assert "Everything is kept in survey.yaml" in result.output
    assert {"crack_length", "fitting_play"} == set(kept(kb).findings[0].readings)


def test_breaking_off_while_it_is_looked_up_leaves_the_file_as_it_was(
    talk: Talk, monkeypatch: pytest.MonkeyPatch
) -> None:
    talk(MAST_WIRES, PORT, "still", "quit")
    before = DEFAULT.read_bytes()

    def broken_off(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("triage.cli.conversation.begin", broken_off)
    result = talk("", YES)

    assert 130 == result.exit_code
    assert before == DEFAULT.read_bytes()


def test_somebody_who_waits_is_told_so_and_nobody_else(talk: Talk, monkeypatch: pytest.MonkeyPatch) -> None:
    def slow(kb: KnowledgeBase, state: State, event: Event) -> tuple[State, tuple[Message, ...]]:
        time.sleep(0.3)
        return step(kb, state, event)

    monkeypatch.setattr("triage.cli.conversation.PATIENCE", 600)
    quick = talk(MAST_WIRES, "quit", options=("--file", "quick.yaml")).output
    monkeypatch.setattr("triage.cli.conversation.PATIENCE", 0.1)
    monkeypatch.setattr("triage.cli.conversation.step", slow)

    assert "One moment" in talk(MAST_WIRES, "quit", options=("--file", "slow.yaml")).output
    assert "One moment" not in quick


def test_a_mark_that_was_only_described_is_not_forgotten(talk: Talk) -> None:
    talk("scuff on the port topside", YES, "quit")
    before = CliRunner().invoke(main, ["assess", str(DEFAULT)])
    talk("", YES, "new", MAST_WIRES, "quit")

    after = CliRunner().invoke(main, ["assess", str(DEFAULT)])

    assert "Described" not in before.stderr
    assert f"Described, but not in the survey yet: “{MAST_WIRES}”" in after.stderr
    assert 1 == after.exit_code


def test_where_a_conversation_was_left_changes_no_report(talk: Talk) -> None:
    talk(MAST_WIRES, PORT, "still", "new", "crack", "quit")
    text = DEFAULT.read_text(encoding="utf-8")
    Path("bare.yaml").write_text(text.split("conversation:")[0], encoding="utf-8")

    with_it, without = (CliRunner().invoke(main, ["assess", name]).stdout for name in (str(DEFAULT), "bare.yaml"))

    assert "conversation:" in text
    assert with_it == without


@pytest.mark.parametrize("name", ["x" * 201, "\x1b[31mred", "\udcff", " "], ids=["long", "escape", "bytes", "blank"])
def test_a_name_that_could_not_be_read_back_is_refused_at_the_door(talk: Talk, name: str) -> None:
    result = talk(MAST_WIRES, PORT, "quit", options=("--boat", name))

    assert 2 == result.exit_code
    assert "Traceback" not in result.output
    assert "\x1b" not in result.output
    assert not DEFAULT.exists()


def test_a_mark_too_many_is_refused_in_a_sentence(talk: Talk, kb: KnowledgeBase) -> None:
    marks = tuple(Finding(f"f{number}", "side_deck", "hairline", "port") for number in range(300))
    write_survey(Survey(Boat("Wagtail"), marks), DEFAULT)

    told = in_one_line(talk("scratches on the port topside", YES, YES, "quit").output)

    assert "301 findings are more than a survey holds (at most 300). Make a second survey of the others." in told
    assert marks == tuple(sorted(kept(kb).findings, key=lambda one: int(one.id[1:])))


def test_a_large_boat_is_taken_up_with_one_judgement_of_it(
    talk: Talk, kb: KnowledgeBase, monkeypatch: pytest.MonkeyPatch
) -> None:
    """However many marks are open, one question is looked for, and the list of marks is one judgement."""
    pairs = [(zone, sign) for zone in kb.zones for sign in kb.offers[zone] if sign != NOTHING_SEEN][:60]
    marks = tuple(Finding(f"f{number}", zone, sign) for number, (zone, sign) in enumerate(pairs))
    asked: set[str] = set()
    judged: list[int] = []

    def viewed(kb: KnowledgeBase, survey: Survey, mark: str) -> View:
        asked.add(mark)
        return view_of(kb, survey, mark)

    def judge(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> tuple[Evaluation, ...]:
        judged.append(len(findings))
        return tuple(forward(kb, boat, findings))

    monkeypatch.setattr(interview, "view_of", viewed)
    monkeypatch.setattr(judged_module, "forward", judge)

    _, messages = begin(kb, Survey(Boat("Wagtail"), marks))

    assert isinstance(messages[0], SoFar)
    assert 60 == len(messages[0].marks)
    assert 1 == len(asked)
    assert [60] == judged


def test_a_number_is_the_choice_as_shown_and_some_words_are_commands() -> None:
    assert Chose(3) == event_of("3")
    assert Chose(1, 2) == event_of("1 to 2") == event_of("1-2")
    assert Said("3 cm") == event_of("3 cm")
    assert Undo() == event_of("Back") == event_of("b")
    assert "quit" == event_of("q")


def test_asking_for_help_loads_nothing_heavy() -> None:
    code = "import sys; from click.testing import CliRunner as R; from triage.cli import main; "
    code += (
        "R().invoke(main, ['ask', '--help']); print(sorted({'pydantic', 'networkx', 'rapidfuzz'} & set(sys.modules)))"
    )

    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)

    assert "[]" == done.stdout.strip()
