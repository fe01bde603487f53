"""A marked run in plain lines: the learner's answers beside the program's, and what was missed."""

from __future__ import annotations

from triage.cli.printing import tell
from triage.cli.terminal import say
from triage.knowledge.model import AFLOAT, HANDS, TOW, VERDICT, KnowledgeBase
from triage.phrases import findings, learning
from triage.phrases.words import between
from triage.teaching.questions import CAUSE, NOTHING
from triage.teaching.sheet import Marked

MOST_REASONS = 5


def tell_marked(kb: KnowledgeBase, marked: Marked) -> None:
    """Everything that is told after a run."""
    state, key = marked.state, marked.state.key
    finding = key.finding
    tell()
    said = state.answer(VERDICT)
    say(learning.right_or_not(said, finding.verdict.best, right=marked.right, sure=marked.confidence))
    for what, answer in (("Afloat", finding.afloat), ("On the road", finding.tow)):
        say(learning.beside(what, state.answer(AFLOAT if what == "Afloat" else TOW), answer.now))
    say(learning.beside("Mended by", state.answer(HANDS), finding.hands.now))
    causes = kb.causation.causes
    made_it = learning.NOBODY_KNOWS if state.answer(CAUSE) == NOTHING else causes[state.answer(CAUSE)].name
    known = ", or ".join(causes[one].name for one in key.causes) or learning.NOBODY_KNOWS
    say(learning.beside("What made it", made_it, made_it if marked.cause_right else known))
    tell()
    say("What you found, and what follows from it:")
    for reading in marked.theirs.readings:
        say(f"{reading.phrase}.", 4, "  - ")
    if not marked.theirs.readings:
        say("nothing but what the eye sees.", 4, "  - ")
    say(f"From this alone the program says: {between(marked.theirs.verdict)}.")
    tell()
    say("How the program reasons when all is known:")
    for step in finding.why[:MOST_REASONS]:
        say(step.because, 4, "  - ")
    if not finding.why:
        say(finding.harmless, 4, "  - ")
    for line in findings.held_up(finding.held_up):
        say(line)
    tell()
    names = [kb.zones[one].name for one in marked.not_seen]
    for line in learning.missed([one.check.name for one in marked.not_made], names, state.minutes, key.minutes):
        say(line)
    say(f"The cheapest way: {learning.way_in_words(key.way_with_places(kb))}")
    tell()
    say(f"The sheet: {marked.points} of {marked.of} points that a program can give.")
    for item in marked.items:
        say(learning.sheet_line(item.name, item.points, item.of, item.trainer), 4, "  - ")
