"""The handbook: complete, every link leads somewhere, and nothing that is not its own is overwritten."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from click.testing import CliRunner

from tests.mistakes import small_base
from triage.cli import main
from triage.errors import BadInput
from triage.knowledge.model import KnowledgeBase, Measure
from triage.views.handbook import MARKER, Handbook, limit, times, write_handbook
from triage.views.rule_text import anchor

VOID = {"meta", "br", "img", "link"}


class Page(HTMLParser):
    """A page whose tags nest, with its ids, links and text."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.ids: set[str] = set()
        self.links: list[str] = []
        self.headings: list[int] = []
        self.open: list[str] = []
        self.words: list[str] = []
        self.feed(html)
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if given.get("id"):
            assert given["id"] not in self.ids, f"{given['id']} stands twice"
            self.ids.add(given["id"] or "")
        if tag == "a":
            self.links.append(given["href"] or "")
        if re.fullmatch(r"h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


@pytest.fixture(scope="module")
def folder(kb: KnowledgeBase, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("handbook") / "new"
    write_handbook(kb, folder)
    return folder


@pytest.fixture(scope="module")
def pages(folder: Path) -> dict[str, Page]:
    return {file.name: Page(file.read_text(encoding="utf-8")) for file in folder.glob("*.html")}


def test_every_link_leads_to_a_place_on_a_page(pages: dict[str, Page]) -> None:
    links = {(name, link) for name, page in pages.items() for link in page.links}

    astray = []
    for name, link in sorted(links):
        target, _, place = link.partition("#")
        page = pages.get(target or name)
        if page is None or (place and place not in page.ids):
            astray.append((name, link))

    assert len(links) > 3000
    assert [] == astray


def test_every_rule_stands_on_its_page_with_its_reason_basis_and_examples(
    kb: KnowledgeBase, pages: dict[str, Page]
) -> None:
    book = Handbook(kb)

    for rule in kb.all_rules:
        page = pages[book.page_of(rule)]
        assert anchor("rule", rule.id) in page.ids
        assert rule.id in page.text
        assert " ".join(rule.because.split()) in page.text
        assert rule.basis.kind in page.text.lower()
    assert sum(page.text.count("Examples that prove it") for page in pages.values()) == len(kb.all_rules)


def test_every_place_sign_check_and_scale_has_its_own_place(kb: KnowledgeBase, pages: dict[str, Page]) -> None:
    assert {anchor("zone", id_) for id_ in kb.zones} <= pages["walk.html"].ids
    assert {anchor("sign", id_) for id_ in kb.signs} <= pages["signs.html"].ids
    assert {anchor("check", id_) for id_ in kb.checks} <= pages["checks.html"].ids
    assert {anchor("scale", id_) for id_ in kb.scales} <= pages["scales.html"].ids
    assert {anchor("cause", id_) for id_ in kb.causation.causes} <= pages["causes.html"].ids
    assert {anchor("hazard", id_) for id_ in kb.mending.hazards} <= pages["repairs.html"].ids


def test_signs_are_named_in_sentences_by_their_names(kb: KnowledgeBase, pages: dict[str, Page]) -> None:
    for sign in kb.signs:
        assert "_" not in sign or sign not in pages["signs.html"].text


def test_headings_never_skip_a_level_and_each_page_has_one_title(pages: dict[str, Page]) -> None:
    for name, page in pages.items():
        assert 1 == page.headings.count(1), name
        for before, after in zip(page.headings, page.headings[1:], strict=False):
            assert after <= before + 1, name


def test_no_page_promises_or_tells_a_chance_in_figures(pages: dict[str, Page]) -> None:
    for name, page in pages.items():
        assert re.search(r"\bsafe\b", page.text, re.IGNORECASE) is None, name
    assert re.search(r"0\.\d+|\d %|\d%", pages["causes.html"].text) is None


def test_it_is_written_anew_over_an_older_one_and_not_over_anything_else(kb: KnowledgeBase, tmp_path: Path) -> None:
    book, other = tmp_path / "book", tmp_path / "other"
    other.mkdir()
    (other / "letter.txt").write_text("Dear all")

    write_handbook(kb, book)
    (book / "my-own.html").write_text("stays")
    (book / MARKER).write_text((book / MARKER).read_text() + "rules-of-old.html\n")
    (book / "rules-of-old.html").write_text("gone")
    count = write_handbook(kb, book)

    assert count + 1 == len(list(book.glob("*.html")))
    assert not (book / "rules-of-old.html").exists()
    assert "stays" == (book / "my-own.html").read_text()
    with pytest.raises(BadInput, match="not a handbook of ours"):
        write_handbook(kb, other)
    assert ["letter.txt"] == [file.name for file in other.iterdir()]


def test_no_page_can_be_sent_elsewhere_or_send_anything(folder: Path) -> None:
    for file in folder.glob("*.html"):
        policy = re.search(r'Content-Security-Policy" content="([^"]*)"', file.read_text(encoding="utf-8"))
        assert policy
        assert {"default-src 'none'", "base-uri 'none'", "form-action 'none'"} <= set(policy[1].split("; "))


def test_the_command_refuses_a_folder_that_holds_something_else(tmp_path: Path) -> None:
    (tmp_path / "handbook.css").write_text("mine")
    (tmp_path / "index.html").write_text("mine")

    result = CliRunner().invoke(main, ["rules", "handbook", str(tmp_path)])

    assert 2 == result.exit_code
    assert "already holds something that is not a handbook of ours" in result.stderr
    assert "mine" == (tmp_path / "index.html").read_text()


def test_rules_of_ones_own_make_a_handbook_too(tmp_path: Path) -> None:
    kb = small_base()

    write_handbook(kb, tmp_path / "book")

    page = Page((tmp_path / "book/rules-rules.html").read_text(encoding="utf-8"))
    assert "Rules" in page.text
    assert all(rule.id in page.text for rule in kb.all_rules)


def test_the_command_writes_it_and_says_where_to_start(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["rules", "handbook", str(tmp_path / "book")])

    assert 0 == result.exit_code, result.output
    assert "start with" in result.output
    assert (tmp_path / "book/index.html").exists()


@pytest.mark.parametrize(
    ("measure", "level", "expected"),
    [
        (Measure("mm", (0.2, 0.5, 1.5)), 2, "from 0.5 mm"),
        (Measure("mm", (0, 1, 2)), 1, "anything above nothing (mm)"),
        (Measure("mm", (100, 51, 20), smaller_is_worse=True), 1, "below 100 mm"),
        (Measure("mm", (None, 1, 2)), 1, ""),
        (Measure("mm", (float("-inf"), 0, 10)), 1, ""),
        (None, 1, ""),
    ],
)
def test_a_level_tells_where_it_begins(measure: Measure | None, level: int, expected: str) -> None:
    assert expected == limit(measure, level)


def test_how_often_a_check_misses_is_told_without_a_percentage() -> None:
    assert "about 1 time in 5" == times(0.2)
    assert "hardly ever" == times(0)
