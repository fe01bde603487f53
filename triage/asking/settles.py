"""What could settle an open finding: the questions worth asking, as checks that somebody can make."""

from __future__ import annotations

from collections.abc import Sequence

from triage.asking.suggest import Option, at_best, prospect, ranked
from triage.asking.told import open_check, outcome_of
from triage.conclusions.checks import OpenCheck
from triage.inference.evaluation import Evaluation
from triage.inference.whatif import WhatIf
from triage.knowledge.model import KnowledgeBase


def suggestions(kb: KnowledgeBase, judged: Evaluation, whatif: WhatIf) -> tuple[OpenCheck, ...]:
    """What could settle an open finding, most useful first.

    Where good answers to all that was not tried would leave it open, what was tried in vain is named among it.
    """
    found = ranked(kb, judged, whatif)
    if not _settled_by(kb, whatif, found):
        found = ranked(kb, judged, whatif, again=True)
    return tuple(_suggestion(kb, whatif, option) for option in found)


def _settled_by(kb: KnowledgeBase, whatif: WhatIf, found: Sequence[Option]) -> bool:
    """Whether the best answers to these leave nothing open."""
    return not prospect(whatif.outlook, {option.ask: at_best(kb, option) for option in found}).width


def _suggestion(kb: KnowledgeBase, whatif: WhatIf, option: Option) -> OpenCheck:
    mild = option.answers[0]
    grave = whatif.outlook.equivalence_classes(option.ask)[-1][-1] if option.check else option.answers[-1]
    outcomes = tuple(outcome_of(kb, whatif, option.ask, answer) for answer in (mild, grave))
    return open_check(kb, whatif.finding, option.ask, option.check, outcomes)
