"""How many questions it takes: ``python -m tests.benchmarks.questions`` prints the tables of DEVELOPERS.md.

True boats are drawn from the knowledge's own frequencies, one mark on each: a place and a sign that are met together,
every reading and every fact of the boat. Nothing of it is known to the interview but place and sign. An answer is then
the truth; checks that miss what is there are no part of this.
"""

from __future__ import annotations

import argparse
import gc
import random
import statistics
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from tests.benchmarks.best_order import against_the_best
from triage.asking.probabilities import damaged_chance, shares_of_classes, value_chances
from triage.asking.suggest import options, ranked
from triage.conclusions.ranges import intervals, is_open
from triage.dialogue.interview import next_question
from triage.inference.compiled import Judgement
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import Evaluation
from triage.inference.outlook import Outlook
from triage.inference.whatif import WhatIf
from triage.knowledge.model import BUOYANCY, KnowledgeBase
from triage.knowledge.store.load import load_knowledge
from triage.survey.model import Boat, Finding, Reading, Survey

Answer = int | str
Policy = Callable[["Case", WhatIf, Evaluation], str]
GROWTH_SCALES = frozenset({"growth"})
"""What no first visit can answer; differences that rest on it alone are counted apart."""


@dataclass(frozen=True)
class Case:
    """One true boat: what the mark is, and the true answer to everything that can be asked about it."""

    kb: KnowledgeBase
    finding: Finding
    truth: Mapping[str, Answer]
    number: int

    def asks(self, whatif: WhatIf) -> list[str]:
        """Everything that has not been asked yet, in the order of the scales, then the facts of the boat."""
        return [one.ask for one in options(self.kb, whatif)]


@dataclass
class Run:
    """What a policy asked, what it cost in minutes, and what was concluded."""

    asked: list[str]
    effort: float
    judged: Evaluation


def cases(kb: KnowledgeBase, count: int, seed: int) -> Iterator[Case]:
    """True boats; the same ones for the same seed."""
    chance = random.Random(seed)
    pairs = [(zone, sign) for zone in kb.zones for sign in kb.offers[zone]]
    for number in range(count):
        zone, sign = chance.choice(pairs)
        finding = Finding("mark", zone, sign)
        outlook = Outlook(Judgement.of(kb, Boat("Wagtail"), [finding]), finding)
        truth: dict[str, Answer] = {**sampled_levels(kb, outlook, kb.applicable(zone, sign), chance)}
        for fact in (*kb.facts, BUOYANCY):
            values = tuple(kb.facts[fact].values) if fact in kb.facts else ("yes", "no")
            chances = value_chances(kb, fact, values)
            truth[fact] = chance.choices(list(chances), list(chances.values()))[0]
        yield Case(kb, finding, truth, number)


def sampled_levels(
    kb: KnowledgeBase, outlook: Outlook, unanswered: Sequence[str], chance: random.Random
) -> dict[str, int]:
    """A level for everything unanswered about a finding, drawn as it is usually met; of levels alike, the mildest."""
    damaged = chance.random() < damaged_chance(kb, outlook.finding)
    columns = {scale: shares_of_classes(kb, outlook, scale) for scale in unanswered}
    return {
        scale: chance.choices(list(shares), [share[damaged] for share in shares.values()])[0]
        for scale, shares in columns.items()
    }


def known(case: Case, boat: Boat, finding: Finding, ask: str) -> tuple[Boat, Finding]:
    """Boat and finding with the true answer to one more question."""
    told = case.truth[ask]
    if isinstance(told, int):
        return boat, replace(finding, readings={**finding.readings, ask: Reading.at(told)})
    return boat.knowing(ask, told, finding.zone), finding


def run(case: Case, policy: Policy) -> Run:
    """Ask as the policy says until nothing is open."""
    boat, finding = Boat("Wagtail"), case.finding
    asked: list[str] = []
    effort = 0.0
    while True:
        judged = evaluate(case.kb, boat, [finding])[0]
        whatif = WhatIf(case.kb, boat, finding, [finding])
        if not is_open(judged) or not case.asks(whatif):
            return Run(asked, effort, judged)
        ask = policy(case, whatif, judged)
        effort += effort_of(case.kb, whatif, ask)
        asked.append(ask)
        boat, finding = known(case, boat, finding, ask)


def effort_of(kb: KnowledgeBase, whatif: WhatIf, ask: str) -> float:
    """The weighted minutes of one question."""
    return next(one.effort for one in options(kb, whatif) if one.ask == ask)


def best_first(case: Case, whatif: WhatIf, judged: Evaluation) -> str:
    """The program's own choice."""
    return ranked(case.kb, judged, whatif)[0].ask


def in_order(case: Case, whatif: WhatIf, _: Evaluation) -> str:
    return case.asks(whatif)[0]


def at_random(case: Case, whatif: WhatIf, judged: Evaluation) -> str:
    asks = case.asks(whatif)
    return random.Random(f"{case.number} {len(judged.finding.readings)} {len(whatif.boat.facts)}").choice(asks)


