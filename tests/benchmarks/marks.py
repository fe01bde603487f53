"""How an assessment grows with the marks on the boat: ``python -m tests.benchmarks.marks`` prints the table.

Marks are drawn from all places and signs, with nothing answered: the dearest boat there is. A survey holds 300 at most;
here it may hold as many as the table has.
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Callable
from functools import partial

from tests.conftest import ROOT
from triage.concluding.assess import assess_survey
from triage.dialogue.interview import next_question
from triage.inference.compiled import compiled
from triage.inference.forward import forward
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.survey import validity
from triage.survey.model import Boat, Finding, Survey

MARKS = (10, 30, 100, 300, 1000)
SEED = 1


def marked(kb: KnowledgeBase, count: int) -> Survey:
    """A boat with so many marks of which nothing is answered; the same one every time."""
    chance = random.Random(SEED)
    pairs = [(zone, sign) for zone, signs in kb.offers.items() for sign in signs]
    findings = []
    for number in range(count):
        zone, sign = chance.choice(pairs)
        side = chance.choice(("port", "starboard")) if kb.zones[zone].sided else None
        findings.append(Finding(f"f{number}", zone, sign, side))
    return Survey(Boat("Wagtail"), tuple(findings))


def seconds(work: Callable[[], object]) -> float:
    """Processor time."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def main() -> None:
    """Print the table as Markdown."""
    validity.MAX_FINDINGS = max(MARKS)
    kb = load_knowledge(ROOT / "rules")
    assess_survey(marked(kb, max(MARKS)), kb)  # what is worked out once for each sign in each place
    say("| marks | assessment, s | for each mark, ms | next question, s | forward alone, s | compiled alone, s |")
    say("|--:|--:|--:|--:|--:|--:|")
    for count in MARKS:
        survey = marked(kb, count)
        whole = seconds(partial(assess_survey, survey, kb))
        asking = seconds(partial(next_question, kb, survey, survey.findings[0].id))
        alone = [seconds(partial(engine, kb, survey.boat, survey.findings)) for engine in (forward, compiled)]
        say(f"| {count} | {whole:.2f} | {whole / count * 1e3:.1f} | {asking:.2f} | {alone[0]:.2f} | {alone[1]:.3f} |")


def say(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
