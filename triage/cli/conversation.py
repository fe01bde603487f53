"""The terminal's face of a conversation: a typed line in, a step, the file, and only then what comes of it."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from triage.asking.effort import Resources
from triage.cli.codes import COULD_NOT_WORK
from triage.cli.showing import show
from triage.cli.terminal import listen, say
from triage.cli.typed import HELP, event_of
from triage.dialogue.events import Event, New, Said
from triage.dialogue.keeping import kept
from triage.dialogue.messages import PROMPTS, Left, Line, Report, SoFar
from triage.dialogue.state import State
from triage.dialogue.step import begin, joined, present, step
from triage.dialogue.talks import letters
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.phrases import conversation as phrases
from triage.survey.model import Survey
from triage.survey.store import NotSaved, Saved, Store

SUFFIX = ".yaml"
"""What the name of a survey file ends in; so no answer to a question is taken for one."""

PATIENCE = 1.0
"""Seconds after which somebody who waits is told so."""


class Conversation:
    """One conversation about the boat in a file."""

    def __init__(self, kb: KnowledgeBase, store: Store, survey: Survey, means: Resources, *, brief: bool) -> None:
        """``survey`` is what the store holds, perhaps under another name."""
        self.kb, self.store, self.survey, self.means, self.brief = kb, store, survey, means, brief
        self.state = State(survey, means=means)
        self.begun, self.not_kept = False, ""

    def run(self, text: str) -> None:
        """Talk until the person finishes or leaves. Raises click.Abort when the line goes dead."""
        say("Numbers answer; “why”, “how”, “back”, “skip” and “quit” work anywhere, “help” shows all.")
        say(phrases.SEE_IT_DRAWN)
        with _patience():
            self.state, messages = begin(self.kb, self.survey, self.means)
            self.begun = True
        show([one for one in messages if not text or isinstance(one, SoFar)], brief=self.brief)
        if text:
            self.state, _ = step(self.kb, self.state, New())
            self.take(Said(text))
        while True:
            event = event_of(listen(), letters(self.kb, self.state))
            if event == "quit":
                self.part()
                return
            if event == "help":
                for name, meaning in HELP:
                    say(meaning, 20, f"  {name}")
            elif self.take(event):
                return

    def take(self, event: Event) -> bool:
        """One step: it is in the file before anything is said of it. Whether it was the last one."""
        with _patience():
            self.state, messages = step(self.kb, self.state, event)
            outcome = self.save()
        while isinstance(outcome, NotSaved):
            outcome = self.save_elsewhere(outcome)
        if isinstance(outcome, Saved) and outcome.joined:  # what is asked now may be something else
            stands = [one for one in messages if not isinstance(one, PROMPTS)]
            messages = (*([] if outcome.clashes else stands), *present(self.kb, self.state))
        if isinstance(outcome, Saved):
            self.tell(outcome)
        show(messages, brief=self.brief)
        if any(isinstance(message, Report) for message in messages):
            self.part(f"For a page to send or print: triage assess {self.store.file} -o report.html")
            return True
        if any(isinstance(message, Left) for message in messages):
            self.part()
            return True
        return False

    def save(self) -> Saved | NotSaved | None:
        """Have everything so far on the disk; None when it is there already."""
        survey = kept(self.state)
        if not self.begun or survey == self.store.survey:
            return None
        outcome = self.store.save(survey)
        self.not_kept = outcome.why if isinstance(outcome, NotSaved) else ""
        if isinstance(outcome, Saved) and outcome.joined:
            self.state = joined(self.kb, self.state, outcome.survey)
        return outcome

    def save_elsewhere(self, failed: NotSaved) -> Saved | NotSaved | None:
        """Say that it could not be kept, and take another file if one is named; None to go on without."""
        say(f"This could not be kept: {failed.why} Everything you said is still here.")
        say(f"Name another file, ending in {SUFFIX}, or press Return: it is tried again with your next answer.")
        name = listen("File")
        if not name:
            say("Not on the disk, then:")
            return None
        if event_of(name) == "quit":
            self.part()
            raise SystemExit(COULD_NOT_WORK)
        if not name.endswith(SUFFIX):
            return NotSaved(f"“{name}” is no name for it.")
        try:
            if Path(name).exists():
                return NotSaved(f"there is already something called {name}.")
            self.store = Store(self.kb, Path(name), Survey(self.state.survey.boat, ()))
        except (BadSurvey, OSError) as error:
            return NotSaved(f"{error}.")
        return self.save()

    def tell(self, saved: Saved) -> None:
        """What somebody else has done to the file meanwhile."""
        if saved.beside is not None:
            say(f"{saved.beside} holds something else now and is left alone; this is kept in {saved.file}.")
        if saved.joined:
            say(f"Somebody else has written to {saved.file}; what they found is joined with what you found.")
            show([Line(phrases.clash_sentence(self.kb, saved.survey, one)) for one in saved.clashes], brief=True)

    def part(self, more: str = "") -> None:
        """The last words when somebody leaves, who may have broken off in the middle of saving."""
        self.save()
        say()
        if self.not_kept:
            say(f"Not everything is kept: {self.store.file} could not be written: {self.not_kept}")
        elif self.store.exists:
            more = more or f"Carry on with: triage ask --file {self.store.file}"
            say(f"Everything is kept in {self.store.file}. {more}")
        else:
            say("Nothing was answered yet, so nothing is kept.")


@contextmanager
def _patience() -> Iterator[None]:
    """Tell somebody who waits that it is not for ever."""
    waiting = threading.Timer(PATIENCE, click.echo, ["One moment: looking through everything …"], {"err": True})
    waiting.daemon = True
    waiting.start()
    try:
        yield
    finally:
        waiting.cancel()
        waiting.join()  # a line half printed is finished before anything else is
