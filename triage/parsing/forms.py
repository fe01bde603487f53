"""Checking the shape of a document with pydantic, and saying what is wrong in plain words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ConfigDict, ValidationError

from triage.errors import Problem
from triage.parsing.documents import Document, Path
from triage.parsing.text import did_you_mean


class Form(BaseModel):
    """A part of a file: unknown keys are refused, numbers may stand where text is wanted."""

    model_config = ConfigDict(extra="forbid", frozen=True, coerce_numbers_to_str=True, allow_inf_nan=False)


_BLOCK = 'a block of "word: …" lines'
_DATE = "a date such as 2026-04-12"
_KINDS = {
    "string": "a text",
    "int": "a whole number",
    "float": "a number",
    "list": "a list",
    "tuple": "a list",
    "dict": _BLOCK,
    "model": _BLOCK,
    "date": _DATE,
}
_HINTS = {
    "a list": 'Write [one, two], or a line "- one" for each.',
    _BLOCK: 'Write each as "word: …" in a line of its own, indented.',
    _DATE: "Write year-month-day.",
}
_EMPTY = "Fill it in, or take the line out."
_COMMA = "Between { } a comma ends a text: put the whole text in quotes."

F = TypeVar("F", bound=Form)


def fill(form: type[F], value: Any, document: Document, path: Path = ()) -> F | None:
    """``value`` as a ``form``; what does not fit is added to the document's problems and None comes back."""
    try:
        return form.model_validate(value)
    except ValidationError as error:
        at: dict[Path, list[Any]] = {}
        missing: dict[Path, list[str]] = {}
        for found in error.errors():
            loc = _real(found["loc"], document, path)
            if found["type"] == "missing" and isinstance(loc[-1], str):
                missing.setdefault(loc[:-1], []).append(loc[-1])
            else:
                at.setdefault(loc, []).append(found)
        document.problems.extend(_missing(words, document, (*path, *loc)) for loc, words in missing.items())
        document.problems.extend(_problem(form, found, document, path, loc) for loc, found in at.items())
        return None


def fill_what_fits(form: type[F], value: Any, document: Document, path: Path = ()) -> F | None:
    """As `fill`, but where words of it do not fit, the form of the others comes back, if there can be one: they may
    hold mistakes too, which are then told with these.
    """
    filled = fill(form, value, document, path)
    if filled is not None or not isinstance(value, dict):
        return filled
    try:
        form.model_validate(value)
    except ValidationError as error:
        at_fault = {found["loc"][0] for found in error.errors() if found["loc"]}
    try:
        return form.model_validate({word: one for word, one in value.items() if word not in at_fault})
    except ValidationError:
        return None


def _missing(words: Sequence[str], document: Document, here: Path) -> Problem:
    told = [f'"{word}"' for word in words]
    if len(told) == 1:
        return document.problem(here, f"{told[0]} is missing", f'Add a line "{words[0]}: …".')
    return document.problem(here, f"{', '.join(told[:-1])} and {told[-1]} are missing", "Add a line for each.")


def _problem(form: type[Form], all_found: Sequence[Any], document: Document, path: Path, loc: Path) -> Problem:
    """What is wrong at one place; there are several findings when a value fits none of several shapes."""
    here = (*path, *loc)
    found = all_found[0]
    kind, said, given = found["type"], found["input"], found.get("ctx", {})
    name = _name(here)
    if kind == "extra_forbidden":
        fields = _fields(form, loc[:-1])
        hint = did_you_mean(str(loc[-1]), fields) or f"It can be: {', '.join(sorted(fields))}."
        return document.problem(here, f"unknown word {name}", _COMMA if _cut_off(said, here) else hint)
    if kind == "missing":
        return document.problem(here, f"{name} is missing", "Add it to the list.")
    if said is None:
        return document.problem(here, f"{name} is empty", _COMMA if _cut_off(said, here) else _EMPTY)
    if kind == "string_pattern_mismatch":
        hint = "Use small letters, digits and underscores, a letter first."
        if "/" in given["pattern"]:
            hint = "Write area/what-it-notices, in small letters, digits and dashes."
        return document.problem(here, f'"{said}" cannot be used as a name here', hint)
    if kind in ("too_short", "string_too_short"):
        if given["min_length"] > 1:
            return document.problem(here, f"{name} needs at least {given['min_length']} entries", "Add the others.")
        return document.problem(here, f"{name} is empty", _EMPTY)
    if kind in ("too_long", "string_too_long"):
        what = "entries" if kind == "too_long" else "characters"
        return document.problem(here, f"{name} is too long", f"It may have {given['max_length']} {what} at most.")
    if kind in ("greater_than_equal", "less_than_equal", "greater_than", "less_than"):
        return document.problem(here, f"{name} cannot be {said}", found["msg"].replace("Input s", "It s") + ".")
    return _wrong_kind(all_found, document, here, name)


