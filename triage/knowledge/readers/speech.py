"""How people tell a whole story (``also``, ``complaints`` and ``listening`` under ``words``), from forms to data."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from triage.knowledge.forms.speech import ListeningForm, RepliesForm
from triage.knowledge.model.speech import COMMANDS, Dimension, Replies, Scope, Sizing, Speech
from triage.knowledge.readers.references import Loaded, Ontology, known, known_scales
from triage.knowledge.readers.sayings import check_size, every_way, limits, ways
from triage.parsing.documents import Document, Path

_SINGLE = (
    *(
        "not_doing",
        "between",
        "points_back",
        "told_again",
        "said_of",
        "definite",
        "one_more",
        "ordinary",
        "leads_to",
        "everywhere",
        "stating",
        "weak_alone",
        "directions",
        "tests",
        "people",
        "praised_after",
        "unpraised",
        "turns",
        "hesitations",
        "wishes",
    ),
    *("asked_first", "asked_of", "asked_by", "asked_then", "asked_on", "asked_or"),
)
"""Lists that are looked up word by word."""

_SIZES = ("things", "long_things", "thin_things", "wide_things", "vessels", "gallons", "pints", "quarts")


def read_speech(files: Loaded, ontology: Ontology) -> Speech:
    """The words of all files together; problems go to the documents they stand in."""
    reader = _Reader(ontology)
    for document, form in files:
        if form.words is not None:
            path: Path = ("words", "also", "zones")
            reader.add(reader.zones, document, path, form.words.also.zones, ontology.zones, "zone")
            path = ("words", "also", "signs")
            reader.add(reader.signs, document, path, form.words.also.signs, ontology.signs, "sign")
            path, events = ("words", "also", "events"), {name for _, one in files for name in one.events}
            reader.add(reader.events, document, path, ways(form.words.also.events), dict.fromkeys(events), "event")
            reader.complain(document, form.words.complaints)
            reader.observe(document, form.words.observations)
            if form.words.listening is not None:
                reader.listen(document, form.words.listening)
            if form.words.replies is not None:
                reader.reply(document, form.words.replies)
    return reader.speech()


class _Reader:
    def __init__(self, ontology: Ontology) -> None:
        self.ontology = ontology
        self.zones: dict[str, tuple[str, ...]] = {}
        self.signs: dict[str, tuple[str, ...]] = {}
        self.events: dict[str, tuple[str, ...]] = {}
        self.complaints: dict[str, dict[str, tuple[str, ...]]] = {}
        self.observations: dict[str, dict[str, tuple[str, ...]]] = {}
        self.listening: tuple[Document, ListeningForm] | None = None
        self.replies: tuple[Document, RepliesForm] | None = None

    def add(
        self,
        to: dict[str, tuple[str, ...]],
        document: Document,
        path: Path,
        given: Mapping[str, Sequence[str]],
        allowed: Mapping[str, object],
        what: str,
    ) -> None:
        """Several files may add words to one thing."""
        for name in known(document, path, given, allowed, what):
            to[name] = (*to.get(name, ()), *every_way(given[name]))

    def complain(self, document: Document, given: Mapping[str, Mapping[str, Sequence[str]]]) -> None:
        path: Path = ("words", "complaints")
        for zone in known(document, path, given, self.ontology.zones, "zone"):
            offered = dict.fromkeys(self.ontology.offers.get(zone, ()), True)
            kept = self.complaints.setdefault(zone, {})
            self.add(kept, document, (*path, zone), given[zone], offered, f"sign offered at {zone}")

    def observe(self, document: Document, given: Mapping[str, Mapping[str, Sequence[str]]]) -> None:
        path: Path = ("words", "observations")
        for scale in known_scales(document, path, given, self.ontology):
            levels = range(len(self.ontology.scales[scale].levels))
            answers = dict.fromkeys(said for one in levels for said, _ in self.ontology.scales[scale].choices(one))
            kept = self.observations.setdefault(scale, {})
            self.add(kept, document, (*path, scale), given[scale], answers, f"answer of {scale}")

    def reply(self, document: Document, form: RepliesForm) -> None:
        path: Path = ("words", "replies")
        if self.replies is not None:
            _stands_already(document, path, self.replies[0])
            return
        self.replies = (document, form)
        known(document, (*path, "commands"), form.commands, COMMANDS, "command")

    def listen(self, document: Document, form: ListeningForm) -> None:
        path: Path = ("words", "listening")
        if self.listening is not None:
            _stands_already(document, path, self.listening[0])
            return
        self.listening = (document, form)
        known_scales(document, (*path, "passes"), form.passes, self.ontology)
        known_scales(document, (*path, "told_beside"), form.told_beside, self.ontology)
        for name in _SINGLE:
            for at, said in enumerate(getattr(form, name)):
                if " " in said:
                    what = f'"{said}" is more than one word, and {name} is looked up word by word'
                    document.problems.append(
                        document.problem((*path, name, at), what, "Give one word, or leave it out.")
                    )
        for name, measure in form.measures.items():
            for part, scales in (("scales", measure.scales), ("beside", measure.beside)):
                known_scales(document, (*path, "measures", name, part), scales, self.ontology)
            for limit in ("unsaid_from", "most"):
                if said := getattr(measure, limit):
                    check_size(document, (*path, "measures", name, limit), said, ("mm",))
            known(document, (*path, "measures", name, "of"), dict.fromkeys(measure.of), form.measures, "measure")
        for fact in known(document, (*path, "facts"), form.facts, self.ontology.facts, "fact"):
            values = self.ontology.facts[fact].values
            known(document, (*path, "facts", fact), form.facts[fact], values, f"value of {fact}")
        sizes: dict[Path, Mapping[str, str]] = {(name,): getattr(form, name) for name in _SIZES}
        sizes |= {("coins", country): given for country, given in form.coins.items()}
        for where_, given in sizes.items():
            for thing, said in given.items():
                check_size(document, (*path, *where_, thing), said)

    def speech(self) -> Speech:
        _, form = self.listening or (None, ListeningForm())
        scope = Scope(
            breaks=tuple(form.breaks),
            together=tuple(form.together),
            denials=tuple(form.denials),
            denial_ends=tuple(form.denial_ends),
            turns=frozenset(form.turns),
            partly=every_way(form.partly),
            no_denial=tuple(form.no_denial),
            absent=tuple(form.absent),
            undone=tuple(form.undone),
            not_doing=frozenset(form.not_doing),
            between=frozenset(form.between),
            asides=tuple(form.asides),
            contrasts=tuple(form.contrasts),
            facing=tuple(form.facing),
            points_back=frozenset(form.points_back),
            told_again=frozenset(form.told_again),
            said_of=frozenset(form.said_of),
            of_it=every_way(form.of_it),
            shows=every_way(form.shows),
            likened=tuple(form.likened),
            definite=frozenset(form.definite),
            one_more=frozenset(form.one_more),
            ordinary=frozenset(form.ordinary),
            leads_to=frozenset(form.leads_to),
            everywhere=frozenset(form.everywhere),
            stating=frozenset(form.stating),
            alone=frozenset(form.weak_alone),
            not_looked=every_way(form.not_looked),
            asked_first=frozenset(form.asked_first),
            asked_of=frozenset(form.asked_of),
            asked_by=frozenset(form.asked_by),
            asked_then=frozenset(form.asked_then),
            asked_amid=every_way(form.asked_amid),
            asks_for=every_way(form.asks_for),
            asked_on=frozenset(form.asked_on),
            asked_or=frozenset(form.asked_or),
            wishes=frozenset(form.wishes),
            hesitations=frozenset(form.hesitations),
            praise=tuple(form.praise),
            praised_after=frozenset(form.praised_after),
            unpraised=frozenset(form.unpraised),
            directions=frozenset(form.directions),
            tests=frozenset(form.tests),
            people=frozenset(form.people),
            told_beside=tuple(form.told_beside),
        )
        sizing = Sizing(
            measures={
                name: Dimension(tuple(one.words), tuple(one.scales), tuple(one.beside), tuple(one.of), *limits(one))
                for name, one in form.measures.items()
            },
            before_no_size=tuple(form.no_size.before),
            after_no_size=tuple(form.no_size.after),
            coins=dict(form.coins),
            countries=ways(form.countries),
            **{name: dict(getattr(form, name)) for name in _SIZES},
        )
        return Speech(
            zones=self.zones,
            signs=self.signs,
            events=self.events,
            complaints=self.complaints,
            observations=self.observations,
            scope=scope,
            sizing=sizing,
            sides=ways(form.sides),
            senses=ways(form.senses),
            passes=ways(form.passes),
            spelling=dict(form.spelling),
            variants=dict(form.variants),
            questions=ways(form.questions),
            question_words=ways(form.question_words),
            question_begins=ways(form.question_begins),
            facts={fact: ways(values) for fact, values in form.facts.items()},
            replies=self.replying(),
        )

    def replying(self) -> Replies:
        _, form = self.replies or (None, RepliesForm())
        return Replies(
            commands=ways(form.commands),
            corrects=tuple(form.corrects),
            opens=tuple(form.opens),
            apart=frozenset(form.apart),
            instead=tuple(form.instead),
            other_side=tuple(form.other_side),
            agrees=tuple(form.agrees),
            disagrees=tuple(form.disagrees),
        )


def _stands_already(document: Document, path: Path, first: Document) -> None:
    where = f'"{path[-1]}" already stands in {first.source}'
    document.problems.append(document.problem(path, where, "Keep one."))
