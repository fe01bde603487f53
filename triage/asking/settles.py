"""What could settle an open finding: the questions worth asking, as checks that somebody can make."""

from __future__ import annotations

from triage.asking.suggest import Option, ranked
from triage.asking.told import open_check, outcome_of
from triage.conclusions.checks import OpenCheck
from triage.inference.evaluation import Evaluation
from triage.inference.whatif import WhatIf
from triage.knowledge.model import KnowledgeBase


def suggestions(kb: KnowledgeBase, judged: Evaluation, whatif: WhatIf) -> tuple[OpenCheck, ...]:
    """What could settle an open finding, most useful first; once all was tried, what was tried in vain."""
    found = ranked(kb, judged, whatif) or ranked(kb, judged, whatif, again=True)
    return tuple(_suggestion(kb, whatif, option) for option in found)


def _suggestion(kb: KnowledgeBase, whatif: WhatIf, option: Option) -> OpenCheck:
    mild = option.answers[0]
    grave = whatif.outlook.equivalence_classes(option.ask)[-1][-1] if option.check else option.answers[-1]
    outcomes = tuple(outcome_of(kb, whatif, option.ask, answer) for answer in (mild, grave))
    return open_check(kb, whatif.finding, option.ask, option.check, outcomes)
