"""What the program says to a case, in the panel's words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tests.panel.cases import AFLOAT, HANDS, NOT_YET, TOW, VERDICTS, Case
from triage.buying.advice import advise_purchase
from triage.buying.offer import NOTHING_NAMED
from triage.concluding.assess import assess_survey
from triage.conclusions import answers
from triage.conclusions import assessment as told
from triage.conclusions.values import Range
from triage.knowledge.model import KnowledgeBase
from triage.survey.read import survey_from
from triage.views.report import render


@dataclass(frozen=True)
class Said:
    """What is said of one finding or of the whole boat: the range, the headline, and what has to be acted on, which is
    the graver end of each answer. ``now`` is whether she may go afloat as it is told, `NOT_YET` included.
    """

    floor: str
    ceiling: str
    headline: str
    afloat: str
    now: str
    tow: str
    hands: str


@dataclass(frozen=True)
class Asked:
    """A check that is asked for: the scale it reads, and where."""

    scale: str
    zone: str


@dataclass(frozen=True)
class Answer:
    """What is said to a case. ``carrying`` is the gravest of the findings that carry the expected verdict; ``asks`` are
    the checks as a report prints them: those of open findings, the gravest first, then the plan. ``buying`` is the
    level of the decision, to somebody who named no price, and ``text`` the report; both only where the panel asks.
    """

    findings: dict[str, Said]
    carrying: Said
    boat: Said
    asks: tuple[Asked, ...]
    buying: int | None = None
    text: str = ""


def answer(kb: KnowledgeBase, case: Case) -> Answer:
    """Assess the survey of a case, or each of its surveys. Raises BadSurvey where one of them is none."""
    assessed = [assess_survey(survey_from(survey, kb), kb) for survey in case.surveys()]
    findings = {finding.id: _said(finding, finding.hands.range) for one in assessed for finding in one.findings}
    asks = [_asks(one) for one in assessed]
    if len(asks) > 1:
        asks = [one[:1] for one in asks]
    return Answer(
        findings,
        gravest([findings[id_] for id_ in sorted(case.carrying)]),
        gravest([_said(one, None) for one in assessed]),
        tuple(check for one in asks for check in one),
        buying=_buying(kb, assessed) if case.expected.buyer else None,
        text="\n".join(render(one, "full") for one in assessed) if case.expected.mentions else "",
    )


def _buying(kb: KnowledgeBase, assessed: Iterable[told.Assessment]) -> int:
    return max(advise_purchase(one, NOTHING_NAMED, kb).decision.levels[0] for one in assessed)


def gravest(said: Sequence[Said]) -> Said:
    """The gravest of each, over several findings or boats."""
    return Said(
        floor=worst((one.floor for one in said), VERDICTS),
        ceiling=worst((one.ceiling for one in said), VERDICTS),
        headline=worst((one.headline for one in said), VERDICTS),
        afloat=worst((one.afloat for one in said), AFLOAT),
        now=worst((one.now for one in said), (*AFLOAT[:-1], NOT_YET, AFLOAT[-1])),
        tow=worst((one.tow for one in said), TOW),
        hands=worst((one.hands for one in said), HANDS),
    )


def worst(words: Iterable[str], scale: Sequence[str]) -> str:
    """The gravest of these words of a scale."""
    return max(words, key=scale.index)


def _said(one: told.FindingAssessment | told.Assessment, hands: Range | None) -> Said:
    best, worst_ = (VERDICTS[level] for level in one.verdict.levels)
    afloat = AFLOAT[one.afloat.range.levels[1]]
    return Said(
        floor=best,
        ceiling=worst_,
        headline=best if one.verdict.settled else worst([best, "monitor"], VERDICTS),
        afloat=afloat,
        now=NOT_YET if one.afloat.now == answers.NOT_YET else afloat,
        tow=TOW[one.tow.range.levels[1]],
        hands=HANDS[hands.levels[1]] if hands else HANDS[0],
    )


def _asks(one: told.Assessment) -> tuple[Asked, ...]:
    found = [check for finding in one.findings for check in finding.checks]
    planned = sorted((line for stop in one.plan for line in stop.lines), key=lambda line: line.rank)
    return tuple(Asked(check.scale, check.zone) for check in (*found, *planned))
