"""What is said when a document has not the shape that was expected."""

from __future__ import annotations

from typing import Annotated, Any, Literal

import pytest
from pydantic import Field, StringConstraints

from triage.errors import Problem
from triage.parsing.documents import read_document
from triage.parsing.forms import Form, fill

Word = Annotated[str, StringConstraints(pattern=r"^[a-z_]+$")]
Ruleish = Annotated[str, StringConstraints(pattern=r"^[a-z]+/[a-z]+$")]


class Leaf(Form):
    name: str = Field(min_length=1, max_length=10)
    kind: Literal["sail", "oar", "paddle"] = "sail"
    otherwise: str = Field(default="", alias="else")


class Tree(Form):
    id: Ruleish = "a/b"
    count: int = Field(default=1, ge=1, le=9)
    share: float = Field(default=0.5, gt=0, lt=1)
    edition: Literal[1] = 1
    level: int | str = 0
    answer: int | float | str = ""
    limits: list[float | Literal["any", "none"]] = []
    when: dict[str, Any] | Literal["always"] = "always"
    ways: list[list[str]] = []
    pair: list[str] = Field(default=[], min_length=2)
    span: tuple[float, float] = (1, 2)
    leaf: Leaf | None = None
    leaves: list[Leaf] = []
    by_name: dict[Word, Leaf] = {}


def problems(text: str) -> list[Problem]:
    document = read_document(text, "a file")
    filled = fill(Tree, document.value, document)

    assert (filled is None) == bool(document.problems)
    return sorted(document.problems)


def told(text: str) -> str:
    return "\n".join(f"{p.place.line}:{p.place.column} {p.what} | {p.hint}" for p in problems(text))


def test_a_document_of_the_right_shape_fills_the_form() -> None:
    document = read_document("{count: 3, level: firm, leaves: [{name: 7, else: x}], when: {zone: stem}}", "a file")

    filled = fill(Tree, document.value, document)

    assert [] == document.problems
    assert filled is not None
    assert (3, "firm", {"zone": "stem"}) == (filled.count, filled.level, filled.when)
    assert [("7", "x")] == [(leaf.name, leaf.otherwise) for leaf in filled.leaves]


