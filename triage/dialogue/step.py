"""A conversation about a boat as a pure step: from a state and an event to the next state and what is said.

    state, messages = begin(kb, Survey(Boat("Wagtail"), ()))
    state, messages = step(kb, state, Said("crack where the mast wires bolt on, port side"))
    state, messages = step(kb, state, Chose(1))

Nothing is read, written, printed or remembered here. `kept` turns a state into a survey that a file can hold, and
`begin` carries on from one, exactly where it was left.
"""

from __future__ import annotations

from dataclasses import replace

from triage.asking.effort import WITH_ALL, Resources
from triage.dialogue import events
from triage.dialogue.answering import Answering
from triage.dialogue.commands import meant
from triage.dialogue.describing import Describing
from triage.dialogue.edits import apply_all
from triage.dialogue.events import Chose, Event, Said
from triage.dialogue.explaining import how, why
from triage.dialogue.finishing import finished
from triage.dialogue.following import next_about, so_far, where_to_begin
from triage.dialogue.hearing import heard
from triage.dialogue.interview import question_about
from triage.dialogue.keeping import can_be_asked, resumed
from triage.dialogue.messages import Line, Message, Refused, Report, SoFar
from triage.dialogue.moves import Move, Outcome
from triage.dialogue.seeing import seen_again, seen_by_answers
from triage.dialogue.state import DESCRIBE, Asking, State
from triage.dialogue.talks import Talk, refused, talk_of
from triage.dialogue.telling import Telling
from triage.dialogue.trying import Trying
from triage.dialogue.twins import on_both
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.listening.asides import words_asked, words_wondered
from triage.listening.replies import question_in
from triage.phrases import conversation as phrases
from triage.survey.model import COULD_NOT_TELL, Survey


def begin(kb: KnowledgeBase, survey: Survey, means: Resources = WITH_ALL) -> tuple[State, tuple[Message, ...]]:
    """A conversation about a survey: a new one, or carried on where it was left, with how every mark stands."""
    state = carried_on(kb, survey, means)
    so = (SoFar(state.survey.boat.name, so_far(kb, state.survey)),) if state.survey.findings else ()
    return state, (*so, *present(kb, state))


def carried_on(kb: KnowledgeBase, survey: Survey, means: Resources = WITH_ALL) -> State:
    """Where a conversation about a survey was left; for a new one, where it begins."""
    state, known = resumed(kb, survey, means)
    return state if known else replace(state, asking=where_to_begin(kb, state.survey, means))


def present(kb: KnowledgeBase, state: State) -> tuple[Message, ...]:
    """What is being asked, with its choices."""
    return talk_of(kb, state).present()


def step(kb: KnowledgeBase, state: State, event: Event) -> tuple[State, tuple[Message, ...]]:
    """What comes of an event. An event that cannot be, or says nothing, changes nothing and is answered so."""
    try:
        event = meant(kb, state.asking.what, talk_of(kb, state).options(), event)
        if isinstance(event, events.Undo):
            return _undone(kb, state)
        outcome = _outcome(kb, state, event)
        if isinstance(outcome, Move) and outcome.survey is not None:
            survey, backs = seen_by_answers(kb, outcome.survey, outcome.backs)
            outcome = replace(outcome, survey=survey, backs=backs)
    except BadSurvey as error:
        problem = error.problems[0]
        return state, (refused(kb, state, f"{problem.what}.", problem.hint),)
    if not isinstance(outcome, Move):
        return _asked(kb, state, event, state.asking), outcome
    after = _asked(kb, _explained(kb, state).moved(outcome.asking, outcome.survey, outcome.backs), event, state.asking)
    reported = any(isinstance(one, Report) for one in outcome.says)
    return after, outcome.says if reported else (*outcome.says, *present(kb, after))


def _asked(kb: KnowledgeBase, state: State, event: Event, asking: Asking) -> State:
    """The state with what was last asked of the boat in its survey, which the report answers first.

    Where a story was told (``asking`` is what it was said to), a question in no known words is guessed at.
    """
    text = event.text.strip() if isinstance(event, Said) else ""
    asked = (words_wondered if asking.what == "describe" else words_asked)(kb, text)
    asked = asked or (text if question_in(kb, text) else "")
    return replace(state, survey=replace(state.survey, asked=asked)) if asked else state


