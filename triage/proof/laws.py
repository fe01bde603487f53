"""What must hold of any rules, whatever they say: each law as a formula, and as a check of judged surveys.

The other findings on the boat enter as unknown answers to what rules ask of them. Each law says how those answers may
differ between the two things it compares, which is what the law itself says of the other findings; so that going
through the strata, a law that holds of one finding with any such context holds of any number of findings.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from triage.inference.evaluate import state_at
from triage.inference.evaluation import BOUNDS, Bound, Fixpoint
from triage.inference.program import program_of
from triage.knowledge.model import KnowledgeBase
from triage.proof.claims import Claim, Question, Seen
from triage.proof.promises import clause_holds
from triage.proof.solver import SymbolicBoat, SymbolicFinding, SymbolicState
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_survey import OpenSurvey, SymbolicSurvey


def law_claims(kb: KnowledgeBase) -> Iterator[Claim]:
    """Every law, asked of every sign in every zone."""
    for id_, says, ask, shown in LAWS:
        yield Claim("law", id_, says, kb.derived, id_, lambda pair: [(pair,)], ask, shown)


def upside_down(ground: SymbolicSurvey) -> Question:
    """A best end graver than the worst end, although that of no other finding is."""
    formula = graver(ground.in_company["lower"], ground.worst_in_more)
    return Question(formula, (ground.survey,), ground.no_company())


def left_open(ground: SymbolicSurvey) -> Question:
    """A range although every scale is answered and every fact is known, on a boat where nothing else is open."""
    finding, ends = ground.finding, ground.in_company
    differ = either((graver(ends["lower"], ends["upper"]), graver(ends["upper"], ends["lower"])))
    words = [*finding.boat.facts, "encloses_buoyancy", *(["side"] if finding.sided else [])]
    known = [either(finding.word(word).values()) for word in words]
    return Question(
        both((*finding.answered.values(), finding.exact, *known, differ)), (ground.survey,), ground.no_company()
    )


def milder(ground: SymbolicSurvey) -> Question:
    """An end that is milder after the same scales were answered worse, or after more was found elsewhere."""
    first = ground.finding
    then = SymbolicFinding(ground.kb, ground.boat, first.zone, first.sign, "then ")
    then.answered, then.side = first.answered, first.side
    ends = ((first.reading, then.reading), (first.high, then.high))
    worse = [either((no(reading), worse[key])) for before, worse in ends for key, reading in before.items()]
    lost = either(graver(ground.in_company[bound], ground.end(then, bound, ground.more)) for bound in BOUNDS)
    after = OpenSurvey(ground.boat, (then,))
    return Question(both((*worse, *then.limits, lost)), (ground.survey, after), ground.no_company())


def wider(ground: SymbolicSurvey) -> Question:
    """A range that is wider after something more was answered or known, although it contradicts nothing presumed."""
    first, boat = ground.finding, SymbolicBoat(ground.kb, "then ")
    then = SymbolicFinding(ground.kb, boat, first.zone, first.sign, "then ")
    then.reading, then.high = first.reading, first.high
    more = [either((no(one), then.answered[scale])) for scale, one in first.answered.items()]
    words = (*first.boat.facts, "encloses_buoyancy", "side")
    more += [either((no(one), then.word(word)[value])) for word in words for value, one in first.word(word).items()]
    contradicted = either(
        both((first.in_force(compiled), then.contradicts(compiled)))
        for compiled in ground.program.presumptions_for(first.zone, first.sign)
    )
    sunk = graver(ground.in_company["lower"], ground.end(then, "lower", ground.more))
    risen = graver(ground.end(then, "upper", ground.some), ground.worst_in_more)
    formula = both((*more, no(contradicted), *boat.limits, *then.limits, either((sunk, risen))))
    return Question(formula, (ground.survey, OpenSurvey(boat, (then,))), ground.no_company())


def left_to_raise(ground: SymbolicSurvey) -> Question:
    """A rule that holds when judging has ended, but whose effect is missing."""
    missing = []
    for end in ground.in_company.values():
        for stratum in ground.program.rules_for(*ground.pairs[0]):
            for compiled in stratum:
                effect = both(end.level(scale, level) for scale, level in compiled.rule.raises)
                missing.append(both((end.holds(compiled, ground.some), no(effect))))
    return Question(either(missing), (ground.survey,), ground.no_company())


def graver(left: SymbolicState, right: SymbolicState) -> Formula:
    """Some scale is at a level in ``left`` that it does not reach in ``right``, or a rule speaks only there."""
    levels = (both((reached, no(right.level(*key)))) for key, reached in left.levels.items())
    spoken = (both((fires, no(right.fires.get(rule, False)))) for rule, fires in left.fires.items() if rule.speaks)
    return either((*levels, *spoken))


def is_graver(left: Fixpoint, right: Fixpoint) -> bool:
    """The same of two judged ends."""
    spoken, others = ({firing.rule for firing in end.firings if firing.rule.speaks} for end in (left, right))
    return not spoken <= others or any(level > right.level(scale) for scale, level in left.levels.items())


def seen_upside_down(seen: Sequence[Seen]) -> bool:
    return any(is_graver(judged.lower, judged.upper) for one in seen for judged in one.judged)


def seen_left_open(seen: Sequence[Seen]) -> bool:
    return any(
        _all_known(one) and (is_graver(judged.lower, judged.upper) or is_graver(judged.upper, judged.lower))
        for one in seen
        for judged in one.judged
    )


def _all_known(one: Seen) -> bool:
    """Nothing on the boat is left unanswered or unknown."""
    for judged in one.judged:
        finding, zone = judged.finding, one.kb.zones[judged.finding.zone]
        words = one.boat.words(zone, finding.side)
        if not set(one.kb.applicable(finding.zone, finding.sign)) <= finding.answered:
            return False
        if "encloses_buoyancy" not in words or (zone.sided and "side" not in words):
            return False
    return one.boat.facts.keys() == one.kb.facts.keys()


def seen_milder(seen: Sequence[Seen]) -> bool:
    (first,), (then,) = (one.judged for one in seen)
    return any(is_graver(first.end(bound), then.end(bound)) for bound in BOUNDS)


def seen_wider(seen: Sequence[Seen]) -> bool:
    (first,), (then,) = (one.judged for one in seen)
    return is_graver(first.lower, then.lower) or is_graver(then.upper, first.upper)


def seen_left_to_raise(seen: Sequence[Seen]) -> bool:
    return any(_rule_left_over(one, bound) for one in seen for bound in BOUNDS)


def _rule_left_over(one: Seen, bound: Bound) -> bool:
    states = [state_at(one.kb, one.boat, judged, bound) for judged in one.judged]
    return any(
        state.levels.get(scale, 0) < level
        and any(clause_holds(conjunct, state, states, bound) for conjunct in rule.conjuncts)
        for state in states
        for stratum in program_of(one.kb).rules_for(state.finding.zone, state.finding.sign)
        for rule in stratum
        for scale, level in rule.rule.raises
    )


Law = tuple[str, str, Callable[[SymbolicSurvey], Question], Callable[[Sequence[Seen]], bool]]

LAWS: tuple[Law, ...] = (
    ("law/best-above-worst", "The best end is never graver than the worst end.", upside_down, seen_upside_down),
    ("law/answers-settle", "With everything answered and known, nothing is left open.", left_open, seen_left_open),
    (
        "law/worse-never-milder",
        "Worse answers, and more found elsewhere, never give a milder end.",
        milder,
        seen_milder,
    ),
    (
        "law/answers-narrow",
        "Another answer or fact never widens the range, unless it contradicts what was presumed.",
        wider,
        seen_wider,
    ),
    (
        "law/nothing-left-to-raise",
        "After the last layer no rule has anything left to raise.",
        left_to_raise,
        seen_left_to_raise,
    ),
)
