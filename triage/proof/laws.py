"""What must hold of any rules, whatever they say: each law as a formula, and as a check of evaluated surveys.

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
from triage.proof.claims import Claim, EvaluatedSurvey, Question
from triage.proof.promises import conjunct_holds
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_finding import SymbolicBoat, SymbolicFinding
from triage.proof.symbolic_state import SymbolicState
from triage.proof.symbolic_survey import SymbolicInput, SymbolicSurvey


def law_claims(kb: KnowledgeBase) -> Iterator[Claim]:
    """Every law, asked of every sign in every zone."""
    for id_, says, ask, shown in LAWS:
        yield Claim("law", id_, says, kb.derived, id_, lambda pair: [(pair,)], ask, shown)


def upside_down(survey: SymbolicSurvey) -> Question:
    """A lower bound graver than the upper one, although that of no other finding is."""
    formula = graver(survey.in_context["lower"], survey.upper_in_wider_context)
    return Question(formula, (survey.inputs,), survey.empty_contexts())


def left_open(survey: SymbolicSurvey) -> Question:
    """A range although every scale is answered and every fact is known, on a boat where nothing else is open."""
    finding, states = survey.finding, survey.in_context
    differ = either((graver(states["lower"], states["upper"]), graver(states["upper"], states["lower"])))
    words = [*finding.boat.facts, "encloses_buoyancy", *(["side"] if finding.sided else [])]
    known = [either(finding.word(word).values()) for word in words]
    return Question(
        both((*finding.answered.values(), finding.exact, *known, differ)), (survey.inputs,), survey.empty_contexts()
    )


def milder(survey: SymbolicSurvey) -> Question:
    """A bound that is milder after the same scales were answered worse, or after more was found elsewhere."""
    first = survey.finding
    then = SymbolicFinding(survey.kb, survey.boat, first.zone, first.sign, "then ")
    then.answered, then.side = first.answered, first.side
    answers = ((first.reading, then.reading), (first.high, then.high))
    worse = [either((no(reading), worse[key])) for before, worse in answers for key, reading in before.items()]
    lost = either(graver(survey.in_context[bound], survey.state(then, bound, survey.wider_context)) for bound in BOUNDS)
    after = SymbolicInput(survey.boat, (then,))
    return Question(both((*worse, *then.limits, lost)), (survey.inputs, after), survey.empty_contexts())


def wider(survey: SymbolicSurvey) -> Question:
    """A range that is wider after something more was answered or known, although it contradicts nothing presumed."""
    first, boat = survey.finding, SymbolicBoat(survey.kb, "then ")
    then = SymbolicFinding(survey.kb, boat, first.zone, first.sign, "then ")
    then.reading, then.high = first.reading, first.high
    more = [either((no(one), then.answered[scale])) for scale, one in first.answered.items()]
    words = (*first.boat.facts, "encloses_buoyancy", "side")
    more += [either((no(one), then.word(word)[value])) for word in words for value, one in first.word(word).items()]
    contradicted = either(
        both((first.in_force(compiled), then.contradicts(compiled)))
        for compiled in survey.program.presumptions_for(first.zone, first.sign)
    )
    sunk = graver(survey.in_context["lower"], survey.state(then, "lower", survey.wider_context))
    risen = graver(survey.state(then, "upper", survey.context), survey.upper_in_wider_context)
    formula = both((*more, no(contradicted), *boat.limits, *then.limits, either((sunk, risen))))
    return Question(formula, (survey.inputs, SymbolicInput(boat, (then,))), survey.empty_contexts())


def left_to_raise(survey: SymbolicSurvey) -> Question:
    """A rule that holds when judging has ended, but whose effect is missing."""
    missing = []
    for state in survey.in_context.values():
        for stratum in survey.program.rules_for(*survey.pairs[0]):
            for compiled in stratum:
                effect = both(state.level(scale, level) for scale, level in compiled.rule.raises)
                missing.append(both((state.holds(compiled, survey.context), no(effect))))
    return Question(either(missing), (survey.inputs,), survey.empty_contexts())


def graver(left: SymbolicState, right: SymbolicState) -> Formula:
    """Some scale is at a level in ``left`` that it does not reach in ``right``, or a rule speaks only there."""
    levels = (both((reached, no(right.level(*key)))) for key, reached in left.levels.items())
    spoken = (both((fires, no(right.fires.get(rule, False)))) for rule, fires in left.fires.items() if rule.speaks)
    return either((*levels, *spoken))


def is_graver(left: Fixpoint, right: Fixpoint) -> bool:
    """The same of two fixpoints."""
    spoken, others = ({firing.rule for firing in one.firings if firing.rule.speaks} for one in (left, right))
    return not spoken <= others or any(level > right.level(scale) for scale, level in left.levels.items())


def shows_upside_down(surveys: Sequence[EvaluatedSurvey]) -> bool:
    """Some lower bound is graver than its upper bound."""
    return any(is_graver(judged.lower, judged.upper) for survey in surveys for judged in survey.evaluations)


def shows_left_open(surveys: Sequence[EvaluatedSurvey]) -> bool:
    """Some bounds differ on a boat of which everything is answered and known."""
    return any(
        _all_known(survey) and (is_graver(judged.lower, judged.upper) or is_graver(judged.upper, judged.lower))
        for survey in surveys
        for judged in survey.evaluations
    )


def _all_known(survey: EvaluatedSurvey) -> bool:
    """Nothing on the boat is left unanswered or unknown."""
    for judged in survey.evaluations:
        finding, zone = judged.finding, survey.kb.zones[judged.finding.zone]
        words = survey.boat.words(zone, finding.side)
        if not set(survey.kb.applicable(finding.zone, finding.sign)) <= finding.answered:
            return False
        if "encloses_buoyancy" not in words or (zone.sided and "side" not in words):
            return False
    return survey.boat.facts.keys() == survey.kb.facts.keys()


def shows_milder(surveys: Sequence[EvaluatedSurvey]) -> bool:
    """The second survey, with the worse answers, is milder than the first at either bound."""
    (first,), (then,) = (survey.evaluations for survey in surveys)
    return any(is_graver(first.end(bound), then.end(bound)) for bound in BOUNDS)


def shows_wider(surveys: Sequence[EvaluatedSurvey]) -> bool:
    """The second survey, which says more, is milder at the lower bound or graver at the upper one."""
    (first,), (then,) = (survey.evaluations for survey in surveys)
    return is_graver(first.lower, then.lower) or is_graver(then.upper, first.upper)


def shows_left_to_raise(surveys: Sequence[EvaluatedSurvey]) -> bool:
    """Some rule holds of a final state that lacks what it raises."""
    return any(_rule_left_over(survey, bound) for survey in surveys for bound in BOUNDS)


def _rule_left_over(survey: EvaluatedSurvey, bound: Bound) -> bool:
    states = [state_at(survey.kb, survey.boat, judged, bound) for judged in survey.evaluations]
    return any(
        state.levels.get(scale, 0) < level
        and any(conjunct_holds(conjunct, state, states, bound) for conjunct in rule.conjuncts)
        for state in states
        for stratum in program_of(survey.kb).rules_for(state.finding.zone, state.finding.sign)
        for rule in stratum
        for scale, level in rule.rule.raises
    )


Law = tuple[str, str, Callable[[SymbolicSurvey], Question], Callable[[Sequence[EvaluatedSurvey]], bool]]

LAWS: tuple[Law, ...] = (
    ("law/best-above-worst", "The best end is never graver than the worst end.", upside_down, shows_upside_down),
    ("law/answers-settle", "With everything answered and known, nothing is left open.", left_open, shows_left_open),
    (
        "law/worse-never-milder",
        "Worse answers, and more found elsewhere, never give a milder end.",
        milder,
        shows_milder,
    ),
    (
        "law/answers-narrow",
        "Another answer or fact never widens the range, unless it contradicts what was presumed.",
        wider,
        shows_wider,
    ),
    (
        "law/nothing-left-to-raise",
        "After the last layer no rule has anything left to raise.",
        left_to_raise,
        shows_left_to_raise,
    ),
)
