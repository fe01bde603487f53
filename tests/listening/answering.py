"""What becomes of an answer in a sentence at a question, against the answer that it is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from triage.dialogue.answering import Answering
from triage.dialogue.moves import Move
from triage.dialogue.state import Asking, State
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.per_knowledge import per_knowledge
from triage.listening.naming import places_named
from triage.listening.tokens import tokens_of
from triage.survey.model import Boat, Finding, Reading, Survey


def count_observations(kb: KnowledgeBase, keys: Sequence[Mapping[str, Any]]) -> Counter[str]:
    """How many answers were taken as the level they are, how many as another one, and what was asked again."""
    count: Counter[str] = Counter()
    for number, key in enumerate(keys):
        scale, right = kb.scales[key["scale"]], level_of(kb, key["scale"], key["answer"])
        mark = mark_for(kb, key, number)
        taken = answered(kb, mark, scale.id, key["say"])
        low, high = (None, None) if taken is None else (taken.low, taken.high)
        count.update({"answers": 1, "right level taken": low == high == right, "asked again": low is None})
        offered = [] if taken else offered_levels(kb, mark, scale.id, key["say"])
        count.update(
            {"right level offered first": offered[:1] == [right], "right level among the offered": right in offered}
        )
        count["graver level taken"] += low is not None and low > right
        count["milder level taken"] += high is not None and high < right
        count["between, with the right one"] += low is not None and high is not None and low <= right <= high != low
        ends = {right, low, high}
        count["wrong end taken"] += right in (0, scale.top) and scale.top - right in ends
        count["taken as could not tell"] += taken is not None and taken.low is None
    return count


def level_of(kb: KnowledgeBase, scale: str, answer: str) -> int:
    """The level of an answer as it is chosen."""
    levels = range(len(kb.scales[scale].levels))
    return next(one for one in levels if answer in dict(kb.scales[scale].choices(one)))


def answered(kb: KnowledgeBase, finding: Finding, scale: str, text: str) -> Reading | None:
    """What is noted at the question; None where it is asked again."""
    survey = Survey(boat=Boat("any"), findings=(finding,))
    outcome = Answering(kb, State(survey, Asking("answer", finding.id, scale))).answer_said(text)
    if not isinstance(outcome, Move) or outcome.survey is None:
        return None
    return next((one.readings.get(scale) for one in outcome.survey.findings if one.id == finding.id), None)


def offered_levels(kb: KnowledgeBase, finding: Finding, scale: str, text: str) -> list[int]:
    """The levels of the answers that are offered where nothing is taken, nearest first."""
    survey = Survey(boat=Boat("any"), findings=(finding,))
    near = Answering(kb, State(survey, Asking("answer", finding.id, scale))).likest(text)
    words = {
        words: level for level in range(len(kb.scales[scale].levels)) for _, words in kb.scales[scale].choices(level)
    }
    return [words[one] for one in near]


def mark_for(kb: KnowledgeBase, key: Mapping[str, Any], number: int) -> Finding:
    """A mark that is judged by the scale: at a place that the words name if there is one, else at each in turn.

    Where no mark can be so (a cleat that slips and holds), it can only be asked again.
    """
    scale = key["scale"]
    marks = marks_of(kb, scale, level_of(kb, scale, key["answer"])) or marks_of(kb, scale, kb.scales[scale].top)
    named = places_named(kb).named(token.stem for token in tokens_of(key["say"], kb))
    marks = [one for one in marks if one[0] in named] or marks
    zone, sign = marks[number % len(marks)]
    return Finding("mark", zone, sign, "port" if kb.zones[zone].sided else None)


@per_knowledge
def marks_of(kb: KnowledgeBase, scale: str, level: int) -> list[tuple[str, str]]:
    return list(_judged(kb, scale, level))


def _judged(kb: KnowledgeBase, scale: str, level: int) -> Iterator[tuple[str, str]]:
    for zone, signs in kb.offers.items():
        for sign in signs:
            judged = scale in kb.applicable(zone, sign)
            if judged and kb.best(sign, scale) <= level <= kb.worst(sign, scale):
                yield zone, sign
