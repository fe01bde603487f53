"""The words of the levels: every observed level has some, and no words mean two things on one scale."""

from __future__ import annotations

from triage.knowledge.forms.ontology import ScaleForm
from triage.parsing.documents import Document, Path
from triage.parsing.text import same


def read_words(document: Document, path: Path, form: ScaleForm) -> None:
    """Tell every mistake in what the levels of a scale say."""
    wanted, other = ("seen", "phrase") if form.kind == "observed" else ("phrase", "seen")
    for number, level in enumerate(form.levels):
        here = (*path, "levels", number)
        if not getattr(level, wanted):
            hint = f'Add a line "{wanted}: …" with words that stand after “you found that”.'
            document.problems.append(document.problem(here, f'"{wanted}" is missing', hint))
        if getattr(level, other):
            what = f'a level of this kind ({form.kind}) has no "{other}"'
            document.problems.append(document.problem((*here, other), what, f'Write it as "{wanted}".'))
    _said_once(document, path, form)


def _said_once(document: Document, path: Path, form: ScaleForm) -> None:
    names = {same(level.name): number for number, level in enumerate(form.levels)}
    taken: dict[str, int] = {}
    for number, level in enumerate(form.levels):
        for place, one in enumerate(level.seen):
            here = (*path, "levels", number, "seen", place)
            for said in (one.say, *one.heard):
                if names.get(same(said), number) != number:
                    what = f'"{said}" is the name of level {names[same(said)]}'
                    document.problems.append(document.problem(here, what, "Say it in other words."))
                elif same(said) in taken:
                    where = "twice" if taken[same(said)] == number else f"by level {taken[same(said)]} already"
                    what = f'"{said}" is said {where}'
                    document.problems.append(document.problem(here, what, "Let one level say it, once."))
                taken.setdefault(same(said), number)
