"""One entry of the knowledge as text, with everything it meets: ``triage rules show``."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from triage.cli.rows import named, plain, row, rows, shown_marks
from triage.errors import Place
from triage.knowledge.compiled.reads import suspected_marks
from triage.knowledge.model import Check, KnowledgeBase, Presumption, Rule, Scale, Sign, Zone
from triage.knowledge.model.conditions import Condition
from triage.knowledge.model.promise import Promise
from triage.lint.nonvacuity import marks_for
from triage.lint.relations import (
    Neighbour,
    neighbours,
    presumptions_about,
    repairs_for,
    rules_at,
    rules_raising,
    scales_read,
    statements_reading,
)
from triage.phrases.words import basis_words, plus_waiting
from triage.views.rule_text import RuleText


def entries(kb: KnowledgeBase) -> dict[str, list[Callable[[], Iterator[str]]]]:
    """By id, what can be shown; two kinds of thing may share an id."""
    found: dict[str, list[Callable[[], Iterator[str]]]] = {}
    for one in (kb, *filter(None, [kb.purchase.judging])):
        _add_entries(one, found)
    return found


def _add_entries(kb: KnowledgeBase, found: dict[str, list[Callable[[], Iterator[str]]]]) -> None:
    book = _Book(kb)

    def add(things: Iterable[tuple[str, Callable[[], Iterator[str]]]]) -> None:
        for id_, show in things:
            found.setdefault(id_, []).append(show)

    add((rule.id, _later(book.rule, rule)) for rule in kb.rules)
    add((presumption.id, _later(book.presumption, presumption)) for presumption in kb.presumptions)
    add((promise.id, _later(book.promise, promise)) for promise in kb.promises)
    add((scale.id, _later(book.scale, scale)) for scale in kb.scales.values())
    add((sign.id, _later(book.sign, sign)) for sign in kb.signs.values())
    add((zone.id, _later(book.zone, zone)) for zone in kb.zones.values())
    add((check.id, _later(book.check, check)) for check in kb.checks.values())


def _later(show: Callable[..., Iterator[str]], thing: object) -> Callable[[], Iterator[str]]:
    return lambda: show(thing)


class _Book:
    """Shows the entries of one knowledge base."""

    def __init__(self, kb: KnowledgeBase) -> None:
        self.kb, self.words = kb, RuleText(kb)

    def rule(self, rule: Rule) -> Iterator[str]:
        kb, marks = self.kb, marks_for(self.kb, rule.when)
        yield from _head("rule", rule.id, "", rule.place)
        yield from self._statement(rule.when, [line.striptags() for line in self.words.then(rule)], rule.because)
        yield from row("levels", self._levels(rule.raises))
        yield from _basis_and_cases(rule)
        yield from row("holds on", shown_marks(marks))
        beside = neighbours(kb, rule)
        yield from rows("beside it", [_neighbour(one) for one in beside])
        read = scales_read(rule.when)
        presumed = presumptions_about(kb, read, marks)
        yield from rows(
            "presumed", [named(one.id, self._levels(e for e in one.presumes if e[0] in read)) for one in presumed]
        )
        yield from rows("mended by", [f"{one.id}: {one.name}" for one in repairs_for(kb, rule)])

    def presumption(self, one: Presumption) -> Iterator[str]:
        kb, marks = self.kb, marks_for(self.kb, one.when)
        yield from _head("presumption", one.id, "", one.place)
        yield from self._statement(one.when, [line.striptags() for line in self.words.then(one)], one.because)
        yield from row("levels", self._levels(one.presumes))
        yield from _basis_and_cases(one)
        yield from row("holds on", shown_marks(marks))
        scales = [scale for scale, _ in one.presumes]
        others = [other for other in presumptions_about(kb, scales, marks) if other is not one]
        yield from rows("beside it", [named(other.id, self._levels(other.presumes)) for other in others])
        silenced = {s.id: s for scale in scales for s in statements_reading(kb, scale) if isinstance(s, Rule)}
        here = [rule for rule in silenced.values() if not set(marks).isdisjoint(marks_for(kb, rule.when))]
        yield from rows("read by", [named(rule.id, self._levels(rule.raises)) for rule in here])

    def promise(self, promise: Promise) -> Iterator[str]:
        marks = marks_for(self.kb, promise.when)
        if promise.of_suspicions:
            marks = tuple(mark for mark in marks if mark in suspected_marks(self.kb))
        follows = [f"at least {self._levels([effect])}" for effect in promise.at_least]
        follows += [f"at worst at least {self._levels([effect])}" for effect in promise.worst_at_least]
        follows += [f"by itself at best no worse than {self._levels([effect])}" for effect in promise.at_most]
        follows += [f"a sentence of the kind {kind} is said" for kind in promise.advises]
        yield from _head("promise", promise.id, promise.says, promise.place)
        yield from self._statement(promise.when, follows, promise.because)
        yield from row("not answered", self._not_answered(promise))
        yield from row("answered", "nothing worse than the best" if promise.answered_well else "")
        yield from row("speaks of", shown_marks(marks))
        wanted = (*promise.at_least, *promise.worst_at_least)
        raising = [rule for rule in self.kb.rules if any(_reaches(rule, *effect) for effect in wanted)]
        here = [rule for rule in raising if not set(marks).isdisjoint(marks_for(self.kb, rule.when))]
        yield from rows("kept by", [named(rule.id, self._levels(rule.raises)) for rule in here])

    def _not_answered(self, promise: Promise) -> str:
        if promise.of_suspicions:
            return "anything: it speaks of what rules send people to look for"
        if promise.named_checks_missing:
            return "one whole set of named checks"
        return (
            "one whole way of passing the part" if promise.passing_checks_missing else ", ".join(promise.not_answered)
        )

    def scale(self, scale: Scale) -> Iterator[str]:
        kb = self.kb
        kind = "observed scale" if scale.observed else "derived scale"
        yield from _head(kind, scale.id, scale.name, scale.place)
        yield from row("asks", scale.asks)
        unit = scale.measure.unit if scale.measure else ""
        yield from rows(
            "levels", [f"{n} {level.name}: {level.in_full}" for n, level in enumerate(scale.levels)], all_=True
        )
        yield from row("measured in", unit)
        yield from row("basis", basis_words(scale.basis) if scale.basis else "")
        if scale.observed:
            judged = [
                (zone, sign)
                for zone, signs in kb.offers.items()
                for sign in signs
                if scale.id in kb.applicable(zone, sign)
            ]
            yield from rows(
                "read by", [f"{check.id}: {check.name}" for check in kb.checks.values() if scale.id in check.reads]
            )
            yield from row("judges", shown_marks(judged))
            yield from rows(
                "presumed",
                [named(one.id, self._levels(one.presumes)) for one in presumptions_about(kb, [scale.id], judged)],
            )
        else:
            for level in range(1, scale.top + 1):
                raising = rules_raising(kb, scale.id, level)
                yield from rows(f"raised to {level}", [rule.id for rule in raising])
        yield from rows("asked for by", [one.id for one in statements_reading(kb, scale.id)])

    def sign(self, sign: Sign) -> Iterator[str]:
        kb = self.kb
        yield from _head("sign", sign.id, sign.name, sign.place)
        yield from row("picture", sign.picture)
        yield from row("not this", sign.not_this)
        yield from row("about", ", ".join(sign.about))
        yield from row("at least", self._levels(sign.least.items()))
        yield from row(
            "at most",
            ", ".join(f"{self._levels([(s, cap.level)])}, else {cap.otherwise}" for s, cap in sign.caps.items()),
        )
        judged: dict[tuple[str, ...], list[str]] = {}
        for zone, signs in kb.offers.items():
            if sign.id in signs:
                judged.setdefault(kb.applicable(zone, sign.id), []).append(zone)
        told = [f"{', '.join(zones)}: judged by {', '.join(scales) or 'nothing'}" for scales, zones in judged.items()]
        yield from rows("offered at", told, all_=True)
        marks = [(zone, sign.id) for zones in judged.values() for zone in zones]
        yield from row("rules", f"{len(rules_at(kb, marks))} rules that name a place or a mark can hold on it")

    def zone(self, zone: Zone) -> Iterator[str]:
        kb = self.kb
        yield from _head("zone", zone.id, f"{zone.name} ({zone.trade})", zone.place)
        yield from row("load", f"{zone.load}, {zone.criticality}{', one on each side' if zone.sided else ''}")
        yield from row("groups", ", ".join(zone.groups))
        yield from row("signs", ", ".join(kb.offers[zone.id]))
        yield from rows("passed by", [" and ".join(way) for way in zone.passed_by], all_=True)
        yield from row("how", zone.how_passed)
        yield from row("also open", ", ".join(zone.also_open))
        yield from row("not asked", ", ".join(sorted(zone.not_asked)))
        named = "what passes it must be tried whatever the mark" if zone.named_checks else "none"
        yield from row("named checks", named)
        read = dict.fromkeys(scale for sign in kb.offers[zone.id] for scale in kb.applicable(zone.id, sign))
        checks = {check.id: check for scale in read for check in kb.checks_for(scale, zone.id)}
        yield from rows("checks", [f"{one.id}: {one.name}, {_takes(one)}" for one in checks.values()], all_=True)
        yield from row("beside it", ", ".join(zone.neighbours))
        marks = [(zone.id, sign) for sign in kb.offers[zone.id]]
        yield from row("rules", f"{len(rules_at(kb, marks))} rules that name a place or a mark can hold here")

    def check(self, check: Check) -> Iterator[str]:
        kb = self.kb
        yield from _head("check", check.id, check.name, check.place)
        yield from rows("reads", [f"{scale}: {kb.scales[scale].asks}" for scale in check.reads], all_=True)
        yield from rows("steps", list(check.steps), all_=True)
        yield from row("tools", ", ".join(check.tools))
        helper = ", with a helper" if check.helper else ""
        yield from row("takes", f"{_takes(check)}, dismantling: {check.dismantling}{helper}")
        yield from row("care", check.care)
        yield from row("only in", ", ".join(check.only_in))
        yield from row("basis", basis_words(check.basis))
        zones = [
            zone
            for zone, signs in kb.offers.items()
            if any(check in kb.checks_for(scale, zone) for sign in signs for scale in kb.applicable(zone, sign))
        ]
        yield from row("made at", ", ".join(zones))
        sent = [
            cause.id for cause in kb.causation.causes.values() if any(f.check == check.id for f in cause.follow_ups)
        ]
        yield from rows("sent to by", sent)

    def _statement(self, when: Condition, follows: Sequence[str], because: str) -> Iterator[str]:
        yield from rows("when", list(plain(self.words.when(when))), all_=True)
        yield from rows("then", list(follows), all_=True)
        yield from row("because", because)

    def _levels(self, effects: Iterable[tuple[str, int]]) -> str:
        return ", ".join(f"{scale} {level} ({self.kb.level_name(scale, level)})" for scale, level in effects)


def _head(kind: str, id_: str, name: str, place: Place) -> Iterator[str]:
    yield f"{id_}  ({kind}, {place.source}:{place.line})"
    yield from row("name" if kind != "promise" else "says", name)


def _takes(check: Check) -> str:
    return f"{check.minutes:g} min{plus_waiting(check.wait)}"


def _basis_and_cases(one: Rule | Presumption) -> Iterator[str]:
    yield from row("basis", basis_words(one.basis))
    fires = sum(case.fires for case in one.cases)
    yield from row("cases", f"{fires} in which it fires, {len(one.cases) - fires} in which it stays silent")


def _neighbour(one: Neighbour) -> str:
    raised = ", ".join(f"{scale} {level}" for scale, level in one.rule.raises)
    if one.subsumes and one.subsumed:
        return f"{one.rule.id} ({raised}) says the same as this"
    if one.subsumes:
        return f"{one.rule.id} ({raised}) holds whenever this does and says as much: it subsumes this"
    if one.subsumed:
        return f"{one.rule.id} ({raised}) is subsumed: this holds whenever it does and says as much"
    return f"{one.rule.id} ({raised})"


def _reaches(rule: Rule, scale: str, level: int) -> bool:
    return any(raised == scale and reached >= level for raised, reached in rule.raises)
