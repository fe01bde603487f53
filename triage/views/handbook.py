"""The handbook: everything known as a small site of plain pages, to read on a phone, to print and to argue about."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any

from triage.drawing.svg import style_sheet
from triage.knowledge.basis import basis_counts
from triage.knowledge.compiled.conjuncts import conjuncts_of
from triage.knowledge.model import Check, KnowledgeBase, Measure, Presumption, Rule, Zone
from triage.phrases.words import LOAD, basis_words
from triage.resources import data_dir, template_environment
from triage.views.handbook_pictures import HandbookPictures
from triage.views.rule_text import CRITICALITY, RuleText, anchor
from triage.views.site import replace_all

if TYPE_CHECKING:
    import jinja2

AnyRule = Rule | Presumption
STYLE, DRAWINGS = "handbook.css", "drawings.css"
MARKER = ".dinghy-handbook"
"""The file by which a folder is known to hold a handbook and nothing else of ours; it lists the others."""


@dataclass(frozen=True)
class Entry:
    """A line of the index."""

    name: str
    what: str
    href: str

    @property
    def first_letter(self) -> str:
        """The heading under which it stands."""
        return self.name[:1].upper()


class Handbook:
    """What the pages show, gathered from one knowledge base."""

    def __init__(self, kb: KnowledgeBase) -> None:
        self.kb = kb
        self.words = RuleText(kb)

    def pages(self) -> Iterator[tuple[str, str, dict[str, Any]]]:
        """Each page: its file name, its template and what is particular to it."""
        for name, present in self.contents:
            if present:
                yield f"{name}.html", f"{name}.html", {}
        for page, rules in self.by_file.items():
            yield page, "rules_of_one_file.html", {"page": page, "rules": rules}

    @cached_property
    def contents(self) -> tuple[tuple[str, bool], ...]:
        """The main pages, in the order of the menu, and whether there is anything on them."""
        kb = self.kb
        return (
            ("index", True),
            ("walk", True),
            ("signs", True),
            ("checks", bool(kb.checks)),
            ("scales", True),
            ("causes", bool(kb.causation.causes)),
            ("rules", bool(kb.all_rules)),
            ("repairs", bool(kb.mending.repairs)),
            ("sources", bool(kb.sources)),
            ("a_to_z", True),
        )

    @cached_property
    def by_file(self) -> dict[str, list[AnyRule]]:
        """The rules that stand together in one file, by the page that shows them."""
        found: dict[str, list[AnyRule]] = {}
        for rule in self.kb.all_rules:
            found.setdefault(self.page_of(rule), []).append(rule)
        return dict(sorted(found.items()))

    def page_of(self, rule: AnyRule) -> str:
        """The file name of the page that shows the rule: one page for each file of rules."""
        stem = rule.place.source.removesuffix(".yaml").replace("/", "-").replace("_", "-")
        return f"rules-{stem}.html"

    def title_of(self, page: str) -> str:
        """A page of rules by the name of its file."""
        return PurePosixPath(self.by_file[page][0].place.source).stem.replace("_", " ").capitalize()

    def rule_link(self, rule: AnyRule) -> str:
        """Where the rule stands, relative to the other pages."""
        return f"{self.page_of(rule)}#{anchor('rule', rule.id)}"

    def rules_at(self, zone: str) -> list[AnyRule]:
        """Rules that speak of the zone or of a group it is in."""
        return [rule for rule, conjuncts in self._conjuncts if any(c.zones and zone in c.zones for c in conjuncts)]

    def rules_on(self, sign: str) -> list[AnyRule]:
        """Rules that speak of the sign."""
        return [rule for rule, conjuncts in self._conjuncts if any(c.signs and sign in c.signs for c in conjuncts)]

    @cached_property
    def _conjuncts(self) -> list[tuple[AnyRule, Any]]:
        return [(rule, conjuncts_of(self.kb, rule.when)) for rule in self.kb.all_rules]

    def zones_of(self, sign: str) -> list[Zone]:
        """Where the sign can be met, in the order of the walk-round."""
        return [zone for zone in self.kb.zones.values() if sign in self.kb.offers.get(zone.id, ())]

    def taken_for(self, sign: str) -> list[str]:
        """Signs that are mistaken for this one: those whose "not this" names it."""
        return [other.id for other in self.kb.signs.values() if sign in self.words.signs_in(other.not_this)]

    def checks_of(self, scale: str) -> list[Check]:
        """The checks that read the scale."""
        return [check for check in self.kb.checks.values() if scale in check.reads]

    def basis_counts(self) -> dict[str, Counter[str]]:
        """For each kind of statement how many are published, by analogy, common practice or estimates."""
        return basis_counts(self.kb)

    def entries(self) -> list[Entry]:
        """Everything with a name, in the order of the alphabet."""
        kb, mending = self.kb, self.kb.mending
        kinds: tuple[tuple[str, str, str, Iterable[Any]], ...] = (
            ("place", "walk", "zone", kb.zones.values()),
            ("sign", "signs", "sign", kb.signs.values()),
            ("check", "checks", "check", kb.checks.values()),
            ("scale", "scales", "scale", kb.scales.values()),
            ("cause", "causes", "cause", kb.causation.causes.values()),
            ("repair", "repairs", "repair", mending.repairs),
            ("hazard", "repairs", "hazard", mending.hazards.values()),
        )
        found = [
            Entry(thing.name[:1].upper() + thing.name[1:], what, f"{page}.html#{anchor(kind, thing.id)}")
            for what, page, kind, things in kinds
            for thing in things
        ]
        for zone in kb.zones.values():
            where = f"walk.html#{anchor('zone', zone.id)}"
            words = zone.trade.split(", ")
            found += [Entry(word[:1].upper() + word[1:], f"trade word for: {zone.name}", where) for word in words]
        return sorted(found, key=lambda entry: (entry.name.casefold(), entry.what))


def rendered(kb: KnowledgeBase) -> dict[str, str]:
    """Every file of the handbook, by its name."""
    environment = _environment()
    handbook = Handbook(kb)
    shared = {
        "kb": kb,
        "book": handbook,
        "words": handbook.words,
        "pictures": HandbookPictures(kb),
        "load": LOAD,
        "criticality": CRITICALITY,
    }
    files = {
        name: environment.get_template(template).render(shared, here=name, **particular)
        for name, template, particular in handbook.pages()
    }
    own = (data_dir("templates") / "handbook" / STYLE).read_text(encoding="utf-8")
    return {**files, STYLE: own, DRAWINGS: style_sheet()}


def write_handbook(kb: KnowledgeBase, folder: Path) -> int:
    """Write every page into ``folder``, which is made when it is missing; returns how many pages there are.

    Raises BadInput when the folder holds something else than a handbook, and CannotWork when it cannot be written; an
    older handbook then stays as it was.
    """
    files = rendered(kb)
    replace_all(folder, files, MARKER, what="a handbook")
    return sum(name.endswith(".html") for name in files)


def _environment() -> jinja2.Environment:
    environment = template_environment("handbook", keep_trailing_newline=False)
    environment.filters["capital"] = lambda text: text[:1].upper() + text[1:]
    environment.filters["basis"] = basis_words
    environment.filters["figure"] = figure
    environment.filters["times"] = times
    environment.globals["anchor"] = anchor
    environment.globals["from_"] = limit
    return environment


def figure(value: float) -> str:
    """A number without trailing zeros."""
    return f"{value:g}"


def times(fraction: float) -> str:
    """How often something goes wrong, as a person would say it: "about 1 time in 5"."""
    return "hardly ever" if fraction < 0.01 else f"about 1 time in {round(1 / fraction)}"


def limit(measure: Measure | None, level: int) -> str:
    """Where a level begins, in the unit of its scale; empty when that level has no measure."""
    if measure is None or level == 0:
        return ""
    value = measure.limits[level - 1]
    if value is None or abs(value) == float("inf"):
        return ""
    if measure.smaller_is_worse:
        return f"below {value:g} {measure.unit}"
    if value == 0:
        return f"anything above nothing ({measure.unit})"
    return f"{'over' if value in measure.over else 'from'} {value:g} {measure.unit}"
