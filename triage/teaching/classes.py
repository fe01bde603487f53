"""What a class made of its cases: one small file on the trainer's machine. Of people it holds a nickname, no more."""

from __future__ import annotations

import itertools
import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field, TypeAdapter, ValidationError

from triage.errors import BadInput, CannotWork, Place, Problem
from triage.files import cannot, make_folder, read_bounded, write_whole
from triage.knowledge.model import HANDS, VERDICT, KnowledgeBase
from triage.survey.lock import held
from triage.teaching.questions import NEXT, NOT_YET
from triage.teaching.sheet import Marked, next_is_right

FORMAT: Literal[1] = 1
MOST_BYTES, MOST_RESULTS = 5_000_000, 5000
"""Of a class; beyond them it is no class of ours."""

_CODE = re.compile(r"[A-Za-z0-9][A-Za-z0-9-]{0,19}")
MOST_NAME = 20
"""Characters of a nickname."""

_NICK = re.compile(rf"\w[\w .-]{{0,{MOST_NAME - 1}}}")
When = Literal["", "before", "after"]
"""Before or after a lesson; empty where nobody compares."""


@dataclass(frozen=True)
class Result:
    """One run of one learner. Verdicts by their number, mildest first; None: said to be not cleared yet.

    ``confidence`` in percent; ``right`` and the points as `sheet` marks them.
    """

    name: str
    case: str
    zone: str
    sign: str
    verdict: int | None
    key: int
    right: bool
    confidence: Annotated[int, Field(ge=0, le=100)]
    points: int
    of: int
    minutes: float
    least_minutes: float
    next_right: bool
    cause_right: bool
    hands_right: bool
    when: When = ""


@dataclass(frozen=True)
class _Kept:
    """The file of a class."""

    code: str
    format: Literal[1]
    results: tuple[Result, ...] = ()


@dataclass(frozen=True)
class Class:
    """All that was played under one code. Figures are about first tries; whoever plays a case again practises."""

    code: str
    results: tuple[Result, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """The nicknames, in the order in which they came."""
        return tuple(dict.fromkeys(result.name for result in self.results))

    @property
    def first_tries(self) -> tuple[Result, ...]:
        """The first run of each learner at each case."""
        return first_tries(self.results)

    @property
    def cases(self) -> tuple[str, ...]:
        """The cases, in the order in which they were first played."""
        return tuple(dict.fromkeys(result.case for result in self.results))


def first_tries(results: Iterable[Result]) -> tuple[Result, ...]:
    """Of these runs the first of each learner at each case: later ones know the answer."""
    first: dict[tuple[str, str], Result] = {}
    for result in results:
        first.setdefault((result.name, result.case), result)
    return tuple(first.values())


def result_of(kb: KnowledgeBase, marked: Marked, name: str, when: When = "") -> Result:
    """A marked run as it is kept. Raises BadInput for what is no nickname."""
    state, said = marked.state, marked.state.answer(VERDICT)
    levels = [level.name for level in kb.scales[VERDICT].levels]
    return Result(
        name=nickname(name),
        case=state.case.name,
        zone=state.case.mark.zone,
        sign=state.case.mark.sign,
        verdict=None if said == NOT_YET else levels.index(said),
        key=state.key.finding.verdict.levels[1],
        right=marked.right,
        confidence=marked.confidence,
        points=marked.points,
        of=marked.of,
        minutes=state.minutes,
        least_minutes=state.key.minutes,
        next_right=bool(state.answer(NEXT)) and next_is_right(marked),
        cause_right=marked.cause_right,
        hands_right=state.answer(HANDS) == state.key.finding.hands.now,
        when=when,
    )


def nickname(name: str) -> str:
    """The nickname. Raises BadInput for what cannot be one."""
    if not _NICK.fullmatch(name):
        raise BadInput([Problem(Place("the nickname"), f'"{name}" cannot be one', "Give 1 to 20 letters and figures.")])
    return name


def known_as(name: str, names: Iterable[str]) -> str:
    """Which of the nicknames of a class this one is, however it is written; empty for a new one."""
    return next((one for one in names if one.casefold() == name.casefold()), "")


def free_name(name: str, names: Iterable[str]) -> str:
    """The nickname with the first number that makes it one of its own."""
    taken = {one.casefold() for one in names}
    numbered = (f"{name[: MOST_NAME - len(str(number)) - 1].rstrip()} {number}" for number in itertools.count(2))
    return next(one for one in numbered if one.casefold() not in taken)


def class_code(code: str) -> str:
    """The code of a class, in capitals however it was typed. Raises BadInput for what cannot be one."""
    if not _CODE.fullmatch(code):
        hint = "Give 1 to 20 letters and figures, such as AUTUMN-3."
        raise BadInput([Problem(Place("the class"), f'"{code}" cannot be its code', hint)])
    return code.upper()


def class_file(code: str, folder: Path) -> Path:
    """Where a class is kept, under a name that may be written in any case. Raises BadInput for what is no code."""
    name = f"class-{class_code(code)}.json"
    kept = (file for file in sorted(folder.glob("class-*.json")) if file.name.casefold() == name.casefold())
    return next(kept, folder / name)


def read_class(code: str, folder: Path) -> Class:
    """What was kept of a class; nothing where it has not played yet. Raises BadInput and CannotWork."""
    file = class_file(code, folder)
    if not file.exists():
        return Class(class_code(code))
    body = read_bounded(file, MOST_BYTES + 1)
    try:
        kept = TypeAdapter(_Kept).validate_json(body, strict=True)
    except ValidationError:
        hint = "Put a copy of yours in its place, or take it away and begin anew."
        raise BadInput([Problem(Place(str(file)), "this is not what was kept of a class", hint)]) from None
    return Class(class_code(code), kept.results)


def keep(result: Result, code: str, folder: Path) -> Class:
    """Add a run to its class, whoever else adds one at the same time. Raises BadInput and CannotWork."""
    file = class_file(code, folder)
    make_folder(folder)
    try:
        with held(file):
            known = read_class(code, folder)
            if len(known.results) >= MOST_RESULTS:
                raise CannotWork(f"Cannot keep more in {file}: it has {MOST_RESULTS} runs. Begin another class.")
            after = Class(known.code, (*known.results, result))
            write_whole(file, class_text(after))
            return after
    except TimeoutError:
        raise CannotWork(f"Cannot write {file}: somebody else is busy writing it. Try again.") from None
    except OSError as error:
        raise cannot(f"Cannot write {file}", error) from None


def class_text(one: Class) -> str:
    """A class as its file holds it."""
    kept = _Kept(one.code, FORMAT, one.results)
    return json.dumps(asdict(kept), indent=1, ensure_ascii=False) + "\n"


def of_when(results: Sequence[Result], when: When) -> tuple[Result, ...]:
    """The runs before or after a lesson."""
    return tuple(result for result in results if result.when == when)
