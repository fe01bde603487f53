"""A marked run in plain lines: the learner's answers beside the program's, and what was missed."""

from __future__ import annotations

from triage.cli.printing import tell
from triage.cli.terminal import say
from triage.knowledge.model import KnowledgeBase
from triage.phrases import learning
from triage.teaching.sheet import Marked
from triage.views.marked_run import told_run


def tell_marked(kb: KnowledgeBase, marked: Marked) -> None:
    """Everything that is told after a run."""
    told = told_run(kb, marked)
    tell()
    say(told.verdict)
    for one in told.beside:
        say(learning.beside(one.what, one.said, one.said if one.right else one.key))
    tell()
    say("What you found, and what follows from it:")
    for line in told.found or ("Nothing but what the eye sees.",):
        say(line, 4, "  - ")
    say(f"From this alone the program says: {told.theirs}.")
    tell()
    say("How the program reasons when all is known:")
    for line in told.reasons:
        say(line, 4, "  - ")
    for line in told.held_up:
        say(line)
    tell()
    for line in told.missed:
        say(line)
    say(f"The cheapest way: {told.way}")
    tell()
    say(f"The sheet: {marked.points} of {marked.of} points that a program can give.")
    for line in told.faults:
        say(line)
    for line in told.sheet:
        say(line, 4, "  - ")
