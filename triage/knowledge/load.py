"""From a folder of YAML to the KnowledgeBase, or to every problem at once."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

from triage.documents import Document, read_document
from triage.errors import BadRules, Place, Problem
from triage.forms import fill
from triage.knowledge.layers import circle
from triage.knowledge.model import NOTHING_SEEN, OUTCOMES, KnowledgeBase, Rule
from triage.knowledge.rulebook import LoadedRules, read_rules
from triage.knowledge.schema import RuleForm, VocabularyFile
from triage.knowledge.vocabulary import Vocabulary, read_vocabulary
from triage.resources import data_dir


def load_knowledge(folder: Path | str | None = None) -> KnowledgeBase:
    """The knowledge in ``folder``, or the one shipped with this package.

    Raises BadRules with every problem in every file.
    """
    return _load(Path(folder) if folder is not None else data_dir("rules"))


@lru_cache(maxsize=4)
def _load(folder: Path) -> KnowledgeBase:
    files = sorted(folder.rglob("*.yaml"), key=lambda file: file.relative_to(folder).as_posix())
    if not files:
        raise BadRules([Problem(Place(str(folder)), "no *.yaml files here", "Name the folder that holds the rules.")])
    texts = {file.relative_to(folder).as_posix(): file.read_bytes() for file in files}
    return knowledge_from_texts(texts)


def knowledge_from_texts(texts: dict[str, str] | dict[str, bytes]) -> KnowledgeBase:
    """The knowledge in these texts, by file name. Raises BadRules with every problem in every one of them."""
    documents = [read_document(text, name) for name, text in texts.items()]
    forms = [fill(VocabularyFile, _vocabulary_of(document), document) for document in documents]
    rule_forms = [entry for document in documents for entry in _rules_of(document)]
    if None in forms:  # without all the words, every use of a missing one would be told as a mistake
        raise BadRules(_problems(documents))
    words = read_vocabulary([(document, form) for document, form in zip(documents, forms, strict=True) if form])
    rules, presumptions = read_rules(rule_forms, words)
    problems = [*_problems(documents), *_missing(words, documents)]
    if problems:
        raise BadRules(problems)
    kb = KnowledgeBase(
        facts=words.facts,
        groups=words.groups,
        walk=words.walk,
        zones=words.zones,
        signs=words.signs,
        scales=words.scales,
        checks=words.checks,
        rules=rules,
        presumptions=presumptions,
        sources=words.sources,
        offers=words.offers,
    )
    if steps := circle(kb):
        raise BadRules([_circular(steps)])
    return kb


def _circular(steps: list[tuple[str, str, Rule]]) -> Problem:
    told = ", ".join(f"{read} raises {raised} ({rule.id})" for read, raised, rule in steps)
    return Problem(steps[0][2].place, f"derived scales feed each other in a circle: {told}", "Take one step out.")


def _vocabulary_of(document: Document) -> Any:
    if isinstance(document.value, dict):
        return {key: value for key, value in document.value.items() if key != "rules"}
    return {} if document.value is None else document.value


def _rules_of(document: Document) -> LoadedRules:
    """The rules of a file that have the right shape; the others become problems."""
    given = document.value.get("rules") if isinstance(document.value, dict) else None
    if given is None:
        return []
    if not isinstance(given, list):
        document.problems.append(document.problem(("rules",), '"rules" should be a list', 'Start each with "- id:".'))
        return []
    forms = [(("rules", index), fill(RuleForm, rule, document, ("rules", index))) for index, rule in enumerate(given)]
    return [(document, path, form) for path, form in forms if form is not None]


def _problems(documents: list[Document]) -> list[Problem]:
    return [problem for document in documents for problem in document.problems]


def _missing(words: Vocabulary, documents: list[Document]) -> list[Problem]:
    """What every knowledge base must have."""
    place = Place(documents[0].source if documents else "rules")
    problems = []
    for scale in OUTCOMES:
        if scale not in words.scales or words.scales[scale].observed:
            hint = "Every assessment answers these four."
            problems.append(Problem(place, f'the derived scale "{scale}" is missing', hint))
    if NOTHING_SEEN not in words.signs:
        hint = "It is how a part is recorded that was looked at and passed."
        problems.append(Problem(place, f'the sign "{NOTHING_SEEN}" is missing', hint))
    return problems
