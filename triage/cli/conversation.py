"""The conversation itself: describe, answer one question at a time, see at once what it does, report."""

from __future__ import annotations

import click

from triage.asking.suggest import Resources
from triage.cli.describing import Describing
from triage.cli.kept import Kept
from triage.cli.showing import show_end, show_how, show_question
from triage.cli.terminal import listen, number_of, say, show_choices
from triage.concluding.assess import assess_survey
from triage.conclusions.ranges import place_of
from triage.dialogue.interview import (
    answer,
    change_in_verdict,
    next_question,
    question_about,
    typical_outcome,
)
from triage.dialogue.phrases import outcome_sentence
from triage.dialogue.question import Done, Question
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.listening.understand import asked_for, could_not_tell
from triage.survey.model import Survey
from triage.survey.readings import COULD_NOT_TELL
from triage.views.report import render

HELP = (
    ("a number", "the answer with that number"),
    ("3 cm, 1/2 inch …", "a measurement, where one is asked for"),
    ("skip", "I could not tell; it is not asked again"),
    ("why", "why this is asked and what hangs on it"),
    ("how", "how to find out"),
    ("back", "take the last answer back"),
    ("other", "answer something else about this mark, or change an answer"),
    ("new", "describe another mark"),
    ("finish", "the report of everything so far"),
    ("quit", "leave; everything is kept"),
)
_SHORT = {
    "s": "skip",
    "w": "why",
    "h": "how",
    "b": "back",
    "o": "other",
    "n": "new",
    "f": "finish",
    "q": "quit",
    "?": "help",
}

LOOK_NEXT = 3
"""How many further places are named at the end of a mark; the report has all."""


class Left(Exception):
    """The person wants to leave."""


class Turn(Exception):
    """The person wants something else than to answer: back, other, new or finish."""

    def __init__(self, to: str) -> None:
        self.to = to


