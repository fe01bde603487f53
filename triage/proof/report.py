"""What became of the claims, as lines of text for somebody who wrote a rule."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.knowledge.model import OUTCOMES, KnowledgeBase
from triage.knowledge.model.purchase import DECISION
from triage.phrases.words import counted
from triage.proof.claims import Claim, Kind
from triage.proof.run import Answer, Outcome
from triage.survey.read import survey_from_text

HEADINGS: tuple[tuple[Kind, str], ...] = (
    ("promise", "Promises, over every survey there can be"),
    ("law", "Laws, over every survey there can be"),
    ("nonvacuity", "Nothing is idle"),
)
SHOWN = 3
"""Examples that are shown of one broken claim."""


def report(kb: KnowledgeBase, outcomes: Sequence[Outcome]) -> Iterator[str]:
    """Every promise and law with what became of it, and the rules for which no use was found."""
    for kind, heading in HEADINGS:
        mine = [outcome for outcome in outcomes if outcome.claim.kind == kind]
        yield heading
        if kind == "nonvacuity":
            yield f"  shown   {sum(outcome.holds for outcome in mine)} of {len(mine)} rules, levels and promises matter"
        for outcome in mine:
            if not outcome.holds:
                yield from _failing(kb, outcome)
            elif kind != "nonvacuity":
                yield f"  proved  {outcome.claim.says}"
        yield ""
    asked = sum(outcome.asked for outcome in outcomes)
    cached = sum(outcome.cached for outcome in outcomes)
    failing = sum(not outcome.holds for outcome in outcomes)
    promises, laws = (sum(outcome.claim.kind == kind for outcome in outcomes) for kind in ("promise", "law"))
    yield (
        f"{counted(promises, 'promise')} and {counted(laws, 'law')}, {counted(asked, 'question')}, {cached} "
        f"answered before: {f'{failing} not proved' if failing else 'all proved'}."
    )


def _failing(kb: KnowledgeBase, outcome: Outcome) -> Iterator[str]:
    claim = outcome.claim
    places = {rule.id: rule.place for rule in kb.rules} | {promise.id: promise.place for promise in kb.promises}
    at = f"{claim.id} ({places[claim.id]})" if claim.id in places else claim.id
    if outcome.undecided:
        yield f"  OPEN    {claim.says}"
        times, why = counted(len(outcome.undecided), "time"), outcome.undecided[0].undecided
        yield f"          {at}: the solver gave up {times} ({why})"
    elif claim.existential:
        yield f"  IDLE    {at}: there is no survey of which this holds: {claim.says}"
    else:
        yield f"  BROKEN  {claim.says}"
        yield f"          {at}, at {len(outcome.found)} of {counted(outcome.asked, 'place')}; for example:"
        for answer in outcome.found[:SHOWN]:
            yield from _example(kb, claim, answer)


def _example(kb: KnowledgeBase, claim: Claim, answer: Answer) -> Iterator[str]:
    for number, example in enumerate(answer.examples):
        yield "          compared with" if number else ""
        yield from (f"          {line}" for line in example.splitlines())
        yield ""
        survey = survey_from_text(example, kb)
        for judged in evaluate(kb, survey.boat, survey.findings):
            yield from (f"          {judged.finding.id}: {line}" for line in _bounds(kb, claim, judged))
    if not answer.confirmed:
        yield "          The engines do not find this in the survey: it needs context, or the proof itself is at fault."


def _bounds(kb: KnowledgeBase, claim: Claim, judged: Evaluation) -> Iterator[str]:
    """What the finding comes out as on the scales that the claim speaks of."""
    for scale in (*OUTCOMES, DECISION):
        if scale in claim.goals and scale in kb.scales:
            best, worst = (kb.level_name(scale, level) for level in judged.interval(scale))
            yield f"{scale}: {f'{best} for certain' if best == worst else f'between {best} and {worst}'}"