def _wrong_kind(all_found: Sequence[Any], document: Document, here: Path, name: str) -> Problem:
    words: list[str] = []
    wanted: dict[str, None] = {}
    for found in all_found:
        if found["type"] == "literal_error":
            words += [word.strip("'") for word in found["ctx"]["expected"].replace(" or ", ", ").split(", ")]
        else:
            known = (text for start, text in _KINDS.items() if found["type"].startswith(start + "_"))
            wanted[next(known, found["msg"].removeprefix("Input should be "))] = None
    if "a number" in wanted:
        wanted.pop("a whole number", None)
    said = all_found[0]["input"]
    if not wanted and isinstance(said, str) and said in words:  # only what is no text can have been meant
        return document.problem(here, f'{name} should be {said}, not the text "{said}"', "Write it without quotes.")
    if not wanted:
        return document.problem(here, f"{name} cannot be {_describe(said)}", did_you_mean(str(said), words))
    told = " or ".join([*wanted, *(f'"{word}"' for word in words)])
    hint = next((_HINTS[kind] for kind in wanted if kind in _HINTS), "")
    return document.problem(here, f"{name} should be {told}, not {_describe(said)}", hint)


def _cut_off(said: Any, here: Path) -> bool:
    """Whether this looks like the rest of a text that a comma has cut in two."""
    return said is None and any(" " in str(part) for part in here[-1:])


def _name(here: Path) -> str:
    if not here:
        return "this"
    if isinstance(here[-1], int):
        inside = next(part for part in reversed(here) if isinstance(part, str))
        return f'entry {here[-1] + 1} of "{inside}"'
    return f'"{here[-1]}"'


def _real(loc: tuple[Any, ...], document: Document, path: Path) -> Path:
    """``loc`` without the names pydantic gives to the alternatives of a union."""
    here: Path = path
    for index, part in enumerate(loc):
        last = index == len(loc) - 1 and not _names_a_kind(str(part))
        if _stands(document, (*here, part)) or last:
            here = (*here, part)
    return here[len(path) :]


def _stands(document: Document, path: Path) -> bool:
    """Whether there is something at this place; what came without a text has no marks."""
    value = document.value
    for part in path if document.textless else ():
        there = range(len(value)) if isinstance(value, list) else value if isinstance(value, dict) else ()
        if part not in there:
            return False
        value = value[part]
    return document.textless or path in document.marks


def _names_a_kind(part: str) -> bool:
    return "[" in part or part.startswith("constrained-") or part in ("int", "str", "float")


def _describe(said: Any) -> str:
    if isinstance(said, dict):
        return _BLOCK
    if isinstance(said, list):
        return "a list"
    return f'"{str(said)[:40]}"'


def _fields(form: Any, loc: Path) -> list[str]:
    """The keys that may stand at ``loc`` inside ``form``."""
    for part in loc:
        if _is_model(form):
            field = form.model_fields.get(str(part))
            form = field.annotation if field else None
        else:
            form = next(reversed(get_args(form)), None)  # what a list or a dict holds
        form = next((kind for kind in get_args(form) if _is_model(kind) and type(None) in get_args(form)), form)
    return [field.alias or name for name, field in form.model_fields.items()] if _is_model(form) else []


def _is_model(form: Any) -> bool:
    return isinstance(form, type) and issubclass(form, BaseModel)
