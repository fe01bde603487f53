"""Causes and the figures that weigh them, from forms to frozen data; every name and every pairing is checked."""

from __future__ import annotations

from collections.abc import Iterable

from triage.knowledge.forms.causes import CauseForm, FollowUpForm, LeavesForm, WeightsForm
from triage.knowledge.forms.rules import SuspectForm
from triage.knowledge.model import NOTHING_SEEN, VERDICT
from triage.knowledge.model.cause import ANYWHERE, AtWork, Causation, Cause, FollowUp, Leaves, Mark, Strength, Weights
from triage.knowledge.readers.references import Loaded, Ontology, basis_of, known, named
from triage.parsing.documents import Document, Path


def read_causation(files: Loaded, ontology: Ontology) -> Causation:
    """All causes in file order; problems go to the documents they stand in."""
    weights = _weights(files, ontology)
    causes = {}
    for document, path, key, form in named(files, "causes"):
        if weights is None:
            hint = 'Add the section "weights" to one of the files.'
            document.problems.append(document.problem(path, "causes need weights to be weighed by", hint))
            break
        causes[key] = _CauseReader(document, path, form, ontology, weights).cause(key)
    return Causation(causes, weights)


def _weights(files: Loaded, ontology: Ontology) -> Weights | None:
    given = [(document, form.weights) for document, form in files if form.weights is not None]
    for document, _ in given[1:]:
        what = f"weights are already given in {given[0][0].source}"
        document.problems.append(document.problem(("weights",), what, "Keep one of them."))
    return _WeightsReader(*given[0], ontology).weights() if given else None


class _WeightsReader:
    """Reads the figures."""

    def __init__(self, document: Document, form: WeightsForm, ontology: Ontology) -> None:
        self.document, self.form, self.ontology = document, form, ontology

    def weights(self) -> Weights:
        form = self.form
        says = [word.says for word in form.words]
        begins = [word.at_least for word in form.words]
        if begins != sorted(set(begins), reverse=True) or begins[-1] != 0:
            what = "the words do not run from the likeliest down to 0"
            self.complain("words", what, "Put them in order; the last is at_least: 0.")
        if form.answers.yes_if_so <= form.answers.yes_if_not:
            what = "a yes would speak against its cause"
            self.complain("answers", what, "yes_if_so must be the larger of the two.")
        for word, answers in form.told.items():
            if answers.yes_if_so <= answers.yes_if_not:
                what = "what is told would speak against its cause"
                self.document.problems.append(
                    self.document.problem(("weights", "told", word), what, "yes_if_so must be the larger of the two.")
                )
        known(self.document, ("weights", "story_from"), [form.story_from], says, "word for a chance")
        known(self.document, ("weights", "follow_from"), [form.follow_from], says, "word for a chance")
        return Weights(
            strengths={key: Strength(strength.chance, strength.says) for key, strength in form.strengths.items()},
            priors=form.priors,
            leak=form.leak,
            suspected=form.suspected,
            yes_if_so=form.answers.yes_if_so,
            yes_if_not=form.answers.yes_if_not,
            told={word: answers.yes_if_so / answers.yes_if_not for word, answers in form.told.items()},
            words=tuple(zip(begins, says, strict=True)),
            story_from=form.story_from,
            follow_from=form.follow_from,
            alike=form.alike,
            gravity=self.gravity(),
            criticality={str(word): weight for word, weight in form.criticality.items()},
            basis=basis_of(self.document, ("weights",), form, self.ontology),
            place=self.document.place(("weights",)),
        )

    def gravity(self) -> tuple[float, ...]:
        names = (
            [level.name for level in self.ontology.scales[VERDICT].levels] if VERDICT in self.ontology.scales else []
        )
        known(self.document, ("weights", "gravity"), self.form.gravity, names, "level of the verdict")
        if missing := [name for name in names if name not in self.form.gravity]:
            what = f"gravity leaves out {', '.join(missing)}"
            self.complain("gravity", what, "Give each level of the verdict a weight.")
        return tuple(self.form.gravity.get(name, 0.0) for name in names)

    def complain(self, key: str, what: str, hint: str) -> None:
        self.document.problems.append(self.document.problem(("weights", key), what, hint))


