"""The ground rules of presuming that no condition can show: named checks are heard, nothing rests on silence."""

from __future__ import annotations

from collections.abc import Iterator

from triage.errors import Problem
from triage.inference.evaluate import evaluate
from triage.knowledge.compiled.conjuncts import conjuncts_of
from triage.knowledge.model import VERDICT, KnowledgeBase
from triage.lint.settling import DEFERRED
from triage.survey.model import Boat, Finding, Reading


def ground_rule_breaches(kb: KnowledgeBase) -> Iterator[Problem]:
    """Breaches of the rules that `initial_state_given` cannot enforce by itself."""
    yield from _resting_on_nothing(kb)
    yield from _about_something_else(kb)
    yield from _milder_than_the_sign(kb)
    yield from _deaf_named_checks(kb)


def _resting_on_nothing(kb: KnowledgeBase) -> Iterator[Problem]:
    for presumption in kb.presumptions:
        deferred = {scale for scale, _ in presumption.presumes} == {DEFERRED}
        if not presumption.rests_on and not deferred:
            what = f"{presumption.id} rests on no answer, so it would settle a mark by silence"
            yield Problem(presumption.place, what, "Name a scale that must be answered.")


def _about_something_else(kb: KnowledgeBase) -> Iterator[Problem]:
    for sign in kb.signs.values():
        for zone, offered in kb.offers.items():
            if sign.id in offered:
                for scale in kb.about(zone, sign.id):
                    if scale not in kb.applicable(zone, sign.id):
                        what = f"{sign.id} is about {scale}, which does not apply to it at {zone}"
                        yield Problem(sign.place, what, "Add it to the scales of the sign.")


def _milder_than_the_sign(kb: KnowledgeBase) -> Iterator[Problem]:
    """A level that the sign's own picture rules out cannot be presumed: an honest answer would contradict it."""
    for presumption in kb.presumptions:
        conjuncts = conjuncts_of(kb, presumption.when)
        for zone, sign in ((zone, sign) for zone, offered in kb.offers.items() for sign in offered):
            if any(conjunct.fits(zone, sign) for conjunct in conjuncts):
                least = kb.signs[sign].least
                for scale, level in presumption.presumes:
                    if level < least.get(scale, 0) and scale not in kb.about(zone, sign):
                        what = (
                            f"{presumption.id} presumes {scale} {level} at {zone}, but {sign} begins at {least[scale]}"
                        )
                        yield Problem(presumption.place, what, "Presume no milder than the sign shows.")


def _deaf_named_checks(kb: KnowledgeBase) -> Iterator[Problem]:
    """Every named check, at its worst and alone, must lift its zone above cosmetic, whatever the sign."""
    for zone, signs in kb.offers.items():
        for sign in signs:
            named = {scale for way in kb.named_sets(zone, sign) for scale in way}
            for scale in sorted(named):
                worst = kb.worst(sign, scale)
                finding = Finding("alone", zone, sign, None, {scale: Reading.at(worst)})
                (judged,) = evaluate(kb, Boat("any"), [finding])
                if judged.lower.level(VERDICT) == 0:
                    what = f"nobody hears {scale} at its worst at {zone} under {sign}, although it is a named check"
                    yield Problem(kb.zones[zone].place, what, "Write a rule that raises something for it.")
