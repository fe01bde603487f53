"""``triage plan`` with the words of an advert: shown first, kept once somebody says so."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from triage.buying.read_offer import read_offer
from triage.cli import main
from triage.knowledge.model import KnowledgeBase

ADVERT = "Dinghy, built 1998. £1,450 ono. No trailer, sails tired. Kept at Westkade.\nPhone after six."


def plan(folder: Path, says: str, advert: str = ADVERT) -> tuple[Result, Path]:
    words, offer = folder / "advert.txt", folder / "offer.yaml"
    words.write_text(advert, encoding="utf-8")
    return CliRunner().invoke(main, ["plan", str(offer), "--advert", str(words)], input=says), offer


def test_what_was_understood_is_shown_and_kept_once_it_is_agreed_to(tmp_path: Path, kb: KnowledgeBase) -> None:
    result, file = plan(tmp_path, "y\n")
    offer = read_offer(file, kb)

    assert 0 == result.exit_code, result.output
    assert "Asking price: £1,450. “£1,450 ono”" in result.output
    assert "“Phone after six”" in result.output
    assert "of 40 minutes, bow to stern" in result.output
    assert ("GBP", 1450, 1998, "Westkade") == (offer.currency, offer.asking, offer.claimed_year, offer.lives)
    assert {"mainsail", "jib"} == set(offer.spent)
    assert 80 >= max(len(line) for line in result.output.splitlines() if "[y/N]" not in line)


def test_nothing_is_kept_where_nobody_agrees(tmp_path: Path) -> None:
    result, file = plan(tmp_path, "n\n")

    assert 0 == result.exit_code
    assert "Nothing is kept." in result.output
    assert "bow to stern" not in result.output
    assert not file.exists()


def test_a_currency_that_nobody_named_is_asked_for(tmp_path: Path, kb: KnowledgeBase) -> None:
    result, file = plan(tmp_path, "y\nsek\n", "Asking two grand.")

    assert "No currency is named" in result.output
    assert ("SEK", 2000) == (read_offer_raw(file)["currency"], read_offer_raw(file)["asking"])


def test_an_offer_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    (tmp_path / "offer.yaml").write_text("offer: 1\ncurrency: EUR\n", encoding="utf-8")
    result, file = plan(tmp_path, "y\n")

    assert 2 == result.exit_code
    assert "currency: EUR" in file.read_text(encoding="utf-8")


def read_offer_raw(file: Path) -> dict[str, object]:
    import yaml

    values: dict[str, object] = yaml.safe_load(file.read_text(encoding="utf-8"))
    return values
