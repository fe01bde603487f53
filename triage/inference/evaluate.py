"""The meaning of the rules, in one page: every other engine must agree with this one.

Each finding is judged twice, from the best and from the worst that its unanswered scales can be. Rules only raise, so
applying them layer by layer gives the least fixpoint: the mildest conclusion that satisfies every rule.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from triage.inference.bounds import start
from triage.inference.outcome import BOUNDS, Bound, End, Firing, Judged
from triage.inference.program import Compiled, Program, program_of
from triage.knowledge.clauses import Clause, Probe
from triage.knowledge.model import KnowledgeBase, Rule
from triage.survey.model import Boat, Finding, opposite

Hits = Mapping[Probe, Sequence["State"]]


class State:
    """One finding while it is being judged, at one end of its range."""

    def __init__(self, finding: Finding, sided: bool, words: Mapping[str, str], levels: Mapping[str, int]) -> None:
        self.finding = finding
        self.sided = sided
        self.words = words
        self.levels = dict(levels)
        self.firings: list[Firing] = []


def evaluate(
    kb: KnowledgeBase, boat: Boat, findings: Sequence[Finding], standing: Sequence[Judged] = ()
) -> tuple[Judged, ...]:
    """Judge the findings of one boat together, at both ends of their ranges.

    ``standing`` are other findings of the boat as they have been judged: looked at, and not judged again.
    """
    program = program_of(kb)
    starts = [start(kb, boat, finding) for finding in findings]
    ends = {}
    for bound in BOUNDS:
        states = [state_of(kb, boat, one, begun.levels(bound)) for one, begun in zip(findings, starts, strict=True)]
        beside = [state_at(kb, boat, one, bound) for one in standing]
        raise_levels(program, states, bound, beside)
        ends[bound] = [End(state.levels, tuple(state.firings)) for state in states]
    return tuple(
        Judged(finding, floor, ceiling, begun.presumed, begun.withdrawn)
        for finding, floor, ceiling, begun in zip(findings, ends["floor"], ends["ceiling"], starts, strict=True)
    )


def state_of(kb: KnowledgeBase, boat: Boat, finding: Finding, levels: Mapping[str, int]) -> State:
    """The finding at these levels, with what is known of the boat."""
    zone = kb.zones[finding.zone]
    return State(finding, zone.sided, boat.words(zone, finding.side), levels)


def state_at(kb: KnowledgeBase, boat: Boat, judged: Judged, bound: Bound) -> State:
    """A judged finding as it stood when judging ended."""
    return state_of(kb, boat, judged.finding, judged.end(bound).levels)


def raise_levels(program: Program, states: Sequence[State], bound: Bound, beside: Sequence[State] = ()) -> None:
    """Apply every rule to every finding, layer after layer; those ``beside`` are final already."""
    here = [program.rules_for(state.finding.zone, state.finding.sign) for state in states]
    for index in range(len(program.layers)):
        hits = satisfied(program, index, [*states, *beside], bound)
        for state, layers in zip(states, here, strict=True):
            for compiled in layers[index]:
                clause = first_holding(compiled, state, bound, hits)
                if clause is not None:
                    state.firings.append(fire(compiled.rule, clause, state, bound, hits))


def satisfied(program: Program, layer: int, states: Sequence[State], bound: Bound) -> Hits:
    """For each probe of the layer the findings that satisfy it."""
    hits: dict[Probe, list[State]] = {}
    for state in states:
        for probe, clauses in program.probes_for(state.finding.zone, state.finding.sign)[layer]:
            if any(tests_hold(clause, state, bound) for clause in clauses):
                hits.setdefault(probe, []).append(state)
    return hits


def first_holding(compiled: Compiled, state: State, bound: Bound, hits: Hits) -> Clause | None:
    """The first clause of the rule that holds here, if one does."""
    for clause in compiled.clauses:
        if tests_hold(clause, state, bound) and (
            not clause.probes  # as most, which saves asking
            or all(len(witnesses(probe, state, bound, hits)) >= probe.count for probe in clause.probes)
        ):
            return clause
    return None


def fire(rule: Rule, clause: Clause, state: State, bound: Bound, hits: Hits) -> Firing:
    """Raise what the rule raises and keep a record of it."""
    raised = []
    for scale, level in rule.raises:
        before = state.levels.get(scale, 0)
        if level > before:
            state.levels[scale] = level
            raised.append((scale, before, level))
    if not clause.probes:
        return Firing(rule, clause, tuple(raised))
    seen = (other.finding.id for probe in clause.probes for other in witnesses(probe, state, bound, hits))
    return Firing(rule, clause, tuple(raised), tuple(dict.fromkeys(seen)))


def satisfies(clauses: Sequence[Clause], state: State, bound: Bound) -> bool:
    """Whether one of a probe's clauses holds for this finding."""
    zone, sign = state.finding.zone, state.finding.sign
    return any(clause.fits(zone, sign) and tests_hold(clause, state, bound) for clause in clauses)


def tests_hold(clause: Clause, state: State, bound: Bound) -> bool:
    """Levels and words. A word nobody knows matches nothing at the floor and anything at the ceiling."""
    levels, words = state.levels, state.words
    for scale, level in clause.levels:
        if levels.get(scale, 0) < level:
            return False
    for word, values in clause.words:
        if word in words:
            if words[word] not in values:
                return False
        elif bound == "floor":
            return False
    return True


def witnesses(probe: Probe, state: State, bound: Bound, hits: Hits) -> list[State]:
    """The other findings that satisfy the probe and stand to this one as it asks."""
    return [other for other in hits.get(probe, ()) if other is not state and related(probe, state, other, bound)]


def related(probe: Probe, state: State, other: State, bound: Bound) -> bool:
    """Twin: same zone, other side. Same side: not known to be opposite. An unknown side counts only at the ceiling."""
    if probe.where == "anywhere":
        return True
    mine, its = state.finding.side, other.finding.side
    unknown = mine is None or its is None
    if probe.where == "twin":
        if not state.sided or state.finding.zone != other.finding.zone:
            return False
        return bound == "ceiling" if unknown else its == opposite(mine)
    if not (state.sided and other.sided):
        return True
    return bound == "ceiling" if unknown else its == mine
