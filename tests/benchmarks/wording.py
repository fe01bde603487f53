"""How often plain words are understood: ``python -m tests.benchmarks.wording`` prints the table of DEVELOPERS.md."""

from __future__ import annotations

import sys
from typing import Any

from tests.conftest import ROOT
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.listening.understand import understand
from triage.parsing.documents import read_document

TOLD = {
    "tuned": "written first, worked towards",
    "from_forums": "after forums, worked towards",
    "more_from_forums": "after forums again, worked towards",
    "held_out": "written first, only counted",
    "unseen": "after forums at the very end, only counted",
}


def line(kb: KnowledgeBase, name: str, phrases: list[dict[str, str]]) -> str:
    """One row: how often the right place and mark came first, among five, and were called clear and right."""
    found = [(phrase, understand(phrase["say"], kb)) for phrase in phrases]
    figures = []
    for kind in ("zone", "sign"):
        listed = [([one.id for one in getattr(said, f"{kind}s")], phrase[kind]) for phrase, said in found]
        clear = [getattr(said, kind) == phrase[kind] for phrase, said in found if getattr(said, kind)]
        first, shown = sum(ids[:1] == [right] for ids, right in listed), sum(right in ids for ids, right in listed)
        figures += [first / len(found), shown / len(found), len(clear) / len(found), sum(clear) / len(clear)]
    return f"| {name} | {len(found)} | " + " | ".join(f"{figure:.1%}" for figure in figures) + " |"


def main() -> None:
    """Print the table as Markdown."""
    kb = load_knowledge(ROOT / "rules")
    text = (ROOT / "tests/listening/phrases.yaml").read_text(encoding="utf-8")
    written: Any = read_document(text, "phrases").value
    columns = ["first", "among five", "called clear", "right when clear"]
    heads = [f"{kind} {column}" for kind in ("place", "mark") for column in columns]
    sys.stdout.write(f"| phrases | | {' | '.join(heads)} |\n|{'---|' * 10}\n")
    for which, told in TOLD.items():
        sys.stdout.write(f"{line(kb, told, written[which])}\n")
    counted = [phrase for which in ("held_out", "unseen") for phrase in written[which]]
    sys.stdout.write(f"{line(kb, '**all that were only counted**', counted)}\n")


if __name__ == "__main__":
    main()
