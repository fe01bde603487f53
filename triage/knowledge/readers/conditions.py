"""Reading what stands in ``when``: from the mappings of a file to a Condition, with every mistake told."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any as Anything
from typing import Literal

from triage.knowledge import model
from triage.knowledge.model.conditions import All, Any, AtLeast, AtMost, Condition, Elsewhere, Is, Where, ways
from triage.knowledge.readers.references import Ontology, level_of
from triage.parsing.documents import Document, Path
from triage.parsing.text import did_you_mean

Mode = Literal["rule", "presumption"]

MAX_WAYS = 500
"""An all over many any multiplies out; nobody reads such a rule, and it would take the engines for ever."""

_JOINERS = ("all", "any", "elsewhere")
_NO_SUCH_WORD = 'The README of the rules lists what may stand here; there is no "not".'
_THINGS = ("zone", "sign", "group")


def word_values(ontology: Ontology) -> dict[str, list[str]]:
    """Every word that may be tested in a condition, with the values it can have."""
    return {
        "zone": list(ontology.zones),
        "sign": list(ontology.signs),
        "criticality": ["primary", "secondary", "none"],
        "load": sorted({zone.load for zone in ontology.zones.values()}),
        "group": list(ontology.groups),
        "below_water": ["no", "part", "yes"],
        "encloses_buoyancy": ["no", "yes"],
        "side": list(model.SIDES),
        **{fact.id: list(fact.values) for fact in ontology.facts.values()},
    }


class ConditionReader:
    """Reads the conditions of one document; a rule asks for a level or worse, a presumption for a good answer."""

    def __init__(self, document: Document, ontology: Ontology, mode: Mode) -> None:
        self.document, self.ontology, self.mode = document, ontology, mode
        self.values = word_values(ontology)

    def complain(self, path: Path, what: str, hint: str = "") -> None:
        """Add a problem at this place to those of the document."""
        self.document.problems.append(self.document.problem(path, what, hint))

    def condition(self, path: Path, given: Mapping[str, Anything], *, inside: bool = False) -> Condition:
        """What stands at ``path`` as a condition, all lines of which must hold; problems go to the document.

        ``inside`` an elsewhere there may be no other.
        """
        found: list[Condition] = []
        for key, value in given.items():
            here = (*path, key)
            if key in ("all", "any"):
                found.append(self.joined(here, key, value, inside=inside))
            elif key == "elsewhere":
                if self.mode == "presumption":
                    hint = "It rests on answers about its own mark alone."
                    self.complain(here, "a presumption cannot look elsewhere", hint)
                elif inside:
                    hint = "Put both side by side: all: [{elsewhere: {…}}, {elsewhere: {…}}]."
                    self.complain(here, "an elsewhere cannot hold another", hint)
                elif isinstance(value, dict) and value:
                    found.append(self.elsewhere(here, value))
                else:
                    hint = "Write elsewhere: {zone: …, sign: …}."
                    self.complain(here, "elsewhere says nothing of the other finding", hint)
            elif key in self.values:
                found.append(self.word(here, key, value))
            elif key in self.ontology.scales:
                found.extend(self.level(here, key, value))
            else:
                hint = did_you_mean(key, [*self.values, *self.ontology.scales, *_JOINERS])
                self.complain(here, f'unknown word "{key}"', hint or _NO_SUCH_WORD)
        read = found[0] if len(found) == 1 else All(tuple(found))
        if ways(read) > MAX_WAYS:
            self.complain(path, f"this can hold in more than {MAX_WAYS} ways", "Make several rules of it.")
            return All(())
        return read

    def joined(self, path: Path, key: str, value: Anything, *, inside: bool) -> Condition:
        """The conditions under ``all`` or ``any``; one that always holds when they are no list."""
        if not isinstance(value, list) or not value or not all(isinstance(part, dict) for part in value):
            self.complain(path, f"{key} holds a list of conditions", f"Write {key}: [{{…}}, {{…}}].")
            return All(())
        parts = [self.condition((*path, index), part, inside=inside) for index, part in enumerate(value)]
        return All(tuple(parts)) if key == "all" else Any(tuple(parts))

    def elsewhere(self, path: Path, given: Mapping[str, Anything]) -> Condition:
        """What is asked of other findings: how many, how they are related to this one, and what holds of them."""
        where: Where = "anywhere"
        if given.get("twin") == "yes":
            where = "twin"
        elif given.get("side") == "same":
            where = "same side"
        if given.get("twin", "yes") != "yes":
            self.complain((*path, "twin"), "twin can only be yes", "Take it out.")
        count = given.get("count", 1)
        if not isinstance(count, int) or not 1 <= count <= 9:
            self.complain((*path, "count"), f'count cannot be "{count}"', "It is a number from 1 to 9.")
            count = 1
        same = given.get("side") == "same"
        rest = {k: v for k, v in given.items() if k not in ("twin", "count") and not (k == "side" and same)}
        return Elsewhere(self.condition(path, rest, inside=True), count, where)

    def word(self, path: Path, key: str, value: Anything) -> Condition:
        """That a word has one of these values; those it cannot have become problems."""
        values = value if isinstance(value, list) else [value]
        good = []
        for index, said in enumerate(values):
            here = (*path, index) if isinstance(value, list) else path
            if said in self.values[key]:
                if said in good:
                    self.complain(here, f'"{said}" stands twice under {key}', "Keep one of them.")
                good.append(said)
            elif said is None:
                self.complain(here, f'"{key}" is empty', "Fill it in, or take the line out.")
            elif isinstance(said, (dict, list)):
                self.complain(here, f"{key} needs a word or a list of words", f"Such as {key}: {self.values[key][0]}.")
            else:
                what = f'no {key} is called "{said}"' if key in _THINGS else f'{key} cannot be "{said}"'
                hint = did_you_mean(str(said), self.values[key]) or "Mend the word, or add what it should name."
                self.complain(here, what, hint)
        return Is(key, tuple(good))

    def level(self, path: Path, key: str, value: Anything) -> Iterable[Condition]:
        """That a scale is at a level or worse, or in a presumption or better; nothing where that cannot be read."""
        scale = self.ontology.scales[key]
        wanted = "at_least" if self.mode == "rule" else "at_most"
        if not isinstance(value, dict) or set(value) != {wanted}:
            reason = "a rule asks for a level or worse" if self.mode == "rule" else "a presumption needs a good answer"
            said = "…" if isinstance(value, (dict, list)) or value is None else value
            self.complain(path, f"{key} needs {wanted}: {reason}", f"Write {key}: {{{wanted}: {said}}}.")
            return
        if self.mode == "presumption" and not scale.observed:
            hint = "Rest it on something that a check reads."
            self.complain(path, f"a presumption cannot rest on {key}, which rules raise", hint)
            return
        level = level_of(self.document, (*path, wanted), scale, value[wanted])
        if level is None:
            return
        if self.mode == "rule":
            if level == 0:
                hint = "Take the line out, or name a worse level."
                self.complain(path, f"{key} is always at level 0 or worse", hint)
            else:
                yield AtLeast(key, level)
        elif level == scale.top:
            self.complain(path, f"any answer to {key} would do", "Take the line out, or name a better level.")
        else:
            yield AtMost(key, level)
