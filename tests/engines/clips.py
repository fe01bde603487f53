"""The rules as a CLIPS program: another engine, another matcher, and nothing of the package's own inference.

Conditions are written out as CLIPS writes them: joins for what stands elsewhere, `or` and `and` as they are nested in
the rule. CLIPS finds the fixpoint by itself, in whatever order its agenda likes; there are no strata here. Presumptions
are rules of an earlier salience, with their ground rules as `not` and `forall`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from weakref import WeakKeyDictionary

import clips
from clips._clips import lib

from tests.engines.clips_program import constructs
from tests.oracle import Naive
from triage.inference.evaluation import BOUNDS
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding


def judge(kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> list[dict[str, Naive]]:
    """For each finding: {"lower": Naive, "upper": Naive}, as the oracle tells it."""
    if kb not in _environments:
        _environments[kb] = build(kb)
    return run(_environments[kb], kb, boat, findings)


_environments: WeakKeyDictionary[KnowledgeBase, clips.Environment] = WeakKeyDictionary()


def _release(fact: clips.facts.Fact) -> None:
    lib.ReleaseFact(fact._fact)


# clipspy 1.0.6 hands ReleaseFact one argument too many and swallows the error: no fact that Python has seen would ever
# be freed, and every boat would be slower than the one before.
clips.facts.Fact.__del__ = _release


def build(kb: KnowledgeBase) -> clips.Environment:
    """A CLIPS environment with the rules of the knowledge base."""
    environment = clips.Environment()
    for construct in constructs(kb):
        environment.build(construct)
    return environment


def run(
    environment: clips.Environment, kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]
) -> list[dict[str, Naive]]:
    """Tell CLIPS of one boat, let it run, and read back what it raised and fired."""
    tell(environment, kb, boat, findings)
    environment.run()
    return read_back(environment, kb, len(findings))


def tell(environment: clips.Environment, kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]) -> None:
    """Assert what is known of one boat, and nothing else."""
    environment.reset()
    for template, slots in facts(kb, boat, findings):
        environment.find_template(template).assert_fact(**slots)


def read_back(environment: clips.Environment, kb: KnowledgeBase, findings: int) -> list[dict[str, Naive]]:
    """What CLIPS raised and fired, finding by finding."""
    told: list[dict[str, Naive]] = [{bound: Naive({}) for bound in BOUNDS} for _ in range(findings)]
    for fact in environment.find_template("raised").facts():
        levels, scale = told[fact["n"]][fact["bound"]].levels, str(fact["scale"])
        levels[scale] = max(fact["level"], levels.get(scale, 0))
    for fact in environment.find_template("fired").facts():
        told[fact["n"]][fact["bound"]].fired.add(kb.rules[fact["rule"]].id)
    return told


def facts(
    kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding]
) -> Iterator[tuple[str, dict[str, clips.Symbol | int]]]:
    """What CLIPS is told of one boat: template and slots of each fact."""
    for bound in BOUNDS:
        yield "boat", _symbols(bound=bound, **_known(bound, boat.facts, kb.facts))
    for n, finding in enumerate(findings):
        place = kb.zones[finding.zone]
        words = {} if finding.side is None else {"side": finding.side}
        buoyant = boat.encloses_buoyancy.get(place.id, place.encloses_buoyancy)
        words |= {} if buoyant == "varies" else {"encloses_buoyancy": buoyant}
        for bound in BOUNDS:
            known = _known(bound, words, ("side", "encloses_buoyancy"))
            yield "finding", {"n": n, **_symbols(bound=bound, zone=finding.zone, sign=finding.sign, **known)}
        answers = {scale: reading for scale, reading in finding.readings.items() if reading.told}
        for scale, reading in answers.items():
            yield "answered", {"n": n, "low": reading.low, "level": reading.high, **_symbols(scale=scale)}
        for scale in kb.applicable(finding.zone, finding.sign):
            if scale not in answers:
                yield "open", {"n": n, "worst": kb.worst(finding.sign, scale), **_symbols(scale=scale)}
                yield "shown", {"n": n, "level": kb.best(finding.sign, scale), **_symbols(scale=scale)}
        for scale in kb.about(finding.zone, finding.sign):
            yield "about", {"n": n, **_symbols(scale=scale)}
        for way, scales in enumerate(kb.named_sets(finding.zone, finding.sign)):
            for scale in scales:
                yield "named", {"n": n, "way": way, **_symbols(scale=scale)}


def _known(bound: str, words: Mapping[str, str], every: Iterable[str]) -> dict[str, str]:
    unknown = dict.fromkeys(every, "ANYTHING") if bound == "upper" else {}
    return unknown | dict(words)


def _symbols(**words: str) -> dict[str, clips.Symbol | int]:
    return {slot: clips.Symbol(word) for slot, word in words.items()}
