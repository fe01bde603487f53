"""From the texts of a folder to the KnowledgeBase: every section read, every reference resolved."""

from __future__ import annotations

from triage.errors import BadRules, Problem
from triage.knowledge.compiled.consequences import suspicion_cycle
from triage.knowledge.compiled.strata import scale_cycle
from triage.knowledge.digest import digest_of
from triage.knowledge.forms.file import KnowledgeFile
from triage.knowledge.forms.repairs import RepairForm
from triage.knowledge.forms.rules import PromiseForm, RuleForm
from triage.knowledge.model import NOTHING_SEEN, OUTCOMES, KnowledgeBase, Rule
from triage.knowledge.readers.causes import read_causation
from triage.knowledge.readers.events import read_happenings
from triage.knowledge.readers.everyday import read_everyday
from triage.knowledge.readers.frequencies import read_frequencies
from triage.knowledge.readers.lexicon import read_lexicon
from triage.knowledge.readers.ontology import read_ontology
from triage.knowledge.readers.promises import read_promises
from triage.knowledge.readers.purchase import FOLDER, read_purchase
from triage.knowledge.readers.references import Ontology
from triage.knowledge.readers.repairs import read_mending
from triage.knowledge.readers.rules import read_rules
from triage.knowledge.readers.sums import read_sums
from triage.knowledge.readers.teaching import read_teaching
from triage.parsing.documents import Document, read_document
from triage.parsing.forms import F, fill


def assemble(texts: dict[str, str] | dict[str, bytes]) -> KnowledgeBase:
    """The knowledge in these texts, by file name. Raises BadRules with every problem in every one of them."""
    every = [read_document(text, name) for name, text in texts.items()]
    forms = {document.source: _form_of(document) for document in every}
    documents = [document for document in every if not document.source.startswith(FOLDER)]
    of_buying = [document for document in every if document.source.startswith(FOLDER)]
    rule_forms = _every(documents, "rules", RuleForm)
    promise_forms = _every(documents, "promises", PromiseForm)
    repair_forms = _every(documents, "repairs", RepairForm)
    if None in forms.values():  # without the whole ontology, every use of a missing one would be told as a mistake
        raise BadRules(_problems(every))
    files = [(document, form) for document in documents if (form := forms[document.source])]
    ontology = read_ontology(files)
    rules, presumptions = read_rules(rule_forms, ontology)
    promises = read_promises(promise_forms, ontology, (*rules, *presumptions))
    mending = read_mending(files, repair_forms, ontology)
    frequencies = read_frequencies(files, ontology)
    lexicon = read_lexicon(files, ontology)
    causation = read_causation(files, ontology)
    happenings = read_happenings(files, ontology, causation)
    everyday = read_everyday(files, ontology)
    sums = read_sums(files, ontology)
    teaching = read_teaching(files, ontology)
    digest = digest_of(texts)
    purchase = read_purchase(
        [(document, form) for document in of_buying if (form := forms[document.source])],
        _every(of_buying, "rules", RuleForm),
        _every(of_buying, "promises", PromiseForm),
        ontology.sources,
        digest,
    )
    problems = [*_problems(every), *_missing(ontology, documents or every)]
    if problems:
        raise BadRules(problems)
    kb = KnowledgeBase(
        facts=ontology.facts,
        groups=ontology.groups,
        walk=ontology.walk,
        zones=ontology.zones,
        signs=ontology.signs,
        scales=ontology.scales,
        checks=ontology.checks,
        rules=rules,
        presumptions=presumptions,
        sources=ontology.sources,
        offers=ontology.offers,
        promises=promises,
        mending=mending,
        frequencies=frequencies,
        lexicon=lexicon,
        causation=causation,
        everyday=everyday,
        happenings=happenings,
        purchase=purchase,
        sums=sums,
        teaching=teaching,
        digest=digest,
    )
    _refuse_circles(kb, documents)
    return kb


def _refuse_circles(kb: KnowledgeBase, documents: list[Document]) -> None:
    if steps := scale_cycle(kb):
        circle = ", ".join(f"{read} raises {raised} ({rule.id})" for read, raised, rule in steps)
        raise BadRules([_circular(f"derived scales feed each other in a circle: {circle}", steps[0][2], documents)])
    if trip := suspicion_cycle(kb):
        circle = ", ".join(f"{'/'.join(mark)} suspects {'/'.join(next_)} ({rule.id})" for mark, next_, rule in trip)
        raise BadRules([_circular(f"suspicions lead back to where they came from: {circle}", trip[0][2], documents)])


def _circular(what: str, rule: Rule, documents: list[Document]) -> Problem:
    document = next(document for document in documents if document.source == rule.place.source)
    return document.at(rule.place.line, rule.place.column, what, "Take one of these steps out.")


def _form_of(document: Document) -> KnowledgeFile | None:
    if document.broken:
        return None
    return fill(KnowledgeFile, {} if document.value is None else document.value, document)


def _every(documents: list[Document], section: str, form: type[F]) -> list[tuple[Document, tuple[str | int, ...], F]]:
    return [entry for document in documents for entry in _listed(document, section, form)]


def _listed(document: Document, section: str, form: type[F]) -> list[tuple[Document, tuple[str | int, ...], F]]:
    """The entries of a section that is a list, those that have the right shape; the others become problems."""
    given = document.value.get(section) if isinstance(document.value, dict) else None
    if document.broken or not isinstance(given, list):
        return []
    forms = [((section, index), fill(form, entry, document, (section, index))) for index, entry in enumerate(given)]
    return [(document, path, filled) for path, filled in forms if filled is not None]


def _problems(documents: list[Document]) -> list[Problem]:
    return [problem for document in documents for problem in document.problems]


def _missing(ontology: Ontology, documents: list[Document]) -> list[Problem]:
    """What every knowledge base must have, told where it would stand."""
    problems = []
    for scale in OUTCOMES:
        if scale not in ontology.scales or ontology.scales[scale].observed:
            hint = "Every assessment answers these four."
            problems.append(_at_section(documents, "scales", f'the derived scale "{scale}" is missing', hint))
    if NOTHING_SEEN not in ontology.signs:
        hint = "It is how a part is recorded that was looked at and passed."
        problems.append(_at_section(documents, "signs", f'the sign "{NOTHING_SEEN}" is missing', hint))
    return problems


def _at_section(documents: list[Document], section: str, what: str, hint: str) -> Problem:
    """A problem at the first section of this name, or at the top of the first file."""
    document = next((one for one in documents if (section,) in one.marks), documents[0])
    return document.at(*document.marks.get((section,), (1, 1)), what, hint)
