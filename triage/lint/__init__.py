"""What a knowledge base must pass beyond holding together, and what authors are shown of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from triage.errors import Problem
from triage.knowledge.model import KnowledgeBase
from triage.lint.buying import buying_problems
from triage.lint.cases import wrong_cases
from triage.lint.causes import cause_problems
from triage.lint.events import event_problems
from triage.lint.everyday import surprising_marks
from triage.lint.frequencies import idle_nevers, missing_frequencies
from triage.lint.ground_rules import ground_rule_breaches
from triage.lint.hands import hands_problems
from triage.lint.lexicon import answered_twice, claimed_twice, missing_words
from triage.lint.limits import misworded_limits
from triage.lint.mutants import surviving_mutants
from triage.lint.nonvacuity import vacuous_rules
from triage.lint.redundancy import redundant_rules
from triage.lint.repairs import repair_problems
from triage.lint.sayings import contradicted_repairs
from triage.lint.settling import unsettled_marks
from triage.lint.structure import structure_problems
from triage.lint.sums import sum_problems
from triage.lint.teaching import teaching_problems
from triage.lint.unread import unread_levels

PASSES: tuple[tuple[str, Callable[[KnowledgeBase], Iterator[Problem]]], ...] = (
    ("the rules' own cases", wrong_cases),
    ("spoilt rules that no case notices", surviving_mutants),
    ("words that nothing uses", structure_problems),
    ("levels that nothing tells apart", unread_levels),
    ("limits that say otherwise than the words of their levels", misworded_limits),
    ("readings, marks and facts of which nobody says how often they are met", missing_frequencies),
    ("what is said never to be met together, and never could be", idle_nevers),
    ("places and marks of which nothing says what people call them", missing_words),
    ("complaints in the very same words of different marks", claimed_twice),
    ("answers in the very same words of different levels", answered_twice),
    ("rules that can never hold", vacuous_rules),
    ("the ground rules of presuming", ground_rule_breaches),
    ("rules that never matter", redundant_rules),
    ("marks that never settle", unsettled_marks),
    ("everyday marks that come out otherwise than a practised eye expects", surprising_marks),
    ("repairs that do not meet their findings", repair_problems),
    ("repairs that say otherwise than the rules", contradicted_repairs),
    ("owners' repairs where rules ask for a repairer", hands_problems),
    ("causes that cannot be told apart or followed up", cause_problems),
    ("events of which nothing comes, and rules about them whose cases come out otherwise", event_problems),
    ("rules of buying that do not hold together", buying_problems),
    ("sums that cannot be done", sum_problems),
    ("lessons and confusions that teach nothing, or cannot be drawn", teaching_problems),
)
"""Each pass with what it looks for, in the order they run."""

__all__ = ["PASSES"]
