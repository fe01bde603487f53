"""Lessons, cards and the quiz as pages: whole, the same every time, each answer where it belongs."""

from __future__ import annotations

import io
import re
from collections import Counter

import pytest

from triage.drawing.marks import draw_mark
from triage.knowledge.model import KnowledgeBase
from triage.phrases import lessons as says
from triage.teaching.cards import MANY, OF_CONFUSIONS, cases_of, quiz
from triage.views.lessons import Reader, render_confusions, render_lesson, render_quiz, render_sheet
from triage.views.pdf import as_pdf

READERS: tuple[Reader, ...] = ("learner", "trainer", "answers")


@pytest.fixture(scope="module")
def pages(kb: KnowledgeBase) -> dict[str, str]:
    lessons = list(kb.teaching.lessons.values())
    made = {f"{lesson.number} {reader}": render_lesson(kb, lesson, reader) for lesson in lessons for reader in READERS}
    made |= {f"{lesson.number} large": render_lesson(kb, lesson, projector=True) for lesson in lessons}
    made |= {"cards": render_confusions(kb), "cards large": render_confusions(kb, projector=True)}
    made |= {"quiz": render_quiz(kb, 1), "quiz large": render_quiz(kb, 1, projector=True), "sheet": render_sheet(kb)}
    return made


def words(page: str) -> str:
    return " ".join(re.sub(r"<style>.*?</style>|<[^>]+>", " ", page, flags=re.DOTALL).split())


def test_no_page_promises_or_fetches_or_says_an_id_twice(pages: dict[str, str]) -> None:
    for name, page in pages.items():
        assert "safe" not in words(page).lower(), name
        assert "<script" not in page
        assert not re.findall(r'(?:src|href)="(?!#)', page), name
        assert not [one for one, times in Counter(re.findall(r'\bid="([^"]+)"', page)).items() if times > 1], name


def test_answers_are_not_on_the_handout(kb: KnowledgeBase, pages: dict[str, str]) -> None:
    for lesson in kb.teaching.lessons.values():
        handout, answers = (words(pages[f"{lesson.number} {reader}"]) for reader in ("learner", "answers"))
        for question in lesson.questions:
            assert question.ask.split("?")[0] in handout
            assert question.answer[:40] not in handout
        assert says.AT_SIGHT not in handout
        assert len(cases_of(kb, lesson)) == answers.count(says.AT_SIGHT)


def test_no_drawing_on_a_handout_names_what_it_shows(kb: KnowledgeBase, pages: dict[str, str]) -> None:
    names = {sign.name for sign in kb.signs.values()}
    for lesson in kb.teaching.lessons.values():
        labels = set(re.findall(r'aria-label="([^"]+)"', pages[f"{lesson.number} learner"]))
        assert not labels & names


def test_the_trainer_is_told_how_to_bring_it_off(kb: KnowledgeBase, pages: dict[str, str]) -> None:
    for lesson in kb.teaching.lessons.values():
        notes = words(pages[f"{lesson.number} trainer"])
        for line in (*lesson.bring, *lesson.looks_for, *lesson.cautions, *kb.teaching.cautions):
            assert line[1:40] in notes
        assert all(item.full[:20] in notes for item in kb.teaching.sheet.items)
        assert f"–{lesson.minutes} " in notes


def test_every_confusion_is_a_card(kb: KnowledgeBase, pages: dict[str, str]) -> None:
    for confusion in kb.teaching.confusions.values():
        for page in ("cards", "cards large"):
            assert confusion.asks in words(pages[page])
            assert confusion.test in words(pages[page])


def test_the_same_seed_draws_the_same_quiz_and_no_mark_twice(kb: KnowledgeBase) -> None:
    assert render_quiz(kb, 7) == render_quiz(kb, 7)
    assert quiz(kb, 7) != quiz(kb, 8)
    for seed in range(6):
        cards = quiz(kb, seed)
        assert MANY == len(cards)
        assert OF_CONFUSIONS == sum(card.then is not None for card in cards)
        assert MANY == len({(card.drawing, card.name) for card in cards})


def test_screens_lead_on_and_back_by_plain_links(pages: dict[str, str]) -> None:
    for name in ("cards large", "quiz large", "1 large", "6 large"):
        page = pages[name]
        many = page.count('class="screen"')
        links = [int(number) for number in re.findall(r'href="#s(\d+)"', page)]
        assert sorted([*range(2, many + 1), *range(1, many)]) == sorted(links), name
        assert {f"s{number}" for number in range(1, many + 1)} <= set(re.findall(r'id="(s\d+)"', page))


@pytest.mark.slow
def test_on_paper_four_cards_of_a_quiz_fill_a_sheet_and_two_confusions_do(pages: dict[str, str]) -> None:
    import pypdf

    sheets = {name: pypdf.PdfReader(io.BytesIO(as_pdf(pages[name]))).pages for name in ("quiz", "cards", "1 learner")}

    assert {"quiz": 3, "cards": 7, "1 learner": 2} == {name: len(made) for name, made in sheets.items()}
    assert [4, 4, 4] == [" ".join(sheet.extract_text().split()).count(says.AT_SIGHT) for sheet in sheets["quiz"]]


def test_the_two_of_a_card_are_a_and_b_in_no_telling_order_and_of_one_scale_where_they_can_be(
    kb: KnowledgeBase, pages: dict[str, str]
) -> None:
    first = []
    for confusion in kb.teaching.confusions.values():
        names = [one.name for one in confusion.pair]
        (a,) = [name for name in names if f"A. {name}" in words(pages["cards"])]
        assert [name for name in names if name != a] == [
            name for name in names if f"B. {name}" in words(pages["cards"])
        ]
        first.append(names.index(a))
    assert {0, 1} == set(first), "the milder one is not always the same"
    for page in ("cards", "cards large"):
        one_scale = words(pages[page]).count(says.ONE_SCALE)
        assert len(first) == one_scale + words(pages[page]).count(says.OWN_SCALES)
        assert one_scale > len(first) / 2


def test_a_mark_drawn_to_the_scale_of_a_wider_one_is_that_much_smaller() -> None:
    alone, beside = draw_mark("edge_chip"), draw_mark("edge_chip", across=80)

    assert 40 == alone.width
    assert 'viewBox="0 0 200 200"' in alone.svg
    assert 'viewBox="-100 -100 400 400"' in beside.svg
