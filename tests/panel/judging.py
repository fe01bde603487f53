"""What the program says to a case held against what the panel says."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tests.panel.answers import Answer, Said, gravest
from tests.panel.cases import AFLOAT, BUYER, HANDS, NOT_YET, VERDICTS, Case, Expected, Line

FIRST = 3
"""Of the checks asked for, those among which a decisive one should be."""


@dataclass(frozen=True)
class Judged:
    """A case with what was said to it: for each measure that applies whether it is right, and what is gravely wrong.

    ``lines``: of the marks that the panel judges one by one, each with what was said of it (None: not in the survey).
    """

    case: Case
    answer: Answer
    right: dict[str, bool]
    flags: tuple[str, ...]
    lines: tuple[tuple[str, str, str | None], ...]
    lines_afloat: tuple[tuple[str, str, str], ...]

    @property
    def mentioned(self) -> int:
        """How many of the ideas that an answer has to hold have half of their words in the report: a rough count."""
        have = _stems(self.answer.text)
        return sum(2 * len(idea & have) >= len(idea) for idea in map(_stems, self.case.expected.mentions))


SHORT = 3
"""Words no longer than this say little by themselves."""

SAYS_LITTLE = frozenset(
    re.findall(
        r"\w+",
        "with that this from they them then than have before after other look into there what which where would could "
        "should also only just your about every their some when like same still over under more most much very been "
        "were does",
    )
)


def _stems(text: str) -> frozenset[str]:
    words = re.findall(r"[a-z]+", text.lower())
    return frozenset(word[:5] for word in words if len(word) > SHORT and word not in SAYS_LITTLE)


def judge(case: Case, answer: Answer) -> Judged:
    """Hold an answer against the panel's."""
    expected = case.expected
    lines = _lines(case, answer)
    verdicts = tuple((line.name, line.verdict, said.headline if said else None) for line, said in lines)
    afloat = tuple((line.name, line.afloat, said.afloat) for line, said in lines if said and line.afloat)
    right = {
        **_verdict_right(expected, answer.carrying),
        **_answers_right(expected, answer),
        **_asks_right(expected, answer),
    }
    flags = (*_flags(expected, answer), *_wrong_mark(expected, right, verdicts))
    return Judged(case, answer, right, flags, verdicts, afloat)


def _verdict_right(expected: Expected, said: Said) -> dict[str, bool]:
    floor, ceiling = said.floor == expected.floor, said.ceiling == expected.ceiling
    return {
        "verdict": said.headline in (expected.verdict, *expected.accept),
        "strict": said.headline == expected.verdict,
        "range": floor and ceiling,
        "floor": floor,
        "ceiling": ceiling,
        "settled": (said.floor == said.ceiling) == expected.settled,
    }


def _answers_right(expected: Expected, answer: Answer) -> dict[str, bool]:
    """Afloat and tow are the whole boat's, hands those of the findings that carry the verdict.

    ``afloat`` takes "not yet" and "ashore" for one, as both keep her there today; ``now`` tells them apart.
    """
    boat = answer.boat
    wanted = (expected.afloat, *expected.afloat_accept)
    barred = tuple(AFLOAT[-1] if one == NOT_YET else one for one in wanted)
    right = {
        "afloat": boat.afloat in barred,
        "afloat_near": min(_steps(AFLOAT, boat.afloat, one) for one in barred) <= 1,
        "now": boat.now in wanted,
    }
    if expected.tow or boat.tow == "do_not_tow":
        right["tow"] = boat.tow == (expected.tow or "tow")
    if expected.hands:
        hands = (expected.hands, *expected.hands_accept)
        right["hands"] = answer.carrying.hands in hands
        right["hands_near"] = min(_steps(HANDS, answer.carrying.hands, one) for one in hands) <= 1
    if answer.buying is not None:
        right["buyer"] = expected.buyer in BUYER[answer.buying]
    return right


def _asks_right(expected: Expected, answer: Answer) -> dict[str, bool]:
    if expected.settled:
        return {}
    here = [
        one.scale in expected.decisive and (not expected.decisive_at or one.zone in expected.decisive_at)
        for one in answer.asks[:FIRST]
    ]
    anywhere = [one.scale in expected.decisive for one in answer.asks[:FIRST]]
    return {"decisive": any(here), "decisive_first": any(here[:1]), "decisive_anywhere": any(anywhere)}


def _steps(scale: tuple[str, ...], one: str, other: str) -> int:
    return abs(scale.index(one) - scale.index(other))


def _flags(expected: Expected, answer: Answer) -> tuple[str, ...]:
    """What is gravely wrong, gravest first."""
    said, boat = answer.carrying, answer.boat
    grave = expected.verdict == "structural"
    takes = (expected.afloat, *expected.afloat_accept)
    kept = expected.afloat == "ashore"
    found = {
        "DANGEROUS: called cosmetic": (grave or kept) and said.headline == "cosmetic",
        "DANGEROUS: sent sailing": (grave or expected.afloat in ("ashore", "without_part"))
        and boat.afloat == "sail"
        and "sail" not in takes,
        "DANGEROUS: sent down the road": expected.tow == "do_not_tow" and boat.tow == "tow",
        "SERIOUS: structural called monitor": grave and said.headline == "monitor" and "monitor" not in expected.accept,
        f"SERIOUS: ashore expected, {boat.afloat}": kept
        and boat.afloat in ("with_limits", "without_part")
        and boat.afloat not in takes,
        f"SERIOUS: not yet expected, {boat.afloat}": expected.afloat == NOT_YET
        and boat.afloat != "ashore"
        and boat.afloat not in takes,
        "FALSE ALARM: structural": _harmless(expected) and said.headline == "structural",
        "FALSE ALARM: ashore": _harmless(expected) and boat.afloat == "ashore" and not {"ashore", NOT_YET} & {*takes},
        f"INVENTED: nothing wrong, yet {said.headline}": expected.no_defect and said.headline != "cosmetic",
        "BUYER: a plain buy of what is or may be structural": answer.buying == 0
        and (grave or expected.ceiling == "structural"),
        "BOAT: milder than her gravest finding": VERDICTS.index(boat.headline) < VERDICTS.index(said.headline),
        "RANGE: the mildest end above the gravest": VERDICTS.index(said.floor) > VERDICTS.index(said.ceiling),
    }
    return tuple(flag for flag, raised in found.items() if raised)


def _harmless(expected: Expected) -> bool:
    return expected.verdict == "cosmetic" and expected.settled


def _wrong_mark(
    expected: Expected, right: dict[str, bool], lines: tuple[tuple[str, str, str | None], ...]
) -> tuple[str, ...]:
    """Right for the whole boat, but on a mark that the panel did not call structural."""
    gravest_lines = [said for _, verdict, said in lines if verdict == expected.verdict]
    wrong = right["verdict"] and expected.verdict == "structural" and gravest_lines
    return (
        ("WRONG MARK: structural, but not where the panel says",) if wrong and "structural" not in gravest_lines else ()
    )


def _lines(case: Case, answer: Answer) -> list[tuple[Line, Said | None]]:
    found = []
    for line in case.expected.lines:
        said = [answer.findings[one["id"]] for one in case.findings if one.get("line") == line.name]
        found.append((line, gravest(said) if said else None))
    return found
