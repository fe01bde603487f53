"""Why something is asked about a mark, and how to find the answer."""

from __future__ import annotations

from triage.dialogue.interview import next_question, question_about
from triage.dialogue.messages import HowTo, Points, Refused
from triage.dialogue.moves import Says
from triage.dialogue.state import State
from triage.knowledge.model import KnowledgeBase
from triage.phrases import conversation as phrases


def why(kb: KnowledgeBase, state: State) -> Says:
    """Why this is asked, or why it came to this end."""
    asking = state.asking
    if asking.what == "answer":
        return (Points("", question_about(kb, state.survey, asking.mark, asking.ask, state.means).why),)
    if asking.what == "ended":
        return (Points("", next_question(kb, state.survey, asking.mark, state.means).why),)
    return (Refused(phrases.NO_REASON),)


def how(kb: KnowledgeBase, state: State) -> Says:
    """How to find the answer."""
    asking = state.asking
    if asking.what != "answer":
        return (Refused(phrases.NO_METHOD),)
    question = question_about(kb, state.survey, asking.mark, asking.ask, state.means)
    return (HowTo(question.how, question.made),)
