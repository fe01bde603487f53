"""A trainer thinks otherwise: the case as a proposal for the rules, with the rule that decided and the reason against.

Nothing changes by it. The proposal stands in a file until somebody puts it into the rules, where `triage rules check`
holds the rules against it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import yaml

from triage.errors import BadInput, Place, Problem
from triage.knowledge.model import OTHER_SIDE, VERDICT, KnowledgeBase
from triage.parsing.text import did_you_mean, plain
from triage.survey.model import Finding
from triage.teaching.key import Key

MOST_WORDS = 500
"""Characters of a reason."""


@dataclass(frozen=True)
class Disagreement:
    """What somebody says of a case against its key: another verdict, and why.

    ``read`` are the scales of the mark that they had read; None: all of it lay before them.
    """

    key: Key
    verdict: int
    because: str
    by: str = ""
    read: frozenset[str] | None = None

    @property
    def milder(self) -> bool:
        """Whether the trainer thinks it less grave than the program does."""
        return self.verdict < self.key.finding.verdict.levels[1]


def disagree(
    kb: KnowledgeBase, key: Key, verdict: str, because: str, by: str = "", read: Iterable[str] | None = None
) -> Disagreement:
    """What somebody says who had ``read`` these scales of the mark (None: all).

    Raises BadInput for no verdict, the same verdict, or no reason.
    """
    levels = [level.name for level in kb.scales[VERDICT].levels]
    where = Place("the disagreement")
    if verdict not in levels:
        hint = f"{did_you_mean(verdict, levels)} It can be {', '.join(levels)}.".strip()
        raise BadInput([Problem(where, f'"{verdict}" is no verdict', hint)])
    if verdict == key.finding.verdict.worst:
        raise BadInput([Problem(where, f"the program says {verdict} too", "There is nothing to propose.")])
    said = " ".join(plain(because).split())
    if not said or len(said) > MOST_WORDS:
        hint = f"Say in a sentence of at most {MOST_WORDS} letters what the mark shows or what the part carries."
        raise BadInput([Problem(where, "a reason is needed", hint)])
    sentence = said if said.endswith((".", "!", "?")) else f"{said}."
    return Disagreement(key, levels.index(verdict), sentence, by, None if read is None else frozenset(read))


def proposal(kb: KnowledgeBase, one: Disagreement) -> str:
    """The proposal as text for the rules: a case on which the rule that decided should be silent, where the trainer is
    milder; else a rule that is missing.
    """
    finding, key = one.key.finding, one.key
    says = kb.level_name(VERDICT, one.verdict)
    head = [
        f"Case {key.case.name}, {finding.mark} at {finding.place}: the program says {finding.verdict.worst}",
        f"({key.rule or 'no rule raises it'}), {one.by or 'a trainer'} says {says}.",
        f"Because: {one.because}",
    ]
    if one.read is not None:
        told = ", ".join(kb.scales[scale].name for scale in sorted(one.read)) or "nothing; it was judged at sight"
        head.append(f"Read by them: {told}. All else that is told of it here, only the case says.")
    if one.milder:
        head.append(f"Add this to the cases of {key.rule}; triage rules check then asks for the rule to be mended.")
        body: Any = [{"given": given(one), "expect": "silent"}]
    else:
        head.append("Put this into a file beside the rules, give it a better id, and run triage rules check.")
        head.append("That it is silent a step below each reading is a guess: keep what you mean.")
        body = {"rules": [_missing_rule(kb, one)]}
    comment = "".join(f"# {' '.join(plain(line).split())}\n" for line in head)
    return comment + yaml.safe_dump(body, allow_unicode=True, sort_keys=False, width=110, default_flow_style=None)


def given(one: Disagreement) -> dict[str, Any]:
    """The case as a rule's own cases are written: the mark, the boat, the levels, the other marks."""
    case = one.key.case
    others = [_words(finding) | _levels(finding) for finding in case.truth.marks if finding.id != case.focus]
    told = _words(case.mark) | _facts(one) | _levels(case.mark)
    return told | ({"elsewhere": others} if others else {})


def _words(finding: Finding) -> dict[str, Any]:
    side = {"side": finding.side} if finding.side in OTHER_SIDE else {}
    return {"zone": finding.zone, "sign": finding.sign, **side}


def _facts(one: Disagreement) -> dict[str, Any]:
    boat, zone = one.key.case.truth.boat, one.key.case.mark.zone
    buoyant = boat.encloses_buoyancy.get(zone)
    return {**boat.facts, **({"encloses_buoyancy": buoyant} if buoyant else {})}


def _levels(finding: Finding) -> dict[str, Any]:
    return dict(finding.upper)


def _missing_rule(kb: KnowledgeBase, one: Disagreement) -> dict[str, Any]:
    """A rule for just this mark with what was read of it as bad as this; its silent cases are each a little better."""
    mark = one.key.case.mark
    read = {scale: level for scale, level in mark.upper.items() if one.read is None or scale in one.read}
    bad = {scale: level for scale, level in read.items() if level > kb.best(mark.sign, scale)}
    base: dict[str, Any] = {"zone": mark.zone, "sign": mark.sign}
    others = [sign for sign in kb.offers[mark.zone] if sign != mark.sign]
    zones = [zone for zone, signs in kb.offers.items() if mark.sign in signs and zone != mark.zone]
    silent = [base | bad | {scale: level - 1} for scale, level in bad.items()]
    silent += [base | bad | {"sign": others[0]}] if others else []
    silent += [base | bad | {"zone": zones[0]}] if zones else []
    return {
        "id": f"proposed/{mark.zone.replace('_', '-')}-{mark.sign.replace('_', '-')}",
        "when": base | {scale: {"at_least": level} for scale, level in bad.items()},
        "raises": {VERDICT: one.verdict},
        "because": one.because,
        "basis": "estimate",
        "cases": [
            {"given": base | bad, "expect": "fires"},
            *({"given": case, "expect": "silent"} for case in silent),
        ],
    }
