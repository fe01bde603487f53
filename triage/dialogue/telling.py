"""A whole story: everything that was understood of it on one screen, a card each, to keep, change or take out.

Nothing is recorded unseen. A mark that is not clear is asked for among those that may be meant, each with the readings
that would come with it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Literal

from triage.dialogue.cards import AS_HEARD, OUT, can_be_decided
from triage.dialogue.describing import Describing
from triage.dialogue.messages import Choices, Line, Message, Points, Refused
from triage.dialogue.moves import Move, Option, Outcome, option_said
from triage.dialogue.recording import story_recorded
from triage.dialogue.retelling import at_place_said, in_other_words, is_heard_as, with_more
from triage.dialogue.state import DESCRIBE, Asking, State
from triage.dialogue.stories import Story, told
from triage.dialogue.trying import Trying
from triage.knowledge.model import KnowledgeBase
from triage.listening.naming import marks_named, places_named
from triage.listening.saying import agreed, side_told
from triage.listening.scope import without_denied
from triage.listening.tokens import tokens_of
from triage.listening.understand import could_not_tell
from triage.phrases import conversation as phrases
from triage.phrases import describing, hearing, story_screen
from triage.survey.model import Finding
from triage.survey.readings import none_given


class Telling:
    """One story, of which as much is decided as ``state.asking`` holds: ``offered`` has a decision for each card."""

    def __init__(self, kb: KnowledgeBase, state: State) -> None:
        self.kb, self.state, self.draft = kb, state, state.asking
        self.told: Story = told(kb, state.asking.text, state.asking.offered)

    def begin(self) -> Move:
        """A story just told is shown; where no mark of it is clear, the first is asked for at once below the rest."""
        if not all(card.is_open for card in self.told.cards):
            return Move(self.draft)
        understood = self.understood()
        asking = replace(self.draft, what="which", ask="0", sure=True)
        return Move(asking, (understood,) if understood.lines else ())

    @property
    def number(self) -> int:
        """Which card is asked about."""
        return int(self.draft.ask or 0)

    def present(self) -> tuple[Message, ...]:
        """What is asked now."""
        choices = tuple(option.text for option in self.options())
        match self.draft.what:
            case "which":
                return (Choices(story_screen.which_mark(self.told.cards[self.number].plain), choices),)
            case "whose":
                there = [card for card in self.told.cards if card.zone == self.asked_zone and card.wants_side(self.kb)]
                names = dict.fromkeys(card.name(self.kb) for card in there)
                return (Choices(f"{'; '.join(names)}. {describing.WHICH_SIDE}", choices),)
        return (self.understood(), Choices(story_screen.KEEP_THESE, choices))

    def understood(self) -> Points:
        """All that was understood, a line each."""
        cards = self.told.cards
        lines = [f"{card.letter}. {card.line(self.kb)}" for card in cards]
        alone = len(cards) == 1 and cards[0].is_open  # its words stand in the question
        return Points(hearing.NOTHING_KEPT, (*([] if alone else lines), *self.told.others))

    def options(self) -> list[Option]:
        """The choices, in their order."""
        match self.draft.what:
            case "which":
                none = Option(story_screen.NONE_LEFT_OUT, partial(self.decide, OUT))
                return [*map(self.as_pair, self.pairs), none, Option(describing.OTHER_PLACE, self.elsewhere)]
            case "whose":
                return [Option(text, partial(self.on, side)) for side, text in describing.SIDES.items()]
        change = [
            Option(
                story_screen.change_card(card.letter, card.name(self.kb)), partial(self.at, "which", place), card.letter
            )
            for place, card in enumerate(self.told.cards)
        ]
        return [*self.keeping(), *change, Option(story_screen.TELL_AGAIN, lambda: Move(DESCRIBE))]

    def keeping(self) -> list[Option]:
        """To keep all of it; where nothing but the side at one place is still to be said, with that."""
        if not self.sides_asked:
            return [Option(story_screen.KEEP, self.keep)]
        whose = Telling(self.kb, replace(self.state, asking=self.keep().asking))
        yes = story_screen.keep_with(self.kb, whose.asked_zone) if len(self.told.kept) > 1 else story_screen.KEEP
        return [Option(describing.with_side(yes, side), partial(whose.on, side)) for side in describing.SIDES]

    @property
    def sides_asked(self) -> bool:
        """Whether nothing but the side at one place is still to be said."""
        cards = self.told.cards
        unsided = {card.zone for card in cards if card.wants_side(self.kb)}
        return self.draft.what == "whose" or (
            self.draft.what == "story" and len(unsided) == 1 and not any(card.is_open for card in cards)
        )

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """What the card in question may mean; where it names no place, first of all the mark before it."""
        card = self.told.cards[self.number]
        last = () if card.names_place(self.kb) else tuple(self.before)[-1:]
        return tuple(dict.fromkeys((*last, *card.pairs, *self.before)))

    @property
    def before(self) -> dict[tuple[str, str], str]:
        """The marks that are clear before the card in question, by place and mark, with their letters."""
        cards = self.told.cards[: self.number]
        return {(card.zone, card.sign): card.letter for card in cards if not card.is_open and card.decision != OUT}

    def as_pair(self, pair: tuple[str, str]) -> Option:
        """The choice that the card is this mark."""
        return Option(self.told_as(*pair), partial(self.decide, " ".join(pair)), self.before.get(pair, ""))

    def told_as(self, zone: str, sign: str) -> str:
        """What the card would be as this mark, with what was told of it then."""
        letter = self.before.get((zone, sign))
        mark = story_screen.more_of(self.kb, zone, sign, letter) if letter else hearing.choice(self.kb, zone, sign)
        return " ".join([mark, *self.taken_as(zone, sign)])

    def taken_as(self, zone: str, sign: str) -> list[str]:
        """The readings that would be kept with the card as this mark."""
        return told(self.kb, self.told.text, self.with_decision(f"{zone} {sign}")).cards[self.number].taken(self.kb)

    def with_decision(self, decision: str) -> tuple[str, ...]:
        """What is decided of every card, with this of the one in question."""
        made = [card.decision for card in self.told.cards]
        made[self.number] = decision
        return tuple(made)

    def heard(self, text: str) -> Outcome | None:
        """Words in answer: one of the choices, or None."""
        if chosen := option_said(self.options(), text):
            return chosen.then()
        if meant := self.meant(text):
            outcome = meant.then()
            if self.draft.what != "which" or not isinstance(outcome, Move):
                return outcome
            return replace(outcome, says=(Line(story_screen.taken_as(meant.text)), *outcome.says))
        return self.retold(text) if self.draft.what == "which" else None

    def retold(self, text: str) -> Outcome | None:
        """Another place, mark, size or side of the card, or other words for it; shown before it is kept."""
        draft = replace(self.draft, sure=False)
        if decision := at_place_said(self.kb, self.told.cards[self.number], text):
            return Telling(self.kb, replace(self.state, asking=draft)).decide(decision)
        if longer := with_more(self.kb, self.told, self.number, text, draft.offered):
            return Move(replace(draft, text=longer))
        anew = in_other_words(self.kb, self.told, self.number, text)
        if not anew:
            return None
        after = told(self.kb, anew).cards
        if len(after) == len(self.told.cards):
            asking = draft if after[self.number].is_open else replace(draft, what="story", ask="")
            return Move(replace(asking, text=anew, offered=self.with_decision(AS_HEARD)))
        return Telling(self.kb, replace(self.state, asking=Asking("story", text=anew))).begin()

    def meant(self, text: str) -> Option | None:
        """The one choice that the words mean: yes or no, a side, or the one of the marks that they name."""
        options, yes = self.options(), agreed(self.kb, text)
        if self.draft.what == "story" and yes is not None:
            return Option(story_screen.KEEP, self.keep) if yes else options[-1]
        if self.sides_asked:
            asked = self.told.cards[self.number]
            unsided = (card for card in self.told.cards if card.wants_side(self.kb))
            card = asked if self.draft.what == "whose" else next(unsided, asked)
            side = side_told(self.kb, text, Finding("", card.zone, card.sign))
            side = "unknown" if none_given(text) or could_not_tell(self.kb, text) else side
            return options[list(describing.SIDES).index(side)] if side in describing.SIDES else None
        if self.draft.what != "which":
            return None
        stems = [token.stem for token in tokens_of(without_denied(self.kb, text), self.kb)]
        places, marks = places_named(self.kb).named(stems), marks_named(self.kb).named(stems)
        fits = [
            option
            for option, (zone, sign) in zip(options, self.pairs, strict=False)
            if (places or marks) and (not places or zone in places) and (not marks or sign in marks)
        ]
        if len(fits) != 1 or (places and marks and not is_heard_as(self.kb, text, fits[0].text)):
            return None
        return fits[0]

    def dropped(self) -> Outcome:
        """What is asked about is left out: one card, or all of the story."""
        return Move(DESCRIBE, (Line(describing.LEFT_OUT),)) if self.draft.what == "story" else self.decide(OUT)

    def at(self, what: Literal["which", "whose"], number: int) -> Move:
        """Ask about one card."""
        return Move(replace(self.draft, what=what, ask=str(number)))

    def decide(self, decision: str) -> Move:
        """One card is decided."""
        return self.going_on(self.with_decision(decision))

    def on(self, side: str) -> Move:
        """The side of all marks at that place that have none yet."""
        return self.going_on([card.on(self.kb, side, self.asked_zone) for card in self.told.cards])

    def without_sides(self) -> Move:
        """What is clear is kept, on a side that nobody knows where none was told."""
        return self.going_on([card.on(self.kb, "unknown", card.zone) for card in self.told.cards])

    @property
    def asked_zone(self) -> str:
        """The place of which the side is asked."""
        return self.told.cards[self.number].zone

    def going_on(self, made: Sequence[str]) -> Move:
        """Back to all of them; on to keeping them where all that would be kept has been seen (``sure``)."""
        draft = replace(self.draft, what="story", ask="", offered=tuple(made))
        return Telling(self.kb, replace(self.state, asking=draft)).keep() if draft.sure else Move(draft)

    def decided(self, card: int, decision: str) -> Outcome:
        """One card is decided among all of them; the others wait."""
        if self.draft.what != "story" or not 1 <= card <= len(self.told.cards) or not can_be_decided(self.kb, decision):
            return (Refused(phrases.NO_CHOICES),)
        made = [one.decision for one in self.told.cards]
        made[card - 1] = decision
        return Move(replace(self.draft, offered=tuple(made)))

    def elsewhere(self) -> Outcome:
        """It is another place: described by itself where nothing else was told, else said in words, to lose nothing."""
        if len(self.told.cards) == 1 and not self.told.others:
            refused = {zone for zone, _ in self.pairs}
            return Describing(self.kb, self.state).begin(self.told.text, refused=refused)
        return (Line(story_screen.SAY_WHERE),)

    def keep(self) -> Move:
        """Everything is kept once every mark is clear, and every side known."""
        draft = replace(self.draft, sure=True)
        open_ = [number for number, card in enumerate(self.told.cards) if card.is_open]
        unsided = [number for number, card in enumerate(self.told.cards) if card.wants_side(self.kb)]
        if open_ or unsided:
            return Move(replace(draft, what="which" if open_ else "whose", ask=str((open_ or unsided)[0])))
        return self.record(draft)

    def record(self, draft: Asking) -> Move:
        """The story comes into the survey; then the passes are asked for one by one."""
        kept = story_recorded(self.kb, self.state.survey, self.told)
        state = replace(self.state, survey=kept.survey, asking=replace(draft, mark=kept.first))
        return Trying(self.kb, state).next_pass(0, kept.survey, kept.backs, kept.says)
