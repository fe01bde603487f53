"""The handbook shows each place on the boat, each mark beside what it is taken for, and each check."""

from __future__ import annotations

import pytest

from tests.mistakes import small_base
from triage.knowledge.model import KnowledgeBase
from triage.views.handbook import rendered
from triage.views.handbook_pictures import HandbookPictures


@pytest.fixture(scope="module")
def files(kb: KnowledgeBase) -> dict[str, str]:
    return rendered(kb)


def test_each_place_is_shown_on_the_boat(kb: KnowledgeBase, files: dict[str, str]) -> None:
    assert len(kb.zones) == files["walk.html"].count('class="drawn boat crop"')
    assert 4 == files["walk.html"].count('aria-labelledby="boat-')


def test_each_mark_is_shown_beside_what_it_is_taken_for(kb: KnowledgeBase, files: dict[str, str]) -> None:
    pictures = HandbookPictures(kb)
    page = files["signs.html"]

    assert all(f'id="mark-{sign}"' in page for sign in kb.signs)
    for sign in kb.signs.values():
        named = pictures.confusions(sign.id, ())
        assert all(f'href="{href}"' in page and f'id="{href[1:]}"' in page for _, _, href in named)
    assert page.count("(no fault)") >= 5


def test_each_check_is_shown_in_two_pictures(kb: KnowledgeBase, files: dict[str, str]) -> None:
    assert 2 * len(kb.checks) == files["checks.html"].count("check-drawn")


def test_pictures_have_one_style_sheet_and_no_style_of_their_own(files: dict[str, str]) -> None:
    assert ".drawn" in files["drawings.css"]
    for name in ("walk.html", "signs.html", "checks.html", "index.html"):
        assert 'href="drawings.css"' in files[name]
        assert "style=" not in files[name]


def test_what_rules_of_ones_own_name_and_nobody_has_drawn_is_left_out() -> None:
    pages = rendered(small_base())

    assert "<svg" in pages["index.html"]
