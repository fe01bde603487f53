"""The reader of YAML and JSON: what it takes, what it refuses, and where it says that something stands."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.strategies import plain_values
from triage.errors import Problem
from triage.parsing.building import MAX_DEPTH, MAX_PARTS
from triage.parsing.documents import MAX_BYTES, MAX_EXCERPT, MAX_TOLD, read_document


def value_of(text: str | bytes) -> Any:
    document = read_document(text, "a file")
    assert document.problems == []
    assert not document.broken
    return document.value


def only_problem(text: str | bytes) -> Problem:
    (problem,) = read_document(text, "a file").problems
    return problem


def at(text: str | bytes) -> tuple[int, int]:
    place = only_problem(text).place
    return place.line, place.column


@pytest.mark.parametrize(
    "word", ["no", "yes", "on", "off", "true", "False", "NO", "y", "1e5", "0x1F", "1_000", "1:30", ".inf"]
)
def test_a_word_stays_the_word_that_was_written(word: str) -> None:
    assert {"bow_pole": word} == value_of(f"bow_pole: {word}\n")


@pytest.mark.parametrize("written", ["2026-04-11", "2026-04-11T10:00:00Z", "007", "1234567890123456"])
def test_dates_long_numbers_and_leading_zeros_stay_text(written: str) -> None:
    assert {"said": written} == value_of(f"said: {written}\n")


@pytest.mark.parametrize(
    ("written", "number"),
    [("5", 5), ("-3", -3), ("+3", 3), ("0", 0), ("1.50", 1.5), (".5", 0.5), ("5.", 5.0), ("-.5", -0.5)],
)
def test_plain_numbers_are_numbers(written: str, number: float) -> None:
    value = value_of(f"said: {written}\n")["said"]

    assert (number, type(number)) == (value, type(value))


@pytest.mark.parametrize("written", ["'5'", '"5"'])
def test_a_number_in_quotes_is_text(written: str) -> None:
    assert {"said": "5"} == value_of(f"said: {written}\n")


@pytest.mark.parametrize("written", ["", "~", "null", "Null"])
def test_an_empty_value_is_nothing(written: str) -> None:
    assert {"said": None} == value_of(f"said: {written}\n")


@pytest.mark.parametrize("text", ["", "   \n", "# a remark\n", "---\n", b"\xef\xbb\xbf"])
def test_an_empty_file_is_nothing(text: str | bytes) -> None:
    assert value_of(text) is None


def test_a_byte_order_mark_is_passed_over() -> None:
    assert {"a": 1} == value_of(b"\xef\xbb\xbfa: 1\n") == value_of("\ufeffa: 1\n")


def test_block_texts_keep_or_fold_their_lines() -> None:
    assert {"kept": "one\ntwo\n", "folded": "one two\n"} == value_of("kept: |\n  one\n  two\nfolded: >\n  one\n  two\n")


def test_a_key_that_stands_twice_is_told_with_both_places_and_the_first_counts() -> None:
    document = read_document("boat: Wagtail\nlength: 4 m\nboat: Dunlin\n", "a file")

    assert {"boat": "Wagtail", "length": "4 m"} == document.value
    assert ['"boat" stands twice here (first in line 1)'] == [problem.what for problem in document.problems]
    assert (3, 1) == (document.problems[0].place.line, document.problems[0].place.column)


def test_the_same_key_in_different_places_is_no_mistake() -> None:
    assert {"a": {"x": 1}, "b": {"x": 2}, "c": [{"x": 3}, {"x": 4}]} == value_of(
        "a: {x: 1}\nb: {x: 2}\nc:\n  - x: 3\n  - x: 4\n"
    )


@pytest.mark.parametrize(
    ("text", "told", "line", "column"),
    [
        ("a: &bow {b: 1}\n", 'the shorthand "&bow" is not used here', 1, 4),
        ("a: 1\nb: *bow\n", 'the shorthand "*bow" is not used here', 2, 4),
        ("a: ! 5\n", 'the tag "!" is not used here', 1, 4),
        ("a: !!str no\n", 'the tag "!!str" is not used here', 1, 4),
        ("a: !!python/object:os.system {}\n", 'the tag "!!python/object:os.system" is not used here', 1, 4),
        ("a: 1\n---\nb: 2\n", "a second document in one file", 2, 1),
        ("? [a, b]\n: 1\n", "a key must be a word", 1, 3),
        ("a:\n\tb: 1\n", "a tab stands here", 2, 1),
        ("a: >\n\tx\n", "a tab stands here", 2, 1),
        ("a: 1\nfoo\nb: 2\n", "a line without a colon", 2, 1),
        ("a: 'open\nb: 2\n", "a quote that is opened here and never closed", 1, 4),
        ("a: [1, 2\nb: 3\n", 'the "[" of line 1 is not closed before this', 2, 2),
        ('{"a": 1 "b": 2}', 'the "{" of line 1 is not closed before this', 1, 12),
        ("a: b: c\n", "a colon that cannot stand here", 1, 5),
        ("a: 'it's'\n", "this does not fit what stands before it", 1, 8),
        ("- a\nb: 1\n", "this does not fit the list above", 2, 1),
        ("a: - b\n", "a list that begins in the middle of a line", 1, 4),
        ('a: "C:\\photos"\n', "a backslash that means nothing here", 1, 7),
        ('a: "\\ud83d"\n', "a backslash that means nothing here", 1, 7),
        ("{a: 1}}", "something stands after the end", 1, 7),
        ("a: & co\n", '"&" cannot begin a text', 1, 4),
        ("a: @home\n", '"@" cannot begin a text', 1, 4),
        ("a: , b\n", '"," cannot begin a text', 1, 4),
        ("{", "the text ends before it is complete", 1, 2),
        ('{"a":\n', "the text ends before it is complete", 2, 1),
        ("{" * 1500, "brackets in brackets in brackets, too many", 1, 1001),
    ],
)
def test_what_is_not_used_here_is_told_in_plain_words_where_it_stands(
    text: str, told: str, line: int, column: int
) -> None:
    problem = only_problem(text)

    assert told == problem.what
    assert (line, column) == (problem.place.line, problem.place.column)
    assert problem.hint


def test_what_the_parser_says_of_a_rarer_fault_is_passed_on() -> None:
    assert only_problem("%FOO\na: 1\n").what == "this cannot be read: found unknown directive name"


def test_mistakes_of_form_are_told_together() -> None:
    document = read_document("a: &x 1\na: 2\nb: *x\nc: !!int 3\n", "a file")

    assert [1, 2, 3, 4] == [problem.place.line for problem in document.problems]
    assert not document.broken


@pytest.mark.parametrize("text", ["a: 1\nb: [2, 3\nc: 4\n", "a: 1\n---\nb: 2\n", "[" * 50, "a: \x07\n"])
def test_reading_stops_at_what_hides_the_rest(text: str) -> None:
    document = read_document(text, "a file")

    assert document.broken
    assert 1 == len(document.problems)


def test_json_is_read_with_tabs_between_its_parts() -> None:
    assert {"a": 1, "b": ["true", None, "x"]} == value_of('{\n\t"a":\t1,\n\t"b": [true, null, "x"]\n}')


def test_json_escapes_beyond_16_bits_are_one_character() -> None:
    assert {"note": "⛵ and 🛶, not \\ud83d\\udef6"} == value_of(
        json.dumps({"note": "⛵ and 🛶, not \\ud83d\\udef6"}, ensure_ascii=True)
    )


@given(plain_values())
def test_whatever_json_says_comes_back_as_it_was(value: Any) -> None:
    for ascii_only in (True, False):
        assert value == value_of(json.dumps(value, ensure_ascii=ascii_only))


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_are_counted_whatever_ends_them(end: str) -> None:
    problem = only_problem(f"a: 1{end}b: 2{end}a: 3{end}")

    assert (3, "a: 3") == (problem.place.line, problem.excerpt)


def test_letters_outside_ascii_do_not_shift_the_place() -> None:
    assert (2, 13) == at("größe: 'äöü'\né: {ü: 'ß', ü: 2}\n")


@pytest.mark.parametrize("bad", ["\x00", "\x07", "\x1b", "\x7f", "\x9b", "\ufeff", "\ufffe", "\ud800"])
def test_a_character_that_cannot_stand_in_text_is_told_where_it_stands(bad: str) -> None:
    problem = only_problem(f"é: 1\nnote: ab{bad}c\n")

    assert f"a character that cannot stand in text (code {ord(bad)})" == problem.what
    assert (2, 9) == (problem.place.line, problem.place.column)
    assert "note: ab�c" == problem.excerpt


@pytest.mark.parametrize("escape", ["\\x1b", "\\e", "\\0", "\\a", "\\x9b"])
def test_control_characters_cannot_be_smuggled_in_by_escapes(escape: str) -> None:
    assert "a character that cannot stand in text" in only_problem(f'note: "a{escape}[2J"\n').what


@pytest.mark.parametrize(("raw", "byte"), [(b"a: caf\xe9\n", 7), ("a: 1".encode("utf-16"), 1), (b"\x89PNG\r\n", 1)])
def test_what_is_not_utf_8_is_refused_with_the_byte(raw: bytes, byte: int) -> None:
    document = read_document(raw, "a file")

    assert [("a file", f"this is not plain text (byte {byte})")] == [(str(p.place), p.what) for p in document.problems]
    assert document.broken


def test_a_file_may_be_as_large_as_the_limit_and_no_larger() -> None:
    assert read_document("#" * MAX_BYTES, "a file").problems == []
    assert "this file is too large (at most 2 MB)" == only_problem("#" * (MAX_BYTES + 1)).what


@pytest.mark.parametrize(("opens", "closes"), [("[", "]"), ("{a: ", "}")])
def test_nesting_is_bounded(opens: str, closes: str) -> None:
    assert read_document(opens * MAX_DEPTH + "1" + closes * MAX_DEPTH, "a file").problems == []
    assert f"nested deeper than {MAX_DEPTH} levels" == only_problem(opens * (MAX_DEPTH + 1)).what


def test_nesting_by_lines_is_bounded_too() -> None:
    assert f"nested deeper than {MAX_DEPTH} levels" == only_problem("- " * 3000 + "a").what


def test_a_file_may_have_as_many_words_and_values_as_the_limit_and_no_more() -> None:
    around = len(["stream", "document", "list"]) * 2
    most = MAX_PARTS - around

    assert read_document(f"[{'1,' * most}]", "a file").problems == []
    problem = only_problem(f"[{'1,' * (most + around)}]")
    assert f"more than {MAX_PARTS} words and values in one file" == problem.what
    assert problem.hint


def test_a_problem_is_told_in_one_line_of_bounded_length() -> None:
    document = read_document("a: 1\n", "a file")

    problem = document.problem(("a",), 'no zone is called "de\tck\nof\x85her\u2028"', "Say\nit.")
    long = document.problem(("a",), "x" * 10_000, "y" * 10_000)

    assert ('no zone is called "de ck of her "', "Say it.") == (problem.what, problem.hint)
    assert MAX_TOLD == len(long.what) == len(long.hint)


def test_every_part_knows_where_it_stands() -> None:
    text = "boat:\n  name: Wagtail\nfindings:\n  - zone: stem\n    readings: {depth: 1}\n  - zone: tank\n"

    marks = read_document(text, "a file").marks

    assert {
        (): (1, 1),
        ("boat",): (1, 1),
        ("boat", "name"): (2, 3),
        ("findings",): (3, 1),
        ("findings", 0): (4, 5),
        ("findings", 0, "zone"): (4, 5),
        ("findings", 0, "readings"): (5, 5),
        ("findings", 0, "readings", "depth"): (5, 16),
        ("findings", 1): (6, 5),
        ("findings", 1, "zone"): (6, 5),
    } == marks


def test_a_part_that_is_not_there_stands_where_it_would_have_to() -> None:
    document = read_document("boat:\n  name: Wagtail\n", "a file")

    assert "a file:1:1" == str(document.place(("boat", "length")))
    assert "a file:2:3" == str(document.place(("boat", "name", "first", 3)))
    assert "an empty file" == str(read_document("", "an empty file").place(("boat",)))


def test_a_long_line_is_shown_around_the_place_with_the_caret_under_it() -> None:
    text = "{" + ", ".join(f"key{n}: {n}" for n in range(100)) + ", key50: again}"

    problem = only_problem(text)

    assert MAX_EXCERPT >= len(problem.excerpt)
    line, caret = str(problem).splitlines()[1:3]
    assert line[caret.index("^") :].startswith("key50: again")


def test_a_problem_shows_where_what_the_line_and_the_remedy() -> None:
    assert (
        'survey.yaml:2:1: "a" stands twice here (first in line 1)\n       2 | a: 2\n           ^\n    Keep one of them.'
    ) == str(read_document("a: 1\na: 2\n", "survey.yaml").problems[0])


@given(st.one_of(st.text(), st.binary(), st.text(alphabet="{}[]:,-?&*!|>'\"%@`#\n\t \\abé")))
def test_no_text_makes_the_reader_fail(text: str | bytes) -> None:
    document = read_document(text, "a file")

    assert document.problems or not document.broken
    for problem in document.problems:
        assert problem.what
        assert problem.hint
        assert 0 <= problem.place.line <= len(document.lines)