def joined(kb: KnowledgeBase, state: State, survey: Survey) -> State:
    """The state with a survey to which somebody else has added; what is asked stays, as far as it still can."""
    survey = replace(survey.in_walk_order(kb), conversation={})
    asking = state.asking if can_be_asked(kb, survey, state.asking) else DESCRIBE
    if asking.what == "ended":
        asking = next_about(kb, survey, asking.mark, state.means)
    return replace(state, survey=survey, asking=asking)


def _outcome(kb: KnowledgeBase, state: State, event: Event) -> Outcome:
    talk, answering = talk_of(kb, state), Answering(kb, state)
    match event:
        case Said(text):
            return heard(kb, state, talk, text)
        case Chose():
            return _chosen(kb, state, talk, event)
        case events.Skip():
            return _skipped(talk)
        case events.Why():
            return why(kb, state)
        case events.How():
            return how(kb, state)
        case events.Remove(mark):
            if not mark and not isinstance(talk, Answering):
                return talk.dropped()
            return answering.remove(mark or state.asking.mark)
        case events.Change(mark, ask):
            return answering.change(mark, ask)
        case events.Clear(mark, ask):
            return answering.clear(mark, ask)
        case events.Focus(mark):
            return answering.focus(mark)
        case events.Same(mark):
            survey, backs = seen_again(kb, state.survey, mark)
            return Move(state.asking, (Line(phrases.SAME_AS_BEFORE),), survey, backs)
        case events.Marks():
            return Move(Asking("marks")) if state.survey.findings else (Line(phrases.TELL_FIRST),)
        case events.Answers():
            return answering.anything_about(state.asking.mark)
        case events.Decide(card, decision):
            return talk.decided(card, decision) if isinstance(talk, Telling) else (Refused(phrases.NO_CHOICES),)
        case events.Keep():
            if isinstance(talk, Telling | Describing) and state.asking.what in ("story", "confirm"):
                return talk.keep()
            return (Refused(phrases.NO_CHOICES),)
        case events.Finish():
            return finished(kb, state)
    return Move(DESCRIBE)


def _chosen(kb: KnowledgeBase, state: State, talk: Talk, chosen: Chose) -> Outcome:
    options, number, to = talk.options(), chosen.number, chosen.to
    if not options:
        return (Refused(phrases.NO_CHOICES),)
    wrong = next((one for one in (number, to or number) if not 1 <= one <= len(options)), None)
    if wrong is not None:
        return (refused(kb, state, phrases.no_such_choice(wrong, len(options))),)
    if not to or to == number:
        outcome = options[number - 1].then()
    elif isinstance(talk, Answering) and state.asking.what == "answer":
        outcome = talk.between(min(number, to), max(number, to), pressed=chosen.pressed)
    else:
        return (refused(kb, state, phrases.ONE_OF_THESE),)
    return on_both(kb, state, outcome) if chosen.both and isinstance(outcome, Move) else outcome


def _skipped(talk: Talk) -> Outcome:
    if isinstance(talk, Answering) and talk.asking.what == "answer":
        return talk.record(COULD_NOT_TELL)
    if isinstance(talk, Telling | Describing) and talk.draft.what in ("side", "whose"):
        return talk.on("unknown")
    if isinstance(talk, Trying):
        return talk.dropped()
    return (Refused(phrases.NOTHING_TO_SKIP),)


def _undone(kb: KnowledgeBase, state: State) -> tuple[State, tuple[Message, ...]]:
    """The state before the last step."""
    if not state.undo:
        return state, (Line(phrases.NOTHING_TO_TAKE_BACK),)
    *older, last = state.undo
    rest = replace(_explained(kb, state), undo=tuple(older))
    try:
        survey, _ = apply_all(kb, state.survey, last.edits)
    except BadSurvey:  # somebody else has changed the survey since
        return rest, (Line(phrases.CANNOT_TAKE_BACK), *present(kb, rest))
    asking = last.asking if can_be_asked(kb, survey, last.asking) else DESCRIBE
    after = replace(rest, survey=survey, asking=asking)
    return after, (Line(phrases.TAKEN_BACK), *present(kb, after))


def _explained(kb: KnowledgeBase, state: State) -> State:
    """How the present question is answered was told, so it need not be told again."""
    if state.asking.what != "answer":
        return state
    question = question_about(kb, state.survey, state.asking.mark, state.asking.ask, state.means)
    return replace(state, explained=state.explained | {question.how.name})
