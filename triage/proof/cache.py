"""A cache of answers, each under a digest of all that decides it, so that only a change is asked again."""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager, suppress
from functools import cache
from importlib.metadata import version
from pathlib import Path

from triage.inference import program
from triage.inference.program import program_of
from triage.knowledge.compiled import conjuncts
from triage.knowledge.model import KnowledgeBase
from triage.proof import (
    claims,
    laws,
    mending,
    nonvacuity,
    promises,
    scopes,
    symbolic,
    symbolic_finding,
    symbolic_state,
    symbolic_survey,
    text,
)
from triage.proof.claims import Claim
from triage.proof.scopes import ZoneSign, could_hold
from triage.proof.text import conjunct_text, effects_text
from triage.resources import kept_file

MAX_ANSWERS = 200_000
"""Answers kept in the file; beyond that the ones used longest ago are dropped."""

Written = tuple[frozenset[str], frozenset[str], str]
"""A rule at one pair: the derived scales it raises, those it reads, and its text there."""


class Digests:
    """For each question the digest of the claim, of the pair, and of every rule there that can reach its goals."""

    def __init__(self, kb: KnowledgeBase) -> None:
        self.kb, self.program = kb, program_of(kb)
        self.base = f"{_engine()} {sorted((fact.id, sorted(fact.values)) for fact in kb.facts.values())}"
        self._rules: dict[ZoneSign, list[Written]] = {}
        self._known: dict[tuple[ZoneSign, frozenset[str]], str] = {}

    def of(self, claim: Claim, asked: tuple[ZoneSign, ...]) -> str:
        """The digest of a claim about the first of these pairs; of the others everything may matter."""
        goals = claim.goals if len(asked) == 1 else self.kb.derived
        said = (claim.kind, claim.id, claim.text, *(self.pair(pair, goals) for pair in asked))
        return _digest([self.base, *said])

    def pair(self, pair: ZoneSign, goals: frozenset[str]) -> str:
        """A sign in a zone: what applies there, what is presumed, and the rules that can reach the goals."""
        relevant = self.reaching(pair, goals)
        if (pair, relevant) not in self._known:
            everything = relevant == self.kb.derived  # then also what a rule only says
            rules = sorted(written for raised, _, written in self.rules(pair) if raised & relevant or everything)
            self._known[pair, relevant] = _digest([*self.facts(pair), *self.presumptions(pair), *rules])
        return self._known[pair, relevant]

    def reaching(self, pair: ZoneSign, goals: frozenset[str]) -> frozenset[str]:
        """The goals, and every derived scale that a rule there reads on the way to them."""
        relevant = goals
        while True:
            read = {scale for raised, reads, _ in self.rules(pair) if raised & relevant for scale in reads}
            if read <= relevant:
                return relevant
            relevant |= read

    def rules(self, pair: ZoneSign) -> list[Written]:
        """The rules that can hold there at all."""
        if pair not in self._rules:
            found = (self._written(c, pair) for stratum in self.program.rules_for(*pair) for c in stratum)
            self._rules[pair] = [written for written in found if written is not None]
        return self._rules[pair]

    def _written(self, compiled: program.CompiledRule, pair: ZoneSign) -> Written | None:
        rule, able = compiled.rule, [conjunct for conjunct in compiled.conjuncts if could_hold(self.kb, conjunct, pair)]
        if not able:
            return None
        of_others = (
            inner for conjunct in able for quantifier in conjunct.quantifiers for inner in quantifier.conjuncts
        )
        reads = {scale for conjunct in (*able, *of_others) for scale, _ in conjunct.levels}
        conditions = sorted(conjunct_text(conjunct, placed=True) for conjunct in able)
        raised = frozenset(scale for scale, _ in rule.raises)
        return raised, self.kb.derived & reads, f"{conditions} {effects_text(rule)}"

    def facts(self, pair: ZoneSign) -> Iterator[str]:
        """What applies there and within which limits, and what is named."""
        zone, sign = self.kb.zones[pair[0]], self.kb.signs[pair[1]]
        for scale in sorted(self.kb.applicable(*pair)):
            yield f"{scale} {sign.least.get(scale, 0)} {self.kb.worst(sign.id, scale)}"
        yield f"{zone.sided} {zone.encloses_buoyancy} {sorted(self.kb.about(*pair))}"
        yield str(sorted(sorted(way) for way in self.kb.named_sets(*pair)))

    def presumptions(self, pair: ZoneSign) -> Iterator[str]:
        """What can be presumed there, and on which answers."""
        applicable = self.kb.applicable(*pair)
        for compiled in self.program.presumptions_for(*pair):
            here = [conjunct for conjunct in compiled.conjuncts if conjunct.fits(*pair)]
            able = [conjunct for conjunct in here if all(scale in applicable for scale, _ in conjunct.bounds)]
            presumes = sorted(effect for effect in compiled.presumption.presumes if effect[0] in applicable)
            if able and presumes:
                yield f"{sorted(conjunct_text(conjunct, placed=True) for conjunct in able)} presumes {presumes}"


@cache
def _engine() -> str:
    """Changes with the program that asks."""
    modules = (
        symbolic,
        symbolic_finding,
        symbolic_state,
        program,
        conjuncts,
        claims,
        symbolic_survey,
        laws,
        mending,
        promises,
        scopes,
        text,
        nonvacuity,
    )
    sources = [Path(str(module.__file__)).read_text(encoding="utf-8") for module in modules]
    return _digest([version("z3-solver"), *sources])


def _digest(parts: Iterable[str]) -> str:
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()


def default_file() -> Path | None:
    """Where answers are cached between runs, in the one folder for such things; None when caching is turned off."""
    return kept_file("proofs.sqlite")


class AnswerCache:
    """Answers by digest, in one file; without a file, or when it cannot be used, nothing is cached."""

    def __init__(self, file: Path | None = None, *, fresh: bool = False) -> None:
        """``fresh``: nothing that stands in the file is used."""
        self.file = file
        self.answers: dict[str, bool] = {}
        with self._open() as base:
            if base and not fresh:
                self.answers = {key: bool(found) for key, found in base.execute("SELECT digest, found FROM answers")}

    def store(self, used: dict[str, bool]) -> None:
        """Store these answers as the ones used last."""
        with self._open() as base:
            if base:
                base.executemany("DELETE FROM answers WHERE digest = ?", [(digest,) for digest in used])
                base.executemany("INSERT INTO answers VALUES (?, ?)", list(used.items()))
                base.execute("DELETE FROM answers WHERE rowid <= (SELECT MAX(rowid) FROM answers) - ?", [MAX_ANSWERS])
                base.commit()

    @contextmanager
    def _open(self) -> Iterator[sqlite3.Connection | None]:
        base = None if self.file is None else _opened(self.file)
        if base is None:
            yield None
            return
        with closing(base), suppress(sqlite3.Error):
            yield base


def _opened(file: Path) -> sqlite3.Connection | None:
    """The file with its table; None when it cannot be used."""
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        base = sqlite3.connect(file, timeout=10)
    except (OSError, sqlite3.Error):
        return None
    try:
        base.execute("CREATE TABLE IF NOT EXISTS answers (digest TEXT PRIMARY KEY, found INTEGER)")
    except sqlite3.Error:
        base.close()
        return None
    return base
