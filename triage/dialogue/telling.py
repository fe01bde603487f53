"""A whole story: everything that was understood of it on one screen, a card each, to keep, change or take out.

Nothing is recorded unseen. A mark that is not clear is asked for among those that may be meant; a part that is said to
be well is asked for by itself, with the test that passes it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import partial

from triage.dialogue.answering import Answering
from triage.dialogue.cards import AS_HEARD, OUT, Card, Story, told
from triage.dialogue.describing import Describing
from triage.dialogue.edits import AddFinding, Edit, SetFact, SetReading, TellEvent, apply_all, with_id
from triage.dialogue.following import begun
from triage.dialogue.messages import Choices, Line, Message, Points, Refused
from triage.dialogue.moves import Move, Option, Outcome, option_said
from triage.dialogue.noting import noted
from triage.dialogue.retelling import at_place_said, with_size
from triage.dialogue.state import DESCRIBE, Asking, State
from triage.errors import BadSurvey
from triage.knowledge.model import NOTHING_SEEN, SIDES, KnowledgeBase
from triage.listening.naming import marks_named, places_named
from triage.listening.saying import agreed, side_told
from triage.listening.scope import without_denied
from triage.listening.statements import Passed
from triage.listening.tokens import tokens_of
from triage.phrases import conversation as phrases
from triage.phrases import hearing
from triage.survey.model import Finding, Survey
from triage.survey.readings import NotUnderstood, reading_of


class Telling:
    """One story, of which as much is decided as ``state.asking`` holds: ``offered`` has a decision for each card."""

    def __init__(self, kb: KnowledgeBase, state: State) -> None:
        self.kb, self.state, self.draft = kb, state, state.asking
        self.told: Story = told(kb, state.asking.text, state.asking.offered)

    @property
    def number(self) -> int:
        """Which card, or which pass, is asked about."""
        return int(self.draft.ask or 0)

    def present(self) -> tuple[Message, ...]:
        """What is asked now."""
        choices = tuple(option.text for option in self.options())
        match self.draft.what:
            case "which":
                return (Choices(hearing.which_mark(self.told.cards[self.number].words), choices),)
            case "whose":
                card = self.told.cards[self.number]
                return (Choices(f"{card.name(self.kb)}. {phrases.WHICH_SIDE}", choices),)
            case "tried":
                one = self.told.passes[self.number]
                return (Choices(hearing.was_it_tried(self.kb, one, self.told.words(one)), choices),)
        lines = [f"{number}. {card.line(self.kb)}" for number, card in enumerate(self.told.cards, start=1)]
        return (Points(hearing.NOTHING_KEPT, (*lines, *self.told.others)), Choices(hearing.KEEP_THESE, choices))

    def options(self) -> list[Option]:
        """The choices, in their order."""
        match self.draft.what:
            case "which":
                chosen = [
                    Option(hearing.choice(self.kb, one), partial(self.decide, f"{one.zone} {one.sign}"))
                    for one in self.told.cards[self.number].found.choices
                ]
                none = Option(hearing.NONE_LEFT_OUT, partial(self.decide, OUT))
                return [*chosen, none, Option(phrases.OTHER_PLACE, self.elsewhere)]
            case "whose":
                card = self.told.cards[self.number]
                pair = f"{card.zone} {card.sign}"
                return [Option(text, partial(self.decide, f"{pair} {side}")) for side, text in phrases.SIDES.items()]
            case "tried":
                return [
                    Option(hearing.TRIED_SO, partial(self.passed, kept=True)),
                    Option(hearing.NOT_TRIED_SO, partial(self.passed, kept=False)),
                ]
        change = [
            Option(hearing.change_card(number, card.name(self.kb)), partial(self.at, "which", number - 1))
            for number, card in enumerate(self.told.cards, start=1)
        ]
        return [Option(hearing.KEEP, self.keep), *change, Option(hearing.TELL_AGAIN, lambda: Move(DESCRIBE))]

    def heard(self, text: str) -> Outcome | None:
        """Words in answer: one of the choices, or None."""
        chosen = option_said(self.options(), text) or self.meant(text)
        if chosen:
            return chosen.then()
        return self.retold(text) if self.draft.what == "which" else None

    def retold(self, text: str) -> Outcome | None:
        """Another place, mark or size of the card, which is shown before it is kept."""
        draft = replace(self.draft, sure=False)
        if decision := at_place_said(self.kb, self.told.cards[self.number], text):
            return Telling(self.kb, replace(self.state, asking=draft)).decide(decision)
        longer = with_size(self.kb, self.told, self.number, text, draft.offered)
        return Move(replace(draft, text=longer)) if longer else None

    def meant(self, text: str) -> Option | None:
        """The one choice that the words mean: yes or no, a side, or the one of the marks that they name."""
        options, yes = self.options(), agreed(self.kb, text)
        if self.draft.what in ("story", "tried") and yes is not None:
            return options[0] if yes else options[-1]
        if self.draft.what == "whose":
            card = self.told.cards[self.number]
            side = side_told(self.kb, text, Finding("", card.zone, card.sign))
            return options[list(phrases.SIDES).index(side)] if side in phrases.SIDES else None
        if self.draft.what != "which":
            return None
        stems = [token.stem for token in tokens_of(without_denied(self.kb, text), self.kb)]
        places, marks = places_named(self.kb).named(stems), marks_named(self.kb).named(stems)
        choices = self.told.cards[self.number].found.choices
        fits = [
            option
            for option, one in zip(options, choices, strict=False)
            if (places or marks) and (not places or one.zone in places) and (not marks or one.sign in marks)
        ]
        return fits[0] if len(fits) == 1 else None

    def dropped(self) -> Outcome:
        """What is asked about is left out: one card, one pass, or all of the story."""
        match self.draft.what:
            case "story":
                return Move(DESCRIBE, (Line(phrases.LEFT_OUT),))
            case "tried":
                return self.passed(kept=False)
        return self.decide(OUT)

    def at(self, what: str, number: int) -> Outcome:
        """Ask about one card."""
        assert what in ("which", "whose")
        return Move(replace(self.draft, what="which" if what == "which" else "whose", ask=str(number)))

    def decide(self, decision: str) -> Outcome:
        """One card is decided; back to all of them, or on to the next that is not."""
        made = [card.decision for card in self.told.cards]
        made[self.number] = decision
        draft = replace(self.draft, what="story", ask="", offered=tuple(made))
        after = Telling(self.kb, replace(self.state, asking=draft))
        newly_sized = self.draft.what == "which" and any(after.told.cards[self.number].readings(self.kb))
        if self.draft.sure and not (newly_sized and decision != OUT):
            return after.keep()
        return Move(replace(draft, sure=False))  # what its sizes were taken as is seen before it is kept

    def decided(self, card: int, decision: str) -> Outcome:
        """One card is decided among all of them; the others wait."""
        if self.draft.what != "story" or not 1 <= card <= len(self.told.cards) or not self.can_be(decision):
            return (Refused(phrases.NO_CHOICES),)
        made = [one.decision for one in self.told.cards]
        made[card - 1] = decision
        return Move(replace(self.draft, offered=tuple(made)))

    def can_be(self, decision: str) -> bool:
        """Whether a card can be decided so: as heard, out, or a mark that is met at a place, perhaps with its side."""
        match decision.split():
            case [one] if one in (AS_HEARD, OUT):
                return True
            case [zone, sign, *side] if len(side) < 2:
                return sign in self.kb.offers.get(zone, ()) and set(side) <= phrases.SIDES.keys()
        return False

    def elsewhere(self) -> Outcome:
        """It is another place: it is described by itself, and leaves the story."""
        card = self.told.cards[self.number]
        if len(self.told.cards) == 1:
            return Describing(self.kb, self.state).begin(self.told.text, place_first=True)
        rest = self.decide(OUT)
        assert isinstance(rest, Move)
        says = (Line(hearing.tell_by_itself(card.words)),)
        return replace(rest, says=(*says, *rest.says))

    def keep(self) -> Outcome:
        """Everything is kept once every mark is clear, and every side known."""
        draft = replace(self.draft, sure=True)
        for number, card in enumerate(self.told.cards):
            if card.is_open:
                return Move(replace(draft, what="which", ask=str(number)))
            if card.wants_side(self.kb):
                return Move(replace(draft, what="whose", ask=str(number)))
        return self.record(draft)

    def record(self, draft: Asking) -> Outcome:
        """The marks, facts and events come into the survey; then the passes are asked for one by one."""
        survey, backs, says, first = self.state.survey, list[Edit](), list[Message](), ""
        beside = [TellEvent(event) for event in self.told.events]
        facts = [SetFact(one.fact, one.value) for one in self.told.facts]
        survey, back = apply_all(self.kb, survey, [*beside, *facts])
        survey, before = noted(self.kb, survey, self.told.notes)
        backs = [*before, *back]
        for card in self.told.kept:
            for side in _sides(card.side):
                survey, more, mark, lines = self.added(survey, card, side)
                backs, says, first = [*more, *backs], [*says, *lines], first or mark
        return self.next_pass(survey, tuple(backs), tuple(says), replace(draft, mark=first), 0)

    def added(self, survey: Survey, card: Card, side: str | None) -> tuple[Survey, list[Edit], str, list[Message]]:
        """One mark with those of its sizes that are readings of it."""
        found = (card.zone, card.sign, side)
        mark = next((one.id for one in survey.findings if (one.zone, one.sign, one.side) == found), "")
        backs: list[Edit] = []
        if not mark:
            adding = AddFinding(with_id(survey, Finding("", *found, note=card.plain)))
            survey, back = apply_all(self.kb, survey, [adding])
            backs, mark = [*back], adding.finding.id
        says: list[Message] = []
        for scale, said in card.readings(self.kb):
            try:
                reading = reading_of(self.kb.scales[scale], said)
                survey, back = apply_all(self.kb, survey, [SetReading(mark, scale, reading)])
            except (BadSurvey, NotUnderstood) as error:
                says.append(Line(phrases.size_left_out(str(error).splitlines()[0], "")))
            else:
                backs = [*back, *backs]
        return survey, backs, mark, says

    def next_pass(
        self, survey: Survey, backs: tuple[Edit, ...], says: tuple[Message, ...], draft: Asking, number: int
    ) -> Outcome:
        """Ask for the next part that is said to be well, or go on with the first mark."""
        if number < len(self.told.passes):
            return Move(replace(draft, what="tried", ask=str(number)), says, survey, backs)
        state = replace(self.state, survey=survey, asking=replace(draft, what="ended"))
        says = (*says, *(line for asked in self.told.questions for line in Answering(self.kb, state).wondered(asked)))
        if draft.mark and any(one.id == draft.mark for one in survey.findings):
            asking, standing = begun(self.kb, survey, draft.mark, self.state.means)
            return Move(asking, (*says, *standing), survey, backs)
        return Move(DESCRIBE, says, survey, backs)

    def passed(self, *, kept: bool) -> Outcome:
        """A part was tried so, or not; what was is a reading of the mark there, else of a part without one."""
        survey, backs, says = self.state.survey, tuple[Edit, ...](), tuple[Message, ...]()
        if kept:
            try:
                survey, backs = self.with_pass(self.told.passes[self.number])
            except BadSurvey as error:
                says = (Line(f"{error.problems[0].what}. {error.problems[0].hint}".strip()),)
        return self.next_pass(survey, backs, says, self.draft, self.number + 1)

    def with_pass(self, one: Passed) -> tuple[Survey, tuple[Edit, ...]]:
        """The survey with the reading at its best on every side that it is said of."""
        survey, backs = self.state.survey, tuple[Edit, ...]()
        reading = reading_of(self.kb.scales[one.scale], self.kb.scales[one.scale].levels[0].name)
        for side in _sides(one.side if self.kb.zones[one.zone].sided else ""):
            there = [
                found
                for found in survey.findings
                if found.zone == one.zone
                and found.side == side
                and one.scale in self.kb.applicable(found.zone, found.sign)
            ]
            if there:
                edit: Edit = SetReading(there[0].id, one.scale, reading)
            else:
                look = Finding("", one.zone, NOTHING_SEEN, side, {one.scale: reading}, note=self.told.plain(one))
                edit = AddFinding(with_id(survey, look))
            survey, back = apply_all(self.kb, survey, [edit])
            backs = (*back, *backs)
        return survey, backs


def _sides(side: str) -> Iterable[str | None]:
    return SIDES if side == "both" else (side if side in SIDES else None,)
