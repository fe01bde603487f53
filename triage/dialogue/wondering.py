"""What somebody wants to know beside the marks, answered with what is known so far."""

from __future__ import annotations

from triage.buying.advice import advise_purchase
from triage.concluding.assess import assess_survey
from triage.knowledge.model import AFLOAT, KnowledgeBase
from triage.knowledge.model.purchase import DECISION
from triage.listening.offer_told import offer_told
from triage.phrases import buying, mending, short
from triage.phrases import conversation as phrases
from triage.phrases.answers import outcome_sentence
from triage.phrases.boat import headline
from triage.survey.model import Survey


def answer_to(kb: KnowledgeBase, survey: Survey, mark: str, question: str) -> tuple[str, ...]:
    """The plain answer about the boat as she stands, in a sentence or two for each thing; ``mark`` is talked about."""
    buying_her = question == DECISION and kb.purchase.judging
    if not survey.findings and not buying_her:
        return (phrases.TELL_FIRST,)
    assessment = assess_survey(survey, kb)
    if buying_her:
        return buying.in_brief(advise_purchase(assessment, offer_told(kb, survey.note), kb))
    match question:
        case "cost":
            return tuple(mending.costs(assessment)) or (phrases.verdict_told(headline(assessment)),)
        case "mend":
            return tuple(mending.mends(assessment)) or (phrases.verdict_told(headline(assessment)),)
        case "cause":
            return (short.causes(assessment),)
    finding = next((one for one in assessment.findings if one.id == mark), assessment.findings[0])
    answers = {"afloat": assessment.afloat, "tow": assessment.tow, "hands": finding.hands}
    told = answers.get(question)
    if told is None:
        return (phrases.verdict_told(headline(assessment)),)
    sentence = outcome_sentence(kb, question, told)
    return (sentence, *filter(None, [short.unseen(assessment)])) if question == AFLOAT else (sentence,)
