"""Checking the shape of a document with pydantic, and saying what is wrong in plain words."""

from __future__ import annotations

from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ConfigDict, ValidationError

from triage.documents import Document, Path
from triage.errors import Place, Problem, did_you_mean


class Form(BaseModel):
    """A part of a file: unknown keys are refused, numbers may stand where text is wanted."""

    model_config = ConfigDict(extra="forbid", frozen=True, coerce_numbers_to_str=True)


_KINDS = {
    "string": "a text",
    "int": "a whole number",
    "float": "a number",
    "list": "a list",
    "dict": "a mapping (key: value)",
    "model": "a mapping (key: value)",
    "model_attributes": "a mapping (key: value)",
    "date": "a date such as 2026-04-12",
    "date_from_datetime": "a date such as 2026-04-12",
}


F = TypeVar("F", bound=Form)


def fill(form: type[F], value: Any, document: Document, path: Path = ()) -> F | None:
    """``value`` as a ``form``; what does not fit is added to the document's problems and None comes back."""
    try:
        return form.model_validate(value)
    except ValidationError as error:
        problems: dict[Place, Problem] = {}
        for found in error.errors():
            problem = _problem(form, found, document, path)
            problems.setdefault(problem.place, problem)  # a value that fits none of several shapes is told once
        document.problems.extend(problems.values())
        return None


def _problem(form: type[Form], found: Any, document: Document, path: Path) -> Problem:
    loc = _real(found["loc"], document, path)
    here = (*path, *loc)
    kind, said = found["type"], found["input"]
    name = str(loc[-1]) if loc else "this file"
    if kind == "extra_forbidden":
        return document.problem(here, f'unknown word "{name}"', did_you_mean(name, _fields(form, loc[:-1])))
    if kind == "missing":
        return document.problem(here[:-1], f'"{name}" is missing', f'Add a line "{name}: …".')
    if kind == "literal_error":
        expected = [w.strip("'") for w in found["ctx"]["expected"].replace(" or ", ", ").split(", ")]
        return document.problem(here, f'{name} cannot be "{said}"', did_you_mean(str(said), expected))
    if kind == "string_pattern_mismatch":
        what = f'"{said}" cannot be used as a name here'
        return document.problem(here, what, "Use small letters, digits and underscores (rules: area/what-it-notices).")
    if kind in ("too_short", "string_too_short"):
        return document.problem(here, f'"{name}" is empty', "Fill it in, or take the line out.")
    if said is None:
        return document.problem(here, f'"{name}" is empty', "Fill it in, or take the line out.")
    if kind in ("greater_than_equal", "less_than_equal", "greater_than", "less_than"):
        return document.problem(here, f"{name} cannot be {said}", found["msg"].replace("Input s", "It s") + ".")
    wanted = next((text for start, text in _KINDS.items() if kind.startswith(start + "_")), "")
    if wanted:
        return document.problem(here, f'"{name}" should be {wanted}, not {_describe(said)}', "")
    return document.problem(here, f'"{name}": {found["msg"]}', "")


def _real(loc: tuple[Any, ...], document: Document, path: Path) -> Path:
    """``loc`` without the names pydantic gives to the alternatives of a union."""
    here: Path = path
    for index, part in enumerate(loc):
        last = index == len(loc) - 1 and part != "[key]" and "[" not in str(part)
        if (*here, part) in document.marks or (last and str(part) not in ("int", "str", "float")):
            here = (*here, part)
    return here[len(path) :]


def _describe(said: Any) -> str:
    if isinstance(said, dict):
        return "a mapping"
    if isinstance(said, list):
        return "a list"
    return f'"{str(said)[:40]}"'


def _fields(form: Any, loc: tuple[Any, ...]) -> list[str]:
    """The keys that may stand at ``loc`` inside ``form``."""
    for part in loc:
        if isinstance(form, type) and issubclass(form, BaseModel):
            field = form.model_fields.get(str(part))
            form = field.annotation if field else None
        form = _inner(form) if isinstance(part, int) or not _is_model(form) else form
    form = _inner(form)
    return list(form.model_fields) if _is_model(form) else []


def _is_model(form: Any) -> bool:
    return isinstance(form, type) and issubclass(form, BaseModel)


def _inner(form: Any) -> Any:
    """The form inside list[...], dict[str, ...] or an optional."""
    while form is not None and not _is_model(form):
        inside = [arg for arg in get_args(form) if arg is not type(None)]
        if not inside:
            return None
        form = inside[-1]
    return form
