"""That hands and repairs say the same, of every survey there can be: as formulas, and as a check of surveys."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.concluding.mending import hands_for, repair_of
from triage.inference.evaluation import BOUNDS
from triage.knowledge.compiled.conjuncts import conjuncts_of
from triage.knowledge.model import HANDS, KnowledgeBase
from triage.knowledge.model.repair import Repair
from triage.proof.claims import Claim, EvaluatedSurvey, Question
from triage.proof.symbolic import Formula, both, either, no
from triage.proof.symbolic_state import SymbolicState
from triage.proof.symbolic_survey import SymbolicSurvey
from triage.proof.text import conjunct_text

SAYS = "Hands are never below the repair that is told, and where a repairer is asked for, it is a repairer's."


def mending_claims(kb: KnowledgeBase) -> Iterator[Claim]:
    """The law about hands and repairs, where there are repairs."""
    if not kb.mending.repairs:
        return
    yield Claim(
        "law",
        "law/hands-and-repair",
        SAYS,
        kb.derived,
        str([(one.who, sorted(map(conjunct_text, conjuncts_of(kb, one.when)))) for one in kb.mending.repairs]),
        lambda pair: [(pair,)],
        _disagree,
        _shows_disagreement,
    )


def _disagree(survey: SymbolicSurvey) -> Question:
    """At some end a repair is told in hands below its own, or less than a repairer's where one is asked for."""
    formula = either(_disagrees(survey.kb, state) for state in survey.in_context.values())
    return Question(formula, (survey.inputs,), survey.empty_contexts())


def _disagrees(kb: KnowledgeBase, state: SymbolicState) -> Formula:
    skilled = kb.level_of(HANDS, "professional")
    asked = state.level(HANDS, skilled)
    told = _told(kb, state, asked)
    below = (both((told_so, no(_hands(state, told, repair.who)))) for repair, told_so in told)
    return either((*below, both((asked, no(either(told_so for repair, told_so in told if repair.who >= skilled))))))


def _told(kb: KnowledgeBase, state: SymbolicState, asked: Formula) -> list[tuple[Repair, Formula]]:
    """Each repair, and when it is the one told: the first that fits, of a repairer's where one is asked for."""
    skilled = kb.level_of(HANDS, "professional")
    fits = [(repair, state.satisfies(conjuncts_of(kb, repair.when))) for repair in kb.mending.repairs]
    theirs = either(fit for repair, fit in fits if repair.who >= skilled)
    choosing, found = both((asked, theirs)), []
    before: Formula = False
    before_of_theirs: Formula = False
    for repair, fit in fits:
        first_of_theirs = both((choosing, repair.who >= skilled, no(before_of_theirs)))
        found.append((repair, both((fit, either((first_of_theirs, both((no(choosing), no(before)))))))))
        before = either((before, fit))
        before_of_theirs = either((before_of_theirs, both((repair.who >= skilled, fit))))
    return found


def _hands(state: SymbolicState, told: Sequence[tuple[Repair, Formula]], level: int) -> Formula:
    """These hands or more are told: the rules ask for them, or the repair does."""
    return either((state.level(HANDS, level), *(told_so for repair, told_so in told if repair.who >= level)))


def _shows_disagreement(surveys: Sequence[EvaluatedSurvey]) -> bool:
    """The same of what is told of these surveys."""
    for survey in surveys:
        skilled = survey.kb.level_of(HANDS, "professional")
        for judged in survey.evaluations:
            for bound in BOUNDS:
                repair = repair_of(survey.kb, survey.boat, judged, bound)
                who = repair.who if repair else 0
                wanted = skilled if judged.end(bound).level(HANDS) >= skilled else 0
                if not wanted <= who <= hands_for(judged, repair, bound):
                    return True
    return False
