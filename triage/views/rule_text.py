"""Rules in plain words, with links: what must hold, what follows, and the examples that prove it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from triage.knowledge.model import BUOYANCY, Case, KnowledgeBase, Presumption, Rule
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is
from triage.phrases.words import LOAD

CRITICALITY = {
    "primary": "a part on which boat or crew depend",
    "secondary": "a part that carries some load",
    "none": "a part that carries nothing",
}
BELOW_WATER = {"no": "above the waterline", "part": "partly below the waterline", "yes": "below the waterline"}


@dataclass(frozen=True)
class Line:
    """One line of a condition; ``parts`` stand indented below it."""

    says: Markup
    parts: tuple[Line, ...] = ()


class RuleText:
    """Rules of one knowledge base as lines of text, with links to the pages of the handbook."""

    def __init__(self, kb: KnowledgeBase) -> None:
        self.kb = kb
        ids = sorted(kb.signs, key=len, reverse=True)
        self._signs_named = re.compile(r"\b(" + "|".join(map(re.escape, ids)) + r")\b")

    def zone(self, id_: str) -> Markup:
        """The name of a zone, linked to the walk-round."""
        return _link("walk.html", "zone", id_, self.kb.zones[id_].name)

    def sign(self, id_: str) -> Markup:
        """The name of a sign, linked to its page."""
        return _link("signs.html", "sign", id_, self.kb.signs[id_].name)

    def scale(self, id_: str) -> Markup:
        """The name of a scale, linked to its page."""
        return _link("scales.html", "scale", id_, self.kb.scales[id_].name)

    def check(self, id_: str) -> Markup:
        """The name of a check, linked to its page."""
        return _link("checks.html", "check", id_, self.kb.checks[id_].name)

    def prose(self, text: str) -> Markup:
        """A sentence in which other signs are named by their id, with their names in place of it."""
        pieces = self._signs_named.split(text)
        return Markup("").join(
            Markup("“{}”").format(self.sign(piece)) if index % 2 else escape(piece)
            for index, piece in enumerate(pieces)
        )

    def signs_in(self, text: str) -> tuple[str, ...]:
        """The signs that a sentence names by their id."""
        return tuple(dict.fromkeys(self._signs_named.findall(text)))

    def when(self, condition: Condition) -> tuple[Line, ...]:
        """The lines that must all hold."""
        if isinstance(condition, All):
            return tuple(line for part in condition.parts for line in self.when(part)) or (Line(Markup("always")),)
        return (self._line(condition),)

    def _line(self, condition: Condition) -> Line:
        match condition:
            case All(parts):
                return Line(Markup("all of these"), tuple(self._line(part) for part in parts))
            case Any(parts):
                return Line(Markup("at least one of these"), tuple(self._line(part) for part in parts))
            case AtLeast(scale, level):
                worse = "" if level == self.kb.scales[scale].top else ", or worse"
                return Line(Markup("{}: {}{}").format(self.scale(scale), self._phrase(scale, level), worse))
            case AtMost(scale, level):
                better = " (answered)" if level == 0 else ", or better (answered)"
                return Line(Markup("{}: {}{}").format(self.scale(scale), self._phrase(scale, level), better))
            case Elsewhere(inner, count, where):
                place = {"anywhere": "elsewhere on her", "twin": "on the other side", "same side": "on the same side"}
                others = "another finding" if count == 1 else f"{count} other findings or more"
                return Line(Markup(f"{others} {place[where]}:"), self.when(inner))
            case Is(word, values):
                return Line(self._is(word, values))

    def _is(self, word: str, values: tuple[str, ...]) -> Markup:
        facts = self.kb.facts
        match word:
            case "zone":
                return Markup("at ") + _either(self.zone(value) for value in values)
            case "sign":
                return Markup("the mark is ") + _either(self.sign(value) for value in values)
            case "group":
                return Markup("at the ") + _either(escape(self.kb.groups[value].name) for value in values)
            case "criticality":
                return _either(escape(CRITICALITY[value]) for value in values)
            case "load":
                return Markup("loaded by ") + _either(escape(LOAD[value]) for value in values)
            case "below_water":
                return _either(escape(BELOW_WATER[value]) for value in values)
            case "side":
                return Markup("on the ") + _either(escape(value) for value in values) + " side"
            case _ if word == BUOYANCY:
                return (
                    Markup("the wall of a closed space") if values == ("yes",) else Markup("no wall of a closed space")
                )
            case _:
                meant = _either(escape(facts[word].values[value]) for value in values)
                return Markup("{} {}").format(facts[word].asks, meant)

    def then(self, rule: Rule | Presumption) -> tuple[Markup, ...]:
        """What follows when the rule holds."""
        if isinstance(rule, Presumption):
            presumed = ((self.scale(scale), self._phrase(scale, level)) for scale, level in rule.presumes)
            return tuple(Markup("unless it was answered, {}: {} at worst").format(*one) for one in presumed)
        found = [Markup("{}: {}").format(self.scale(s), self._phrase(s, level)) for s, level in rule.raises]
        found.extend(Markup("look at {} for: {}").format(self.zone(s.zone), self.sign(s.sign)) for s in rule.suspects)
        found.extend(escape(ADVICE.get(advice.kind, "") + advice.say) for advice in rule.advises)
        return tuple(found)

    def case(self, case: Case) -> str:
        """An example in one line."""
        pieces = [self._word(word, value) for word, value in case.words.items()]
        pieces += [f"{self.kb.scales[s].name}: {self.kb.level_name(s, level)}" for s, level in case.levels.items()]
        pieces += [f"and elsewhere {self.case(other)}" for other in case.elsewhere]
        return "; ".join(pieces)

    def _word(self, word: str, value: str) -> str:
        named: Mapping[str, str] = {
            "zone": self.kb.zones[value].name if value in self.kb.zones else "",
            "sign": self.kb.signs[value].name if value in self.kb.signs else "",
        }
        return named.get(word) or f"{word.replace('_', ' ')}: {value}"

    def _phrase(self, scale: str, level: int) -> str:
        return self.kb.scales[scale].levels[level].in_full


ADVICE = {"caution": "Take care: ", "recheck": "Look again: "}
"""What stands before a sentence of advice; "do" and "never" speak for themselves."""


def anchor(kind: str, id_: str) -> str:
    """The name of a place on a page."""
    return f"{kind}-{id_.replace('/', '.')}"


def _link(page: str, kind: str, id_: str, text: str) -> Markup:
    return Markup('<a href="{}#{}">{}</a>').format(page, anchor(kind, id_), text)


def _either(items: Iterable[Markup]) -> Markup:
    *rest, last = items
    return Markup(", ").join(rest) + " or " + last if rest else last
