"""How a question, its check and the end of a mark look in the terminal."""

from __future__ import annotations

from triage.cli.terminal import say, show_choices
from triage.dialogue.question import Done, How, Question, find
from triage.knowledge.model import KnowledgeBase
from triage.phrases.words import at_side
from triage.survey.model import Survey

_COMES_OFF = {"none": "", "partial": ", a cover has to come off", "off": ", a part has to come off"}


def show_question(kb: KnowledgeBase, survey: Survey, question: Question, *, explain: bool) -> None:
    """The question with its choices, and how to answer it unless that is known."""
    left = question.standing.left
    more = f"; {left - 1} more may follow" if left > 1 else ""
    say()
    say(f"{at_side(kb.zones[find(survey, question.finding).zone].name, find(survey, question.finding).side)}{more}")
    say(question.text)
    if explain:
        show_how(question.how)
    show_choices([choice.phrase for choice in question.choices])
    measured = f"Or measure it, in {question.unit} or another unit. " if question.unit else ""
    say(f"{measured}“skip” if you could not tell.", 6)


def show_how(how: How) -> None:
    """The check step by step, with what it needs and what to take care of."""
    if how.made:
        say(f"{how.name}: you have done this already.", 4, "  -")
    helper = ", with a helper" if how.helper else ""
    tools = f" Take {', '.join(how.tools)}." if how.tools else ""
    say(f"{how.name}: {how.minutes:g} minutes{helper}{_COMES_OFF[how.dismantling]}.{tools}", 2, "  ")
    for step in how.steps:
        say(step, 4, "  -")
    if how.care:
        say(f"Take care: {how.care}", 2, "  ")


def show_end(done: Done) -> None:
    """What came of a mark, and what would still change it."""
    say()
    say(done.standing.says)
    if not done.settled:
        say(done.says)
    if done.would_change:
        say("What would still change it:" if done.settled else "What could settle it:")
    for line in done.would_change:
        say(line, 4, "  -")
