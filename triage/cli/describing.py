"""From somebody's own sentence to a mark in the survey: shown back, with the alternatives, until it is right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from triage.cli.terminal import number_of, say, show_choices
from triage.dialogue.interview import add_finding, answer
from triage.errors import BadSurvey
from triage.knowledge.model import SIDES, KnowledgeBase
from triage.listening.understand import Candidate, Meant, mark_candidate, place_candidate, readings_meant, understand
from triage.parsing.quantities import in_unit
from triage.survey.model import Survey

Listen = Callable[[], str]
_SIDES = ("port, on the left as you look forward", "starboard, on the right as you look forward", "cannot tell")


@dataclass
class Description:
    """What was understood so far."""

    text: str
    zone: str
    sign: str
    side: str | None
    sizes: tuple[Meant, ...]


class Describing:
    """Asks about one sentence until place, mark and size are confirmed."""

    def __init__(self, kb: KnowledgeBase, listen: Listen) -> None:
        """``listen`` gives the person's next line and deals with commands on the way."""
        self.kb, self.listen = kb, listen

    def mark(self, survey: Survey, text: str) -> tuple[Survey, str]:
        """The survey with the mark that was described, and the mark's id."""
        described = self.confirmed(text)
        zone = self.kb.zones[described.zone]
        if zone.sided and described.side is None:
            number = self.one_of("Which side?", _SIDES)
            described.side = SIDES[number] if number < len(SIDES) else None
        same = [f for f in survey.findings if (f.zone, f.side, f.sign) == (zone.id, described.side, described.sign)]
        if same:
            say("That mark is already in the survey; going on with it.")
            mark = same[0].id
        else:
            survey, mark = add_finding(
                self.kb, survey, zone.id, described.sign, side=described.side, note=described.text[:5000]
            )
        for size in described.sizes:
            try:
                survey = answer(self.kb, survey, mark, size.scale, size.quantity)
            except BadSurvey as error:
                say(f"The size is left out: {error.problems[0].what}. {error.problems[0].hint}")
        return survey, mark

    def confirmed(self, text: str) -> Description:
        understood = understand(text, self.kb)
        side, zone, asked = understood.side, understood.zone, False
        if zone is None:
            text, zone, side = self.place(text, understood.zones, side)
            asked = True
        found = understand(text, self.kb, zone=zone)
        sign = found.sign
        if sign is None:
            sign, asked = self.which_mark(zone, found.signs), True
        described = Description(text, zone, sign, side, readings_meant(self.kb, text, zone, sign))
        return described if asked and not described.sizes else self.shown_back(described)

    def shown_back(self, described: Description) -> Description:
        """Show what was understood, and change what is not right."""
        while True:
            place = place_candidate(self.kb, described.zone)
            mark = mark_candidate(self.kb, described.sign)
            say()
            say("This is how I understand it:")
            say(f"{place.name}. {place.picture}", 9, "  Place")
            say(f"{mark.name}. {mark.picture}", 9, "  Mark")
            for size in described.sizes:
                say(self.told(size), 9, "  Size")
            used = {size.said for size in described.sizes}
            for other in understand(described.text, self.kb).sizes:
                if other.said not in used:
                    say(f"{other.said}: kept in the note, because this mark is not judged by it.", 9, "  Size")
            choices = ["yes, that is right", "no, it is another place", "no, it is another mark"]
            choices += ["no, leave the size out"] if described.sizes else []
            number = self.one_of("Is that right?", choices)
            if number == 0:
                return described
            if number == 1:
                others = [one for one in understand(described.text, self.kb).zones if one.id != described.zone]
                described.text, described.zone, side = self.place(described.text, others, described.side)
                described.side = side
                if described.sign not in self.kb.offers[described.zone]:
                    found = understand(described.text, self.kb, zone=described.zone)
                    described.sign = found.sign or self.which_mark(described.zone, found.signs)
            elif number == 2:
                found = understand(described.text, self.kb, zone=described.zone)
                described.sign = self.which_mark(described.zone, [s for s in found.signs if s.id != described.sign])
            described.sizes = readings_meant(self.kb, described.text, described.zone, described.sign)
            if number == 3:
                described.sizes = ()

    def told(self, size: Meant) -> str:
        scale = self.kb.scales[size.scale]
        assert scale.measure is not None
        value = in_unit(size.quantity, scale.measure.unit)
        taken = " (our estimate of what that is)" if size.estimated else ""
        phrase = scale.levels[scale.measure.level(value)].phrase
        return f"{size.said}, taken as {value:g} {scale.measure.unit}{taken}: {phrase}."

    def place(self, text: str, found: Sequence[Candidate], side: str | None) -> tuple[str, str, str | None]:
        """Ask which place is meant: the sentence, the place and the side, any of which may have been said anew."""
        while True:
            if found:
                number, said = self.one_of_or_words(
                    "Which place is it? Give its number, say it in other words, or “list” to go round the boat.",
                    [f"{one.name}. {one.picture}" for one in found],
                )
                if number is not None:
                    return text, found[number].id, side
            else:
                say("I do not know which place you mean. Say it in other words, or “list” to go round the boat.")
                said = self.listen()
            if said.casefold() == "list":
                return text, self.round_the_boat(), side
            again = understand(said, self.kb)
            found, side, text = again.zones, again.side or side, f"{text}; {said}" if said else text
            if again.zone is not None:
                found = [one for one in found if one.id == again.zone] + [o for o in found if o.id != again.zone]

    def round_the_boat(self) -> str:
        leg = self.kb.walk[self.one_of("Where is it?", [leg.name for leg in self.kb.walk])]
        pictures = [place_candidate(self.kb, zone) for zone in leg.zones]
        return leg.zones[self.one_of("Which place is it?", [f"{one.name}. {one.picture}" for one in pictures])]

    def which_mark(self, zone: str, found: Sequence[Candidate]) -> str:
        """Ask which mark is meant; every mark that can be met there is on offer."""
        here = [one for one in found if one.id in self.kb.offers[zone]]
        if here:
            choices = [f"{one.name}. {one.picture}" for one in here]
            number = self.one_of("Which of these is it?", [*choices, "none of these: show me all that there may be"])
            if number < len(here):
                return here[number].id
        every = [mark_candidate(self.kb, sign) for sign in self.kb.offers[zone]]
        return every[self.one_of("What does it look like?", [f"{one.name}. {one.picture}" for one in every])].id

    def one_of(self, question: str, choices: Sequence[str]) -> int:
        """The place, from 0, of the choice whose number is given."""
        while True:
            number, _ = self.one_of_or_words(question, choices)
            if number is not None:
                return number
            say(f"Please give a number from 1 to {len(choices)}.")

    def one_of_or_words(self, question: str, choices: Sequence[str]) -> tuple[int | None, str]:
        say()
        say(question)
        show_choices(choices)
        said = self.listen()
        return number_of(said, choices), said