POLICIES: Mapping[str, Policy] = {
    "the interview": best_first,
    "everything in order": in_order,
    "everything at random": at_random,
}


def compare(kb: KnowledgeBase, count: int) -> Iterator[str]:
    """Questions and minutes to settled, by policy; then whether what was settled is the truth."""
    found: dict[str, list[Run]] = {name: [] for name in POLICIES}
    drawn = list(cases(kb, count, seed=1))
    for case in drawn:
        for name, policy in POLICIES.items():
            found[name].append(run(case, policy))
    yield f"{count} true boats, one mark on each, nothing known but place and sign:"
    yield ""
    yield "| order | questions, mean | 95th percentile | most | weighted minutes, mean | 95th percentile |"
    yield "|---|---|---|---|---|---|"
    for name, runs in found.items():
        asked = sorted(len(one.asked) for one in runs)
        effort = sorted(one.effort for one in runs)
        yield (
            f"| {name} | {statistics.mean(asked):.2f} | {at(asked, 0.95)} | {asked[-1]} "
            f"| {statistics.mean(effort):.1f} | {at(effort, 0.95):.0f} |"
        )
    yield ""
    yield from check_truth(drawn, found["the interview"])


def at(values: list[int] | list[float], share: float) -> float:
    return values[min(len(values) - 1, int(share * len(values)))]


def check_truth(drawn: list[Case], runs: list[Run]) -> Iterator[str]:
    """Whether the interview concluded what everything answered would have, and if not, what it had presumed."""
    same, growth, presumed, unexplained, still_open = 0, 0, 0, 0, 0
    for case, one in zip(drawn, runs, strict=True):
        boat, finding = Boat("Wagtail"), case.finding
        for ask in case.truth:
            if ask not in case.kb.scales or ask in case.kb.applicable(finding.zone, finding.sign):
                boat, finding = known(case, boat, finding, ask)
        true = evaluate(case.kb, boat, [finding])[0]
        contradicted = {
            scale
            for used in one.judged.presumed
            for scale, level in used.levels
            if isinstance(told := case.truth[scale], int) and told > level
        }
        if is_open(one.judged):
            still_open += 1
        elif intervals(true) == intervals(one.judged):
            same += 1
        elif contradicted and contradicted <= GROWTH_SCALES:
            growth += 1
        elif contradicted:
            presumed += 1
        else:
            unexplained += 1
    yield f"- the same verdict, afloat and tow as with everything answered: {same} of {len(runs)}"
    yield f"- another one, because growth was presumed still and the truth was that it grows: {growth}"
    yield f"- another one, because another listed presumption did not hold in truth: {presumed}"
    yield f"- another one, and no presumption to explain it: {unexplained}"
    yield f"- not settled although everything was asked: {still_open}"


def how_quick(kb: KnowledgeBase) -> Iterator[str]:
    """The processor time from an answer to the next question, for one mark and for one of eight on a boat."""
    yield "| marks on the boat | median | 95th percentile | worst | one evaluation of the boat | ratio of the medians |"
    yield "|---|---|---|---|---|---|"
    for marks in (1, 8):
        taken, judging = [], []
        for number in range(200 if marks == 1 else 60):
            survey = crowded(kb, marks, number)
            begun = time.process_time()
            evaluate(kb, survey.boat, survey.findings)
            judging.append(time.process_time() - begun)
            for finding in survey.findings[:1]:
                next_question(kb, survey, finding.id)  # the first one of its kind also unfolds the rules
                again = replace(survey)  # of one and the same survey the last few answers are kept
                begun = time.process_time()
                next_question(kb, again, finding.id)
                taken.append(time.process_time() - begun)
        taken.sort()
        middle, judged = statistics.median(taken) * 1e3, statistics.median(judging) * 1e3
        yield (
            f"| {marks} | {middle:.0f} ms | {at(taken, 0.95) * 1e3:.0f} ms | {taken[-1] * 1e3:.0f} ms "
            f"| {judged:.1f} ms | {middle / judged:.1f} |"
        )


def crowded(kb: KnowledgeBase, marks: int, seed: int) -> Survey:
    """A boat with several marks of which nothing is answered."""
    findings = tuple(replace(case.finding, id=f"mark{case.number}") for case in cases(kb, marks, seed))
    return Survey(Boat("Wagtail"), findings)


def main() -> None:
    """Print everything as Markdown."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--boats", type=int, default=3000)
    parser.add_argument("--marks", type=int, default=150, help="marks for the exhaustive search")
    parser.add_argument("--most", type=int, default=6, help="questions that such a mark may have")
    given = parser.parse_args()
    kb = load_knowledge()
    gc.freeze()  # as the conversation does
    for part in (
        compare(kb, given.boats),
        against_the_best(kb, given.marks, given.most),
        how_quick(kb),
    ):
        for line in part:
            sys.stdout.write(f"{line}\n")
        sys.stdout.write("\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
