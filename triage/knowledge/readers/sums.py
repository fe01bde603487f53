"""Sums, from forms to frozen data."""

from __future__ import annotations

from triage.knowledge.forms.sums import AskedForm, GivenForm, PlotForm, SumForm, ToldForm
from triage.knowledge.model.sums import Asked, Given, Plot, Sum, Told
from triage.knowledge.readers.references import Loaded, Ontology, basis_of, known_scales
from triage.parsing.documents import Document, Path
from triage.parsing.quantities import NotAQuantity, in_unit
from triage.parsing.text import did_you_mean


def read_sums(files: Loaded, ontology: Ontology) -> dict[str, Sum]:
    """Every sum by its id; problems go to the documents they stand in."""
    found: dict[str, Sum] = {}
    for document, form in files:
        for id_, one in form.sums.items():
            path: Path = ("sums", id_)
            if id_ in found:
                document.problems.append(document.problem(path, f"there is a sum {id_} already", "Give it another id."))
            found[id_] = _sum(document, path, id_, one, ontology)
    return found


def _sum(document: Document, path: Path, id_: str, form: SumForm, ontology: Ontology) -> Sum:
    return Sum(
        id=id_,
        name=form.name,
        helps=form.helps,
        asks={name: _asked(document, (*path, "asks", name), one, ontology) for name, one in form.asks.items()},
        given={name: _given(document, (*path, "given", name), one) for name, one in form.given.items()},
        tells={name: _told(document, (*path, "tells", name), one, ontology) for name, one in form.tells.items()},
        mind=form.mind,
        basis=basis_of(document, path, form, ontology),
        plot=_plot(document, (*path, "plot"), form.plot, form) if form.plot else None,
        pieces=_told(document, (*path, "pieces"), form.pieces, ontology) if form.pieces else None,
        worksheet=form.worksheet == "yes",
    )


def _plot(document: Document, path: Path, form: PlotForm, whole: SumForm) -> Plot:
    for word, name, names in (("against", form.against, whole.asks), ("shows", form.shows, whole.tells)):
        if name not in names:
            told = f'the sum has no "{name}"'
            document.problems.append(document.problem((*path, word), told, did_you_mean(name, names)))
    return Plot(form.against, form.shows)


def _asked(document: Document, path: Path, form: AskedForm, ontology: Ontology) -> Asked:
    if form.least >= form.most:
        document.problems.append(document.problem((*path, "least"), "it is not below most", "Write the smaller first."))
    error = 0.0
    try:
        error = in_unit(form.error, form.unit) if isinstance(form.error, str) else form.error
    except NotAQuantity as why:
        document.problems.append(document.problem((*path, "error"), str(why), f"Write it in {form.unit}."))
    scale = "".join(known_scales(document, (*path, "scale"), [form.scale] if form.scale else [], ontology))
    return Asked(form.what, form.unit, form.least, form.most, error, scale, form.outside)


def _told(document: Document, path: Path, form: ToldForm, ontology: Ontology) -> Told:
    scale = known_scales(document, (*path, "answers"), [form.answers] if form.answers else [], ontology)
    return Told(form.say, form.unit, form.how, "".join(scale))


def _given(document: Document, path: Path, form: GivenForm) -> Given:
    if form.from_ > form.to:
        document.problems.append(document.problem((*path, "from"), "it is above to", "Write the smaller first."))
    return Given(form.what, form.unit, form.from_, form.to)