def test_numbers_may_stand_where_text_is_wanted() -> None:
    assert "" == told("leaf: {name: 2026}")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("cuont: 3", '1:1 unknown word "cuont" | Did you mean "count"?'),
        ("leaf: {name: a, knid: oar}", '1:17 unknown word "knid" | Did you mean "kind"?'),
        ("leaves: [{name: a}, {name: b, esle: oar}]", '1:31 unknown word "esle" | Did you mean "else"?'),
        ("by_name: {ash: {nam: b, name: c}}", '1:17 unknown word "nam" | Did you mean "name"?'),
        ("leaf: {name: a, xyz: 1}", '1:17 unknown word "xyz" | It can be: else, kind, name.'),
        (
            "leaf: {name: old, and worn}",
            '1:19 unknown word "and worn" | Between { } a comma ends a text: put the whole text in quotes.',
        ),
        ("leaf: {}", '1:1 "name" is missing | Add a line "name: …".'),
        ("leaves:\n  - kind: oar", '2:5 "name" is missing | Add a line "name: …".'),
        ("leaves:", '1:1 "leaves" is empty | Fill it in, or take the line out.'),
        ("leaves:\n  - {name: a}\n  -", '3:4 entry 2 of "leaves" is empty | Fill it in, or take the line out.'),
        ("ways: [[a], [b, ]]", ""),
        ("ways: [[a], [b, null]]", '1:17 entry 2 of "ways" is empty | Fill it in, or take the line out.'),
        ("leaf: {name: ''}", '1:8 "name" is empty | Fill it in, or take the line out.'),
        ("leaf: {name: abcdefghijk}", '1:8 "name" is too long | It may have 10 characters at most.'),
        ("pair: [a]", '1:1 "pair" needs at least 2 entries | Add the others.'),
        ("leaf: {name: a, kind: oars}", '1:17 "kind" cannot be "oars" | Did you mean "oar"?'),
        ("leaf: {name: a, kind: [x]}", '1:17 "kind" cannot be a list | It can be: oar, paddle, sail.'),
        ('edition: "1"', '1:1 "edition" should be 1, not the text "1" | Write it without quotes.'),
        ("edition: 2", '1:1 "edition" cannot be "2" | It can be: 1.'),
        ("count: 0", '1:1 "count" cannot be 0 | It should be greater than or equal to 1.'),
        ("share: 1", '1:1 "share" cannot be 1 | It should be less than 1.'),
        ("count: many", '1:1 "count" should be a whole number, not "many" | '),
        ("count: 1.5", '1:1 "count" should be a whole number, not "1.5" | '),
        ("share: half", '1:1 "share" should be a number, not "half" | '),
        ("level: [1]", '1:1 "level" should be a whole number or a text, not a list | '),
        (
            "answer: {a: 1}",
            '1:1 "answer" should be a number or a text, not a block of "word: …" lines | ',
        ),
        (
            "limits: [1, some]",
            '1:13 entry 2 of "limits" should be a number or "any" or "none", not "some" | ',
        ),
        ("span: 5", '1:1 "span" should be a list, not "5" | Write [one, two], or a line "- one" for each.'),
        ("span: [5]", '1:1 entry 2 of "span" is missing | Add it to the list.'),
        ("span: [5, 6, 7]", '1:1 "span" is too long | It may have 2 entries at most.'),
        ("leaf: {name: [a]}", '1:8 "name" should be a text, not a list | '),
        ("leaves: a", '1:1 "leaves" should be a list, not "a" | Write [one, two], or a line "- one" for each.'),
        (
            "leaves: [a]",
            '1:10 entry 1 of "leaves" should be a block of "word: …" lines, not "a" | '
            'Write each as "word: …" in a line of its own, indented.',
        ),
        (
            "when: sometimes",
            '1:1 "when" should be a block of "word: …" lines or "always", not "sometimes" | '
            'Write each as "word: …" in a line of its own, indented.',
        ),
        (
            "by_name: {Ash: {name: a}}",
            '1:11 "Ash" cannot be used as a name here | Use small letters, digits and underscores, a letter first.',
        ),
        (
            "id: Stem Springs",
            '1:1 "Stem Springs" cannot be used as a name here | '
            "Write area/what-it-notices, in small letters, digits and dashes.",
        ),
        (
            "[a, b]",
            '1:1 this should be a block of "word: …" lines, not a list | '
            'Write each as "word: …" in a line of its own, indented.',
        ),
    ],
)
def test_each_kind_of_misfit_is_told_at_its_place_in_plain_words(text: str, expected: str) -> None:
    assert expected == told(text)


def test_everything_that_does_not_fit_is_told_at_once() -> None:
    text = "count: 0\nleaf: {kind: oars}\nleaves: a\nwehn: me\n"

    assert (
        '1:1 "count" cannot be 0 | It should be greater than or equal to 1.\n'
        '2:1 "name" is missing | Add a line "name: …".\n'
        '2:8 "kind" cannot be "oars" | Did you mean "oar"?\n'
        '3:1 "leaves" should be a list, not "a" | Write [one, two], or a line "- one" for each.\n'
        '4:1 unknown word "wehn" | Did you mean "when"?'
    ) == told(text)


class Pair(Form):
    left: str
    middle: str
    right: str


def test_a_missing_word_and_an_unknown_one_at_the_same_place_are_both_told() -> None:
    document = read_document("lift: a\nmiddle: b\nright: c\n", "a file")
    fill(Pair, document.value, document)

    assert {'"left" is missing', 'unknown word "lift"'} == {problem.what for problem in document.problems}
    assert {"a file:1:1"} == {str(problem.place) for problem in document.problems}


def test_several_missing_words_make_one_problem() -> None:
    document = read_document("{}", "a file")
    fill(Pair, document.value, document)

    assert ['"left", "middle" and "right" are missing'] == [problem.what for problem in document.problems]


def test_a_part_of_a_document_is_told_where_it_stands_in_the_whole() -> None:
    document = read_document("trees:\n  - count: 1\n  - count: none\n", "a file")

    fill(Tree, document.value["trees"][1], document, ("trees", 1))

    assert ["a file:3:5"] == [str(problem.place) for problem in document.problems]
