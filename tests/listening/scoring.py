"""What the listener takes from the sentences and stories, against their keys."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from typing import Any, TypeVar

from tests.conftest import ROOT
from tests.listening.answering import count_observations
from triage.knowledge.model import KnowledgeBase
from triage.listening.statements import Asked, BoatFact, Denied, Found, Measured, NotLooked, Passed, Statement, Told
from triage.listening.story import hear
from triage.parsing.documents import read_document
from triage.parsing.quantities import NotAQuantity, in_unit

WORKED_TOWARDS, ONLY_COUNTED = "worked_towards", "only_counted"
Key = dict[str, Any]
S = TypeVar("S", bound=Statement)


def written(name: str) -> dict[str, list[Key]]:
    """The sentences, complaints or stories, by which of them were worked towards."""
    value: dict[str, list[Key]] = read_document((ROOT / f"tests/listening/{name}.yaml").read_text("utf-8"), name).value
    return value


def of_kind(statements: Iterable[Statement], kind: type[S]) -> list[S]:
    return [one for one in statements if isinstance(one, kind)]


def count_sentences(kb: KnowledgeBase, keys: Sequence[Key]) -> Counter[str]:
    """How many there are, and how often each thing went well."""
    count: Counter[str] = Counter()
    for key in keys:
        statements = hear(key["say"], kb)
        found = of_kind(statements, Found)
        if "vague" in key:
            count.update({"vague": 1, "vague, nothing opened": not any(one.clear for one in found)})
            continue
        first = found[0] if found else None
        place, mark = (first is not None and getattr(first, what) in key[what] for what in ("zone", "sign"))
        count.update({"sentences": 1, "place first": place, "mark first": mark, "both first": place and mark})
        count["both among four"] += any(_is(choice, key) for one in found for choice in one.choices)
        count["wrong and not asked"] += first is not None and first.clear and not (place and mark)
        sizes = of_kind(statements, Measured)
        if "size" in key:
            count.update({"sizes": 1, "size right": any(_same(one, key["size"]) for one in sizes)})
        else:
            count["sizes invented"] += bool(sizes)
    return count


def count_stories(kb: KnowledgeBase, keys: Sequence[Key]) -> Counter[str]:
    """How many things there are to take from the stories, and how many of each were taken."""
    count: Counter[str] = Counter()
    for key in keys:
        statements = hear(key["say"], kb)
        found = of_kind(statements, Found)
        worst, *others = key["found"] or [None]
        if worst:
            count.update({"worrying marks": 1, "worrying mark right": any(_is(one, worst) for one in found)})
            count["worrying mark among four"] += _asked(found, worst)
        for other in others:
            count.update({"other marks": 1, "other mark found or asked": _asked(found, other)})
        denied = of_kind(statements, Denied)
        if "denied" in key:
            count.update({"stories that deny": 1, "denial heard": bool(denied)})
        count["denied and found"] += sum(_overlaps(one, denied) for one in found if one.clear)
        for one in key.get("passed", ()):
            heard = [p for p in of_kind(statements, Passed) if p.zone in one["zone"] or not p.zone]
            count.update({"passes": 1, "pass heard": any(p.scale in (*one["scale"], "") for p in heard)})
        for one in key.get("sizes", ()):
            sized = [m for m in of_kind(statements, Measured) if _same(m, one["size"])]
            count.update({"sizes": 1, "size right": bool(sized)})
            count["size bound"] += any(one["measure"] in _measures(kb, m.measure) for m in sized)
        _named(count, "event", key.get("events", ()), [one.event for one in of_kind(statements, Told)])
        _named(count, "question", key.get("questions", ()), [one.about for one in of_kind(statements, Asked)])
        if "unseen" in key:
            count.update({"not looked at": 1, "not looked at, heard": bool(of_kind(statements, NotLooked))})
    return count


def count_voices(kb: KnowledgeBase, keys: Sequence[Key]) -> Counter[str]:
    """As of stories; and, their keys being full, each denial, and what is heard that nobody told."""
    count = count_stories(kb, keys)
    for key in keys:
        statements = hear(key["say"], kb)
        denied = [one.sign for one in of_kind(statements, Denied)]
        for signs in key.get("denied", ()):
            count.update({"denials": 1, "each denial heard": not set(signs).isdisjoint(denied)})
        _named(count, "fact", key.get("facts", ()), [one.fact for one in of_kind(statements, BoatFact)])
        told = [one for one in of_kind(statements, Told) if one.event not in key.get("events", ())]
        asked = [one for one in of_kind(statements, Asked) if one.about not in key.get("questions", ())]
        sized = [
            one for one in of_kind(statements, Measured) if not any(_same(one, m["size"]) for m in key.get("sizes", ()))
        ]
        count.update({"events that nobody told": len(told), "questions that nobody asked": len(asked)})
        count["sizes that nobody told"] += len(sized)
        found = of_kind(statements, Found)
        theirs = [one for one in found if any(_is(choice, mark) for mark in key["found"] for choice in one.choices)]
        count.update({"marks heard": len(found), "marks that nobody told": len(found) - len(theirs)})
        count["marks told twice"] += len(theirs) - _apart(theirs, key["found"])
        first = [one for one in found if one.clear]
        right = [one for one in first if any(_is(one, mark) for mark in key["found"])]
        count.update({"proposed by itself": len(first), "proposed by itself and wrong": len(first) - len(right)})
        passed = [one for one in of_kind(statements, Passed) if one.zone and one.scale]
        meant = [one for one in passed if any(_passes(one, well) for well in key.get("passed", ()))]
        count.update({"passes taken": len(passed), "passes that nobody told": len(passed) - len(meant)})
    return count


def _apart(found: Sequence[Found], marks: Sequence[Key]) -> int:
    """Of how many marks these tell, each of one that none before it told of."""
    told: set[int] = set()
    for one in found:
        new = [n for n, mark in enumerate(marks) if n not in told and any(_is(choice, mark) for choice in one.choices)]
        told.update(sorted(new, key=lambda n: not _is(one, marks[n]))[:1])
    return len(told)


def _passes(one: Passed, key: Key) -> bool:
    return one.zone in key["zone"] and one.scale in key["scale"]


def _named(count: Counter[str], what: str, wanted: Iterable[str], heard: Sequence[str]) -> None:
    for one in wanted:
        count.update({f"{what}s": 1, f"{what} heard": one in heard})


def _is(one: Any, key: Key) -> bool:
    return one.zone in key["zone"] and one.sign in key["sign"]


def _asked(found: Sequence[Found], key: Key) -> bool:
    return any(_is(choice, key) for one in found for choice in one.choices)


def _overlaps(one: Statement, others: Iterable[Statement]) -> bool:
    return any(other.start <= one.start and one.end <= other.end for other in others)


def _measures(kb: KnowledgeBase, name: str) -> tuple[str, ...]:
    """The measure, and those that it is one of: how far it sounds dull is how far it reaches."""
    known = kb.lexicon.speech.sizing.measures.get(name)
    return (name, *(known.of if known else ()))


def _same(measured: Measured, said: str) -> bool:
    unit = said.split(" ", 1)[1]
    try:
        ends = [in_unit(f"{end:.4f} {measured.unit}", unit) for end in (measured.low, measured.high)]
    except NotAQuantity:
        return False
    wanted = float(said.split()[0])
    return 0.9 * min(ends) <= wanted <= 1.1 * max(ends)


COUNTING: dict[str, Callable[[KnowledgeBase, Sequence[Key]], Counter[str]]] = {
    "sentences": count_sentences,
    "complaints": count_sentences,
    "further_complaints": count_sentences,
    "stories": count_stories,
    "voices": count_voices,
    "strangers": count_voices,
    "tellers": count_voices,
    "happenings": count_voices,
    "observations": count_observations,
}
