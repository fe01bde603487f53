"""What became of the claims, as lines of text for somebody who wrote a rule."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from triage.knowledge.model import KnowledgeBase
from triage.proof.claims import Kind
from triage.proof.run import Answer, Outcome

HEADINGS: tuple[tuple[Kind, str], ...] = (
    ("promise", "Promises, over every survey there can be"),
    ("law", "Laws, over every survey there can be"),
    ("use", "Nothing is idle"),
)
SHOWN = 3
"""Examples for one broken claim."""


def told(kb: KnowledgeBase, outcomes: Sequence[Outcome]) -> Iterator[str]:
    """Every promise and law with what became of it, and the rules for which no use was found."""
    for kind, heading in HEADINGS:
        mine = [outcome for outcome in outcomes if outcome.claim.kind == kind]
        yield heading
        if kind == "use":
            yield f"  shown   {sum(outcome.holds for outcome in mine)} of {len(mine)} rules, levels and promises matter"
        for outcome in mine:
            if not outcome.holds:
                yield from _failing(kb, outcome)
            elif kind != "use":
                yield f"  proved  {outcome.claim.says}"
        yield ""
    asked = sum(outcome.asked for outcome in outcomes)
    remembered = sum(outcome.remembered for outcome in outcomes)
    failing = sum(not outcome.holds for outcome in outcomes)
    counts = Counter(outcome.claim.kind for outcome in outcomes)
    yield (
        f"{counts['promise']} promises and {counts['law']} laws, {asked} questions, {remembered} answered before: "
        f"{f'{failing} not proved' if failing else 'all proved'}."
    )


def _failing(kb: KnowledgeBase, outcome: Outcome) -> Iterator[str]:
    claim = outcome.claim
    places = {rule.id: rule.place for rule in kb.rules} | {promise.id: promise.place for promise in kb.promises}
    at = f"{claim.id} ({places[claim.id]})" if claim.id in places else claim.id
    if claim.somewhere:
        yield f"  IDLE    {at}: there is no survey of which this holds: {claim.says}"
    elif outcome.found:
        yield f"  BROKEN  {claim.says}"
        yield f"          {at}, at {len(outcome.found)} of {outcome.asked} places; for example:"
    for answer in outcome.found[:SHOWN] if not claim.somewhere else ():
        yield from _example(answer)
    if outcome.undecided:
        yield f"  OPEN    {claim.says}"
        yield f"          {at}: the solver gave up {len(outcome.undecided)} times ({outcome.undecided[0].undecided})"


def _example(answer: Answer) -> Iterator[str]:
    for number, example in enumerate(answer.examples):
        yield "          compared with" if number else ""
        yield from (f"          {line}" for line in example.splitlines())
    if not answer.confirmed:
        yield "          The engines do not find this in the survey: it needs company, or the proof itself is at fault."