class _CauseReader:
    """Reads one cause."""

    def __init__(self, document: Document, path: Path, form: CauseForm, ontology: Ontology, weights: Weights) -> None:
        self.document, self.path, self.form = document, path, form
        self.ontology, self.weights = ontology, weights

    def complain(self, path: Path, what: str, hint: str = "") -> None:
        self.document.problems.append(self.document.problem(path, what, hint))

    def one_of(self, path: Path, word: str, allowed: Iterable[str], what: str) -> bool:
        return bool(known(self.document, path, [word], allowed, what))

    def cause(self, key: str) -> Cause:
        form, here = self.form, self.path
        self.one_of((*here, "prior"), form.prior, self.weights.priors, "prior")
        return Cause(
            id=key,
            name=form.name,
            happens=form.happens,
            prior=form.prior,
            ask=form.ask,
            leaves=tuple(self.left((*here, "leaves", index), entry) for index, entry in enumerate(form.leaves)),
            follow_ups=tuple(
                self.follow_up((*here, "follow_ups", index), entry) for index, entry in enumerate(form.follow_ups)
            ),
            still_at_work=self.at_work(),
            basis=basis_of(self.document, here, form, self.ontology),
            only_if=self.only_if(),
            place=self.document.place(here),
        )

    def left(self, path: Path, form: LeavesForm) -> Leaves:
        self.one_of((*path, "strength"), form.strength, self.weights.strengths, "strength")
        self.mark(path, form)
        first = next(entry for entry in self.form.leaves if (entry.zone, entry.sign) == (form.zone, form.sign))
        if first is not form:
            self.complain(path, f"{form.sign} at {form.zone} stands twice in this cause", "Keep one of them.")
        scales = known(self.document, (*path, "unless"), form.unless, self.ontology.scales, "scale")
        return Leaves(form.zone, form.sign, form.strength, tuple((scale, form.unless[scale]) for scale in scales))

    def mark(self, path: Path, form: LeavesForm | SuspectForm) -> Mark:
        """A mark that can be met; where the sign is not met in the zone, the hint says where it is."""
        zone = self.one_of((*path, "zone"), form.zone, [*self.ontology.zones, ANYWHERE], "zone")
        marks = [sign for sign in self.ontology.signs if sign != NOTHING_SEEN]
        sign = self.one_of((*path, "sign"), form.sign, marks, "sign")
        if zone and sign and form.zone != ANYWHERE and form.sign not in self.ontology.offers[form.zone]:
            where = [place for place, signs in self.ontology.offers.items() if form.sign in signs]
            hint = f"It is met at {', '.join(where)}."
            self.complain((*path, "sign"), f'the sign "{form.sign}" is not met at "{form.zone}"', hint)
        return form.zone, form.sign

    def follow_up(self, path: Path, form: FollowUpForm) -> FollowUp:
        self.one_of((*path, "strength"), form.strength, self.weights.strengths, "strength")
        zone = self.one_of((*path, "zone"), form.zone, self.ontology.zones, "zone")
        check = self.one_of((*path, "check"), form.check, self.ontology.checks, "check")
        if zone and check:
            self.can_be_made((*path, "check"), form)
        if zone and form.side != "both" and not self.ontology.zones[form.zone].sided:
            self.complain((*path, "side"), f'"{form.zone}" is one part, not one on each side', "Take side out.")
        place = self.document.place(path)
        return FollowUp(form.zone, form.check, form.side, form.strength, form.because, place)

    def can_be_made(self, path: Path, form: FollowUpForm) -> None:
        """Whether the check reads anything by which marks there are judged."""
        there = self.ontology.checks_at(form.zone)
        if form.check not in there:
            hint = f"There it can be: {', '.join(there)}."
            self.complain(path, f'the check "{form.check}" reads nothing that is judged at "{form.zone}"', hint)

    def at_work(self) -> AtWork | None:
        form = self.form.still_at_work
        if form is None:
            return None
        here = (*self.path, "still_at_work", "shown_by")
        shown = tuple(self.mark((*here, index), entry) for index, entry in enumerate(form.shown_by))
        return AtWork(form.tell, shown, form.cure)

    def only_if(self) -> dict[str, str]:
        path = (*self.path, "only_if")
        return {
            fact: self.form.only_if[fact]
            for fact in known(self.document, path, self.form.only_if, self.ontology.facts, "boat fact")
            if self.one_of((*path, fact), self.form.only_if[fact], self.ontology.facts[fact].values, fact)
        }
