"""The program as the page calls it: a request in, the answer and what is to be kept out."""

from __future__ import annotations

import sys
from pathlib import Path
from urllib.parse import urlencode

import pytest

from tests.conftest import ROOT
from triage.concluding.assess import assess_survey
from triage.errors import CannotWork
from triage.knowledge.compiled.orders import strata
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.cache import as_plain, from_plain
from triage.listening import choosing, naming, tokens, understand
from triage.listening.story import hear
from triage.page.beforehand import kept
from triage.page.phone import Phone, knowledge
from triage.survey.read import read_survey
from triage.views.report import render

FORM = "application/x-www-form-urlencoded"
STORY = urlencode({"text": "Crack by the bolt that holds the mast wire on port, about an inch."}).encode()
EXAMPLE = ROOT / "examples/owner-one-crack.yaml"


def opened(phone: Phone) -> str:
    """The visit that a survey file becomes."""
    body = b'--x\r\ncontent-disposition: form-data; name="file"; filename="a.yaml"\r\n\r\n%b\r\n--x--\r\n'
    status, headers, _, changed = phone.answer(
        "POST", "open", kind="multipart/form-data; boundary=x", body=body % EXAMPLE.read_bytes()
    )
    assert status == 303
    assert changed
    return headers["location"].lstrip("./")


def test_what_is_sent_comes_back_as_records_and_another_phone_goes_on_from_them(kb: KnowledgeBase) -> None:
    phone = Phone(kb, {})
    status, headers, _, changed = phone.answer("POST", "new", kind=FORM, body=STORY)
    visit = headers["location"].lstrip("./")

    assert status == 303
    other = Phone(kb, {key: body for key, body in changed.items() if body is not None})
    assert other.answer("GET", visit)[2] == phone.answer("GET", visit)[2]
    assert other.answer("GET", visit)[3] == {}


def test_a_report_is_the_one_that_the_command_line_makes(kb: KnowledgeBase) -> None:
    phone = Phone(kb, {})

    report = phone.answer("GET", f"{opened(phone)}report.html")[2].decode()

    assert report == render(assess_survey(read_survey(EXAMPLE, kb), kb), "html")


def test_what_is_not_there_is_told_on_a_page(kb: KnowledgeBase) -> None:
    status, headers, body, _ = Phone(kb, {}).answer("GET", "visit/nobody/")

    assert status == 404
    assert headers["content-type"].startswith("text/html")
    assert b"not kept here any more" in body


def test_records_of_something_else_are_refused(kb: KnowledgeBase) -> None:
    with pytest.raises(CannotWork):
        Phone(kb, {"visit/1": b"no record"})


def test_plain_knowledge_is_the_same_knowledge(kb: KnowledgeBase) -> None:
    again = from_plain(as_plain(kb))

    assert again.digest == kb.digest
    assert as_plain(again) == as_plain(kb)
    with pytest.raises((ValueError, TypeError)):
        from_plain(b"[1]")


def test_a_learner_s_run_is_kept_with_the_boats(kb: KnowledgeBase) -> None:
    phone = Phone(kb, {})
    begun = urlencode({"name": "Wren", "about": "any", "number": "36"}).encode()
    status, headers, _, changed = phone.answer("POST", "teach/begin", kind=FORM, body=begun)
    run = headers["location"].removeprefix("../")

    assert status == 303
    assert [key.partition("/")[0] for key in changed] == ["run"]
    other = Phone(kb, {key: body for key, body in changed.items() if body is not None})
    assert other.answer("GET", run)[::2] == phone.answer("GET", run)[::2]


def test_what_the_page_brings_hears_without_working_anything_out_and_hears_the_same(
    kb: KnowledgeBase, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = "The ruder wobbles, gelcote is starred by the port shroud, and the foredeck is soft."
    heard = hear(told, kb)
    (tmp_path / "knowledge").write_bytes(kept(from_plain(as_plain(kb))))

    for module, name in (
        (choosing, "Likeness"),
        (understand, "PhraseMatcher"),
        (tokens, "Speller"),
        (naming, "_names"),
    ):
        monkeypatch.setattr(module, name, None)
    brought = knowledge(str(tmp_path / "knowledge"))

    assert hear(told, brought) == heard
    assert brought.digest == kb.digest
    with pytest.raises(RuntimeError, match="left out of the page"):
        brought.lexicon.speech.complaints.get("rudder")


def test_what_the_page_brings_judges_a_purchase_without_walking_a_graph(
    kb: KnowledgeBase, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "knowledge").write_bytes(kept(from_plain(as_plain(kb))))
    brought = knowledge(str(tmp_path / "knowledge"))
    assert kb.purchase.judging
    assert brought.purchase.judging

    monkeypatch.setitem(sys.modules, "triage.knowledge.compiled.strata", None)

    assert strata(brought.purchase.judging) == strata(kb.purchase.judging)