class Conversation:
    """One conversation about one boat."""

    def __init__(self, kb: KnowledgeBase, kept: Kept, means: Resources, *, brief: bool) -> None:
        self.kb, self.kept, self.means, self.brief = kb, kept, means, brief
        self.mark: str | None = None
        self.before: list[tuple[Survey, str | None]] = []
        self.explained: set[str] = set()
        self.usual = ""

    @property
    def survey(self) -> Survey:
        return self.kept.survey

    def run(self, text: str) -> None:
        """Talk until the person finishes. Raises Left or click.Abort when they leave earlier."""
        say("Numbers answer; “why”, “how”, “back”, “skip” and “quit” work anywhere, “help” shows all.")
        if self.survey.findings:
            self.recall()
        waiting, wish = text, ""
        while wish != "finish":
            try:
                if wish:
                    to, wish = wish, ""
                    self.turn(to)
                elif waiting:
                    said, waiting = waiting, ""
                    self.take(said)
                elif self.mark is None:
                    say()
                    say("What do you see, and where? Your own words will do.")
                    waiting = self.hear()
                else:
                    self.ask_on(self.mark)
            except Turn as turn:
                wish = turn.to
        self.finish()

    def part(self) -> None:
        """The last words when somebody leaves."""
        say()
        if self.kept.file.exists():
            say(f"Everything is kept in {self.kept.file}. Carry on with: triage ask --file {self.kept.file}")
        else:
            say("Nothing was answered yet, so nothing is kept.")

    def recall(self) -> None:
        say(f"{self.survey.boat.name}, so far:")
        opened = None
        for finding in self.survey.findings:
            step = next_question(self.kb, self.survey, finding.id, self.means)
            say(f"{place_of(self.kb, finding)}: {self.kb.signs[finding.sign].name}. {step.standing.says}", 4, "  -")
            if opened is None and isinstance(step, Question):
                opened = finding.id
        self.mark = opened

    def hear(self) -> str:
        """The next line that is no command. Raises Left or Turn for those that are."""
        while True:
            said = listen()
            word = _SHORT.get(said.casefold(), said.casefold())
            if word == "quit":
                raise Left
            if word in ("back", "other", "new", "finish"):
                raise Turn(word)
            if word == "help":
                for name, meaning in HELP:
                    say(meaning, 20, f"  {name}")
            elif (outcome := asked_for(self.kb, said)) is not None:
                say(self.may_she(outcome))
            elif said:
                return said

    def may_she(self, outcome: str) -> str:
        """The plain answer to a question about the boat as she stands."""
        assessment = assess_survey(self.survey, self.kb)
        answers = {"afloat": assessment.afloat, "tow": assessment.tow}
        finding = next((one for one in assessment.findings if one.id == self.mark), None)
        if outcome not in answers and finding is not None:
            answers[outcome] = finding.hands
        if not self.survey.findings or outcome not in answers:
            return "Tell me first what you see, and where."
        said = answers[outcome]
        return outcome_sentence(self.kb, outcome, said.range.best, said.range.worst, said.because)

    def turn(self, to: str) -> None:
        if to == "back":
            self.back()
        elif to == "new":
            self.mark = None
        elif self.mark is not None:
            self.something_else(self.mark)

    def back(self) -> None:
        if not self.before:
            say("There is nothing to take back.")
            return
        survey, self.mark = self.before.pop()
        self.kept.keep(survey)
        say("The last answer is taken back.")

    def keep(self, survey: Survey, mark: str) -> None:
        self.before.append((self.survey, self.mark))
        self.kept.keep(survey)
        self.mark = mark

    def take(self, text: str) -> None:
        """A sentence that describes a mark."""
        survey, mark = Describing(self.kb, self.hear).mark(self.survey, text)
        self.keep(survey, mark)
        step = next_question(self.kb, survey, mark, self.means)
        if isinstance(step, Question):
            say(step.standing.says)

    def ask_on(self, mark: str) -> None:
        """The next question about a mark, or what came of it."""
        step = next_question(self.kb, self.survey, mark, self.means)
        if isinstance(step, Question):
            self.put(step)
        else:
            self.conclude(step)

    def put(self, question: Question) -> None:
        """Put one question until it is answered."""
        name = question.how.name
        show_question(self.kb, self.survey, question, explain=not self.brief and name not in self.explained)
        self.explained.add(name)
        while True:
            said = self.hear()
            word = _SHORT.get(said.casefold(), said.casefold())
            number = number_of(said, question.choices)
            if word == "why":
                for line in question.why:
                    say(line, 4, "  -")
                continue
            if word == "how":
                show_how(question.how)
                continue
            if word == "skip" or could_not_tell(self.kb, said):
                said = COULD_NOT_TELL
            elif number is not None:
                said = question.choices[number].answer
            try:
                survey = answer(self.kb, self.survey, question.finding, question.ask, said)
            except BadSurvey as error:
                for problem in error.problems:
                    say(f"{problem.what[:1].upper()}{problem.what[1:]}. {problem.hint}".strip())
                continue
            self.tell(question, survey)
            self.keep(survey, question.finding)
            return

    def tell(self, question: Question, survey: Survey) -> None:
        """What the answer was understood as, and what it did."""
        finding = next(one for one in survey.findings if one.id == question.finding)
        reading = finding.readings.get(question.ask)
        if reading is not None and reading.high is not None:
            say(f"Noted: {self.kb.scales[question.ask].levels[reading.high].phrase}.")
        elif reading is not None:
            say("Noted: could not tell. It is not asked again.")
        say(change_in_verdict(self.kb, self.survey, survey, question.finding))
        says = typical_outcome(self.kb, survey, question.finding)
        if says != self.usual:
            say(says or "What is usual no longer says which way it goes.")
            self.usual = says

    def conclude(self, done: Done) -> None:
        """What came of a mark, and what to do next."""
        show_end(done)
        self.look_next(done.finding)
        say()
        say("Describe another mark, ask whether she may sail, or give a number.")
        choices = ["the report", "answer something else about this mark", "leave; everything is kept"]
        show_choices(choices)
        said = self.hear()
        number = number_of(said, choices)
        if _SHORT.get(said.casefold(), said.casefold()) == "why":
            for line in done.why:
                say(line, 4, "  -")
        elif number is None:
            self.take(said)
        elif number == 0:
            raise Turn("finish")
        elif number == 1:
            self.something_else(done.finding)
        else:
            raise Left

    def look_next(self, mark: str) -> None:
        """Where this mark sends people that nobody has looked at yet."""
        finding = next(one for one in self.survey.findings if one.id == mark)
        here = f"{place_of(self.kb, finding)}: {self.kb.signs[finding.sign].name}"
        sent = [one for one in assess_survey(self.survey, self.kb).suspicions if here in one.come_from]
        if sent:
            say("It also sends you to look at:")
        for one in sent[:LOOK_NEXT]:
            say(f"{one.place}{f', {one.side}' if one.side else ''}: {one.mark.lower()}? {one.because}", 4, "  -")

    def something_else(self, mark: str) -> None:
        """Any question about the mark or the boat, out of turn; an earlier answer may be changed."""
        finding = next(one for one in self.survey.findings if one.id == mark)
        scales = self.kb.applicable(finding.zone, finding.sign)
        asks = [*scales, *self.kb.facts]
        say("Which one?")
        for number, ask in enumerate(asks, start=1):
            told = finding.readings[ask].said if ask in finding.readings else self.survey.boat.facts.get(ask, "")
            name = self.kb.scales[ask].name if ask in self.kb.scales else self.kb.facts[ask].asks
            say(f"{name}{f' (answered: {told})' if told else ''}", 6, f"  {number:>2}  ")
        chosen = number_of(self.hear(), asks)
        if chosen is None:
            say("That is none of them.")
        else:
            self.put(question_about(self.kb, self.survey, mark, asks[chosen]))

    def finish(self) -> None:
        """The same report that ``triage assess`` gives."""
        if not self.survey.findings:
            self.part()
            return
        click.echo()
        click.echo(render(assess_survey(self.survey, self.kb), "text", colour=False))
        say(f"Kept in {self.kept.file}. For a page to send or print: triage assess {self.kept.file} -o report.html")
