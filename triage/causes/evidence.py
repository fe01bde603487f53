"""From a survey to evidence on causes: marks that they leave, found or looked for in vain, and what somebody said."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from triage.causes.noisy_or import Effect, Network, Posterior
from triage.causes.referrals import Referral
from triage.coverage import Coverage
from triage.errors import BadRules, Place, Problem
from triage.knowledge.compiled import orders
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.model.cause import ANYWHERE, Cause, Leaves, Mark, Weights
from triage.knowledge.per_knowledge import per_knowledge
from triage.survey.model import Boat, Finding, Happened, Survey

RECENT = ("today", "this season")
"""Since when nothing can have happened that left a mark which was there before this season."""

WIDEST = 16
"""Causes in one table, of 2¹⁶ numbers: beyond it an exact answer takes seconds for each question."""


@per_knowledge
def network_of(kb: KnowledgeBase, weights: Weights) -> Network[Mark]:
    """The causes of ``kb`` as a noisy-OR network over marks. Raises BadRules where it cannot be worked out exactly."""
    causes = kb.causation.causes.values()
    strengths: dict[Mark, dict[str, float]] = {}
    for cause in causes:
        for left in cause.leaves:
            strengths.setdefault(left.mark, {})[cause.id] = weights.strengths[left.strength].chance
    effects = {mark: Effect(of, weights.leak) for mark, of in strengths.items()}
    network = Network({cause.id: weights.priors[cause.prior] for cause in causes}, effects, orders.elimination(kb))
    if network.width > WIDEST:
        what = f"the causes share so many marks that {network.width} of them must be weighed at once (at most {WIDEST})"
        raise BadRules([Problem(Place("the causes"), what, "Let fewer causes leave the same mark.")])
    return network


@dataclass(frozen=True)
class Evidence:
    """What a survey says about causes.

    ``found`` holds the findings behind each mark that some cause leaves; ``follows`` those marks among them that
    another finding already explains; ``missing`` the marks that were looked for in vain; ``stated`` the answers about
    causes; ``told`` the likelihood ratio of the events that speak for each, and ``by_events`` which these are;
    ``ruled_out`` the causes that the boat is not made for; ``older`` the marks that were there before all that was told
    of a cause; ``sound`` those that were read too well for it to have left them.
    """

    found: Mapping[Mark, tuple[Finding, ...]]
    follows: frozenset[Mark]
    missing: frozenset[Mark]
    stated: Mapping[str, str]
    ruled_out: frozenset[str]
    told: Mapping[str, float]
    by_events: Mapping[str, tuple[str, ...]]
    older: Mapping[str, frozenset[Mark]]
    sound: Mapping[str, frozenset[Mark]]

    def left(self, cause: Cause) -> tuple[Leaves, ...]:
        """What the cause may have left of what was found."""
        cleared = self.cleared().get(cause.id, frozenset())
        return tuple(one for one in cause.leaves if one.mark in self.found and one.mark not in cleared)

    def cleared(self) -> Mapping[str, frozenset[Mark]]:
        """The marks found that a cause cannot have left, by cause."""
        nothing: frozenset[Mark] = frozenset()
        return {
            cause: self.older.get(cause, nothing) | self.sound.get(cause, nothing)
            for cause in (*self.older, *self.sound)
        }


def evidence(coverage: Coverage, referrals: Sequence[Referral]) -> Evidence:
    """Sort the findings of a survey by the marks that causes leave.

    A mark is missing only where somebody looked there for it.
    """
    kb, survey = coverage.kb, coverage.survey
    found: dict[Mark, list[Finding]] = {}
    missing = set()
    hidden = {sign for told in survey.events for sign in kb.happenings.events[told.event].hides}
    for mark in dict.fromkeys(left.mark for cause in kb.causation.causes.values() for left in cause.leaves):
        zone, sign = mark
        there = [finding for finding in survey.findings if finding.sign == sign and zone in (finding.zone, ANYWHERE)]
        if there:
            found[mark] = there
        elif zone != ANYWHERE and sign not in hidden and coverage.absent(zone, sign):
            missing.add(mark)
    told, by_events = _of_events(kb, survey)
    return Evidence(
        found={mark: tuple(there) for mark, there in found.items()},
        follows=frozenset((one.suspect.zone, one.suspect.sign) for one in referrals if one.there) & found.keys(),
        missing=frozenset(missing),
        stated=survey.history,
        told=told,
        by_events=by_events,
        older={cause: older for cause in told if (older := _older(kb, survey, cause, found))},
        sound={cause.id: sound for cause in kb.causation.causes.values() if (sound := _sound(cause, found))},
        ruled_out=frozenset(cause.id for cause in kb.causation.causes.values() if not _can_be(cause, survey.boat)),
    )


def _of_events(kb: KnowledgeBase, survey: Survey) -> tuple[dict[str, float], dict[str, tuple[str, ...]]]:
    """What the events are worth for each cause that they speak for (the best of them), and their ids."""
    weights = kb.causation.weights
    worth: dict[str, float] = {}
    by: dict[str, tuple[str, ...]] = {}
    for event in (kb.happenings.events[told.event] for told in survey.events):
        for cause, strength in event.speaks_for.items() if weights else ():
            worth[cause] = max(worth.get(cause, 1.0), weights.told[strength] if weights else 1.0)
            by[cause] = (*by.get(cause, ()), event.id)
    return worth, by


def _older(
    kb: KnowledgeBase,
    survey: Survey,
    cause: str,
    found: Mapping[Mark, tuple[Finding, ...]] | Mapping[Mark, list[Finding]],
) -> frozenset[Mark]:
    """The marks that were there before every event that speaks for the cause, unless its owner says that it was so."""
    events = [told for told in survey.events if cause in kb.happenings.events[told.event].speaks_for]
    if survey.history.get(cause) == "yes":
        return frozenset()
    return frozenset(
        mark for mark, there in found.items() if all(_before(kb, survey, one, told) for one in there for told in events)
    )


def _before(kb: KnowledgeBase, survey: Survey, finding: Finding, told: Happened) -> bool:
    """Whether the finding is known to have been there before it happened."""
    ago = told.ago(survey.seen_on)
    day = told.on or (survey.seen_on if ago == "today" else None)
    if day is not None and finding.seen_on is not None and finding.seen_on < day:
        return True
    stood = kb.happenings.stood_before
    return ago in RECENT and any(finding.upper.get(scale, level + 1) <= level for scale, level in stood.items())


def _sound(cause: Cause, found: Mapping[Mark, Sequence[Finding]]) -> frozenset[Mark]:
    """The marks found that were read too well, each time, to have come of the cause."""
    return frozenset(
        left.mark
        for left in cause.leaves
        if left.unless and left.mark in found and all(_no_worse(one, left.unless) for one in found[left.mark])
    )


def _no_worse(finding: Finding, limits: Sequence[tuple[str, int]]) -> bool:
    """Whether the first of these scales was answered, and none of them worse than its level."""
    first, _ = limits[0]
    return first in finding.upper and all(finding.upper.get(scale, 0) <= level for scale, level in limits)


def _can_be(cause: Cause, boat: Boat) -> bool:
    return all(boat.facts.get(fact, value) == value for fact, value in cause.only_if.items())


def weighed(kb: KnowledgeBase, weights: Weights, known: Evidence) -> Posterior[Mark]:
    """The network in the light of the evidence. What was told unasked stands against a no: both are about one thing.

    An answer about a cause is not taken for the truth: people forget, and sellers may not know.
    """
    so, not_so = weights.yes_if_so, weights.yes_if_not
    ratios = {"yes": so / not_so, "no": (1 - so) / (1 - not_so), "unknown": 1.0}
    told = {cause: ratios[answer] for cause, answer in known.stated.items()}
    network, cleared = network_of(kb, weights), known.cleared()
    told |= {cause: max(ratio, told.get(cause, 1.0)) for cause, ratio in known.told.items()}
    return Posterior(
        network=_without(network, cleared) if cleared else network,
        found=tuple(known.found),
        missing=tuple(known.missing),
        ratios={**told, **dict.fromkeys(known.ruled_out, 0.0)},
        otherwise=dict.fromkeys(known.follows, weights.suspected),
    )


def _without(network: Network[Mark], cleared: Mapping[str, frozenset[Mark]]) -> Network[Mark]:
    """The network in which no cause has left what it cannot have left."""

    def effect(mark: Mark, known: Effect) -> Effect:
        left = {cause: chance for cause, chance in known.strengths.items() if mark not in cleared.get(cause, ())}
        return Effect(left, known.leak)

    return Network(
        network.priors, {mark: effect(mark, known) for mark, known in network.effects.items()}, network.known
    )
