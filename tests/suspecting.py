"""Random boats built round a suspicion: a mark that makes some rule suspect another place, and what was seen there."""

from __future__ import annotations

from hypothesis import strategies as st

from tests.strategies import boats
from triage.knowledge.compiled.reads import marks_of
from triage.knowledge.model import KnowledgeBase
from triage.survey.model import Boat, Finding, Reading, Survey


@st.composite
def boats_round_a_suspicion(draw: st.DrawFn, kb: KnowledgeBase) -> Survey:
    """A survey with a mark at its worst that rules suspect something from, and up to three findings where they do."""
    rule = draw(st.sampled_from([rule for rule in kb.rules if rule.suspects]))
    zone, sign = draw(st.sampled_from(marks_of(kb, rule)))
    worst = {scale: Reading.at(kb.worst(sign, scale)) for scale in kb.applicable(zone, sign)}
    found = [Finding("cause", zone, sign, draw(_side(kb, zone)), worst)]
    for number in range(draw(st.integers(0, 3))):
        suspect = draw(st.sampled_from(rule.suspects))
        found.append(draw(_look(kb, suspect.zone, f"look{number}")))
    boat = draw(boats(kb))
    needed = {fact: value for one in found for fact, value in kb.zones[one.zone].only_if.items()}
    facts = {fact: value for fact, value in boat.facts.items() if needed.get(fact, value) == value}
    return Survey(Boat(boat.name, facts, None, boat.encloses_buoyancy), tuple(found))


def _side(kb: KnowledgeBase, zone: str) -> st.SearchStrategy[str | None]:
    return st.sampled_from([None, "port", "starboard"]) if kb.zones[zone].sided else st.none()


@st.composite
def _look(draw: st.DrawFn, kb: KnowledgeBase, zone: str, id: str) -> Finding:  # noqa: A002
    """Something seen, or not, at the suspected place, with some of it tried."""
    sign = draw(st.sampled_from(kb.offers[zone]))
    readings = {}
    for scale in kb.applicable(zone, sign):
        best, worst = kb.best(sign, scale), kb.worst(sign, scale)
        answers = [None, Reading.attempted(), Reading.at(best), Reading.at(best), Reading.at(worst)]
        answer = draw(st.sampled_from(answers))
        if answer is not None:
            readings[scale] = answer
    return Finding(id, zone, sign, draw(_side(kb, zone)), readings)
