"""What is told and is no mark: kept as a note, word for word, so that nothing of a story is lost."""

from __future__ import annotations

from collections.abc import Sequence

from triage.dialogue.edits import Edit, NoteVisit, apply_all
from triage.knowledge.model import KnowledgeBase
from triage.listening import statements as heard
from triage.phrases import hearing
from triage.survey.finding_doubts import MAX_NOTE
from triage.survey.model import Survey


def notes_of(text: str, statements: Sequence[heard.Statement], sale: Sequence[str]) -> tuple[str, ...]:
    """What is noted of the visit: what was not understood, and the sentences of the ``sale``, in their order."""
    fragments = [text[one.start : one.end] for one in statements if isinstance(one, heard.Unheard)]
    sentences = dict.fromkeys(sale)
    every = {*sentences, *(one for one in fragments if not any(one in sentence for sentence in sentences))}
    return tuple(" ".join(one.split()) for one in sorted(every, key=text.find))


def beside_marks(
    kb: KnowledgeBase, text: str, statements: Sequence[heard.Statement], marks: Sequence[heard.Found]
) -> tuple[str, ...]:
    """What is noted of parts without a mark: said to be well, not to be there, or not looked at; no reading.

    What stands within the words for one of the ``marks`` is in the note of that mark.
    """
    apart = [one for one in statements if not any(mark.start <= one.start and one.end <= mark.end for mark in marks)]
    lines = (hearing.noted(kb, one, hearing.quoted(text, one)) for one in apart)
    return tuple(dict.fromkeys(filter(None, lines)))


def noted(kb: KnowledgeBase, survey: Survey, notes: Sequence[str]) -> tuple[Survey, tuple[Edit, ...]]:
    """The survey with these added to its note, each once, as far as there is room, and what takes it back."""
    note = survey.note
    for one in notes:
        longer = f"{note} {one}".strip()
        note = longer if one not in note and len(longer) <= MAX_NOTE else note
    return (survey, ()) if note == survey.note else apply_all(kb, survey, [NoteVisit(note)])
