"""From somebody's own sentence to marks in the survey: shown back, with the alternatives, until it is right."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from functools import partial

from triage.dialogue.amending import redescribed, said_again, side_said
from triage.dialogue.following import begun
from triage.dialogue.messages import Choices, Line, Message, Understood
from triage.dialogue.moves import Move, Option, Outcome, option_said
from triage.dialogue.recording import description_recorded, sizes_of
from triage.dialogue.state import DESCRIBE, Asking, State
from triage.knowledge.model import KnowledgeBase
from triage.listening.saying import agreed
from triage.listening.understand import (
    Candidate,
    Meant,
    could_not_tell,
    mark_candidate,
    place_candidate,
    understand,
)
from triage.listening.understand import Understood as Heard
from triage.parsing.quantities import in_unit
from triage.phrases import describing
from triage.survey.readings import none_given


class Describing:
    """One description, of which as much is known as ``state.asking`` holds."""

    def __init__(self, kb: KnowledgeBase, state: State) -> None:
        self.kb, self.state, self.draft = kb, state, state.asking

    def begin(self, text: str, *, refused: Collection[str] = ()) -> Outcome:
        """A new description; it is at none of the ``refused`` places, so where there are such its place is asked."""
        heard = understand(text, self.kb)
        draft = Asking("place", text=text, side=heard.side or "")
        if heard.zone is None or refused:
            return Move(replace(draft, offered=tuple(one for one in _ids(heard.zones) if one not in refused)))
        return self.at(replace(draft, zone=heard.zone))

    def present(self) -> tuple[Message, ...]:
        """What is asked now."""
        choices = tuple(option.text for option in self.options())
        match self.draft.what:
            case "place":
                return (Choices(describing.WHICH_PLACE if self.draft.offered else describing.UNKNOWN_PLACE, choices),)
            case "leg":
                return (Choices(describing.WHERE_ABOUT, choices),)
            case "spot":
                return (Choices(describing.WHICH_SPOT, choices),)
            case "mark":
                return (Choices(describing.what_it_looks_like(self.kb.zones[self.draft.zone].name), choices),)
            case "side":
                return (Choices(describing.WHICH_SIDE, choices),)
        return (self.understood(), Choices(describing.IS_THAT_RIGHT, choices))

    def options(self) -> list[Option]:
        """The choices, in their order."""
        draft = self.draft
        match draft.what:
            case "place":
                round_the_boat = Option(describing.GO_ROUND, lambda: Move(replace(draft, what="leg", offered=())))
                return [*self.places(draft.offered), round_the_boat]
            case "leg":
                return [Option(leg.name, partial(self.spots, leg.name)) for leg in self.kb.walk]
            case "spot":
                other = Option(describing.OTHER_PART, lambda: Move(replace(draft, what="leg", offered=(), ask="")))
                return [*self.places(draft.offered), other]
            case "mark":
                return self.marks()
            case "side":
                return [Option(text, partial(self.on, side)) for side, text in describing.SIDES.items()]
        return self.confirming()

    def places(self, zones: Sequence[str]) -> list[Option]:
        """These places as choices, by name and picture in words."""
        candidates = [place_candidate(self.kb, zone) for zone in zones]
        return [
            Option(f"{one.name}. {one.picture}", partial(self.at, replace(self.draft, zone=one.id)))
            for one in candidates
        ]

    def spots(self, leg: str) -> Outcome:
        """The places on one part of the way round."""
        zones = next(one.zones for one in self.kb.walk if one.name == leg)
        there = tuple(zone for zone in zones if self.state.survey.boat.has(self.kb.zones[zone]))
        return Move(replace(self.draft, what="spot", ask=leg, offered=there))

    def marks(self) -> list[Option]:
        """The marks on offer, all others, and the way back to the places."""
        offers, draft = self.kb.offers[self.draft.zone], self.draft
        shown = draft.offered or offers
        candidates = [mark_candidate(self.kb, sign) for sign in shown]
        options = [
            Option(f"{one.name}. {one.picture}", partial(self.seen, replace(draft, sign=one.id, sure=True)))
            for one in candidates
        ]
        if set(shown) != set(offers):
            options.append(Option(describing.SHOW_ALL, lambda: Move(replace(draft, offered=()))))
        return [*options, Option(describing.OTHER_PLACE, self.elsewhere)]

    def confirming(self) -> list[Option]:
        """What can be said to what was understood."""
        draft = self.draft
        right = [Option(describing.RIGHT, self.keep)]
        if self.wants_side:
            right = [
                Option(describing.with_side(describing.RIGHT, side), partial(self.on, side))
                for side in describing.SIDES
            ]
        options = [
            *right,
            Option(describing.NOT_THE_PLACE, self.elsewhere),
            Option(describing.NOT_THE_MARK, self.otherwise),
        ]
        if sizes_of(self.kb, draft):
            options.append(Option(describing.NOT_THE_SIZE, lambda: Move(replace(draft, sized=False))))
        return options

    @property
    def wants_side(self) -> bool:
        """Whether nobody has said yet which side of the place it is on."""
        return self.kb.zones[self.draft.zone].sided and not self.draft.side

    def keep(self) -> Outcome:
        """What was understood is right; only the side may still be asked."""
        return self.sided(replace(self.draft, sure=True))

    def heard(self, text: str) -> Outcome | None:
        """Words in answer to what is asked; None when they say nothing about it."""
        draft = self.draft
        if draft.what == "side" and (none_given(text) or could_not_tell(self.kb, text)):
            return self.on("unknown")
        if (chosen := option_said(self.options(), text)) is not None:
            return chosen.then()
        if draft.what in ("mark", "confirm", "side") and (side := side_said(self.kb, draft, text)):
            asked = draft.what == "side" or (draft.what == "confirm" and self.wants_side)
            return self.on(side) if asked else Move(replace(draft, side=side))
        if draft.what == "confirm":
            return self.corrected(text)
        if draft.what in ("place", "leg", "spot"):
            heard = understand(text, self.kb)
            draft = replace(draft, text=f"{draft.text}; {text}", side=heard.side or draft.side, ask="")
            if heard.zone is not None:
                return self.at(replace(draft, zone=heard.zone))
            return Move(replace(draft, what="place", offered=_ids(heard.zones)))
        if draft.what == "mark":
            return self.looked(replace(draft, text=f"{draft.text}; {text}"), understand(text, self.kb, zone=draft.zone))
        return None

    def corrected(self, text: str) -> Outcome | None:
        """What was understood is right, or another place, mark or size in words."""
        if agreed(self.kb, text):
            return self.keep()
        draft = redescribed(self.kb, self.draft, text)
        if draft is None:
            sized = sizes_of(self.kb, replace(self.draft, text=text))
            return Move(said_again(self.draft, text)) if sized else None
        return self.at(draft) if draft.zone != self.draft.zone else Move(draft)

    def at(self, draft: Asking) -> Outcome:
        """The place is known: on to the mark, which is always shown before it is kept."""
        draft = replace(draft, ask="", offered=())
        if draft.sign in self.kb.offers[draft.zone]:
            return Move(replace(draft, what="confirm"))
        return self.looked(draft, understand(draft.text, self.kb, zone=draft.zone))

    def looked(self, draft: Asking, heard: Heard) -> Outcome:
        """What was heard, with its place if that is clear, or the places to choose from."""
        if heard.sign is not None:
            return Move(replace(draft, what="confirm", sign=heard.sign, offered=(), sure=False))
        return Move(replace(draft, what="mark", sign="", offered=self.offered(heard)))

    def offered(self, heard: Heard) -> tuple[str, ...]:
        """The marks that were heard and can be met at the place."""
        return tuple(sign for sign in _ids(heard.signs) if sign in self.kb.offers[heard.zone or ""])

    def elsewhere(self) -> Outcome:
        """It is another place."""
        others = tuple(zone for zone in _ids(understand(self.draft.text, self.kb).zones) if zone != self.draft.zone)
        return Move(replace(self.draft, what="place", zone="", offered=others, sure=False))

    def otherwise(self) -> Outcome:
        """It is another mark."""
        heard = understand(self.draft.text, self.kb, zone=self.draft.zone)
        others = tuple(sign for sign in self.offered(heard) if sign != self.draft.sign)
        return Move(replace(self.draft, what="mark", sign="", offered=others))

    def seen(self, draft: Asking) -> Outcome:
        """The mark was chosen; only a size has still to be shown."""
        draft = replace(draft, offered=())
        return Move(replace(draft, what="confirm")) if sizes_of(self.kb, draft) else self.sided(draft)

    def dropped(self) -> Outcome:
        """The description is given up."""
        return Move(DESCRIBE, (Line(describing.LEFT_OUT),))

    def sided(self, draft: Asking) -> Outcome:
        """Place and mark are right; which side is asked where there are two."""
        if self.kb.zones[draft.zone].sided and not draft.side:
            return Move(replace(draft, what="side"))
        return self.record(draft)

    def on(self, side: str) -> Move:
        """The mark on this side, on both, or on one that nobody knows."""
        return self.record(replace(self.draft, side=side))

    def record(self, draft: Asking) -> Move:
        """The marks that were described become findings. Raises BadSurvey when they cannot be."""
        kept = description_recorded(self.kb, self.state.survey, draft)
        asking, standing = begun(self.kb, kept.survey, kept.first, self.state.means)
        return Move(asking, (*kept.says, *standing), kept.survey, kept.backs)

    def understood(self) -> Understood:
        """What was understood, to be shown before it is kept."""
        draft = self.draft
        place, mark = place_candidate(self.kb, draft.zone), mark_candidate(self.kb, draft.sign)
        sizes = sizes_of(self.kb, draft)
        used = {size.said for size in sizes}
        left = tuple(one.said for one in understand(draft.text, self.kb).sizes if one.said not in used)
        return Understood(
            place.name,
            place.picture,
            mark.name,
            mark.picture,
            tuple(self.size(size) for size in sizes),
            tuple(describing.size_not_judged(said) for said in left),
        )

    def size(self, size: Meant) -> str:
        """A size, what it is taken as, and what that means."""
        scale = self.kb.scales[size.scale]
        assert scale.measure is not None
        value = in_unit(size.quantity, scale.measure.unit)
        phrase = scale.words(scale.measure.level(value))
        return describing.size_taken(size.said, value, scale.measure.unit, phrase, estimated=size.estimated)


def _ids(candidates: Sequence[Candidate]) -> tuple[str, ...]:
    return tuple(one.id for one in candidates)
