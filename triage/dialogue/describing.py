"""From somebody's own sentence to marks in the survey: shown back, with the alternatives, until it is right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from triage.dialogue.amending import carried_over, redescribed, said_again, side_said
from triage.dialogue.edits import AddFinding, Edit, RemoveFinding, SetReading, apply_all, with_id
from triage.dialogue.following import begun, named
from triage.dialogue.messages import Choices, Line, Message, Understood
from triage.dialogue.moves import Move, Option, Outcome, option_said
from triage.dialogue.state import DESCRIBE, Asking, State
from triage.errors import BadSurvey
from triage.knowledge.model import KnowledgeBase
from triage.listening.saying import agreed
from triage.listening.understand import (
    Candidate,
    Meant,
    could_not_tell,
    mark_candidate,
    place_candidate,
    readings_meant,
    understand,
)
from triage.listening.understand import Understood as Heard
from triage.parsing.quantities import in_unit
from triage.phrases import conversation as phrases
from triage.survey.model import Finding, Survey
from triage.survey.readings import reading_of


class Describing:
    """One description, of which as much is known as ``state.asking`` holds."""

    def __init__(self, kb: KnowledgeBase, state: State) -> None:
        self.kb, self.state, self.draft = kb, state, state.asking

    def begin(self, text: str, *, place_first: bool = False) -> Outcome:
        """A new description; ``place_first``: ask for its place, even if it seems clear."""
        heard = understand(text, self.kb)
        draft = Asking("place", text=text, side=heard.side or "")
        if heard.zone is None or place_first:
            return Move(replace(draft, offered=_ids(heard.zones)))
        return self.at(replace(draft, zone=heard.zone))

    def present(self) -> tuple[Message, ...]:
        """What is asked now."""
        choices = tuple(option.text for option in self.options())
        match self.draft.what:
            case "place":
                return (Choices(phrases.WHICH_PLACE if self.draft.offered else phrases.UNKNOWN_PLACE, choices),)
            case "leg":
                return (Choices(phrases.WHERE_ABOUT, choices),)
            case "spot":
                return (Choices(phrases.WHICH_SPOT, choices),)
            case "mark":
                return (Choices(phrases.what_it_looks_like(self.kb.zones[self.draft.zone].name), choices),)
            case "side":
                return (Choices(phrases.WHICH_SIDE, choices),)
        return (self.understood(), Choices(phrases.IS_THAT_RIGHT, choices))

    def options(self) -> list[Option]:
        """The choices, in their order."""
        draft = self.draft
        match draft.what:
            case "place":
                round_the_boat = Option(phrases.GO_ROUND, lambda: Move(replace(draft, what="leg", offered=())))
                return [*self.places(draft.offered), round_the_boat]
            case "leg":
                return [Option(leg.name, partial(self.spots, leg.name)) for leg in self.kb.walk]
            case "spot":
                other = Option(phrases.OTHER_PART, lambda: Move(replace(draft, what="leg", offered=(), ask="")))
                return [*self.places(draft.offered), other]
            case "mark":
                return self.marks()
            case "side":
                return [Option(text, partial(self.on, side)) for side, text in phrases.SIDES.items()]
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
            options.append(Option(phrases.SHOW_ALL, lambda: Move(replace(draft, offered=()))))
        return [*options, Option(phrases.OTHER_PLACE, self.elsewhere)]

    def confirming(self) -> list[Option]:
        """What can be said to what was understood."""
        draft = self.draft
        options = [
            Option(phrases.RIGHT, lambda: self.sided(replace(draft, sure=True))),
            Option(phrases.NOT_THE_PLACE, self.elsewhere),
            Option(phrases.NOT_THE_MARK, self.otherwise),
        ]
        if self.sizes(draft):
            options.append(Option(phrases.NOT_THE_SIZE, lambda: Move(replace(draft, sized=False))))
        return options

    def heard(self, text: str) -> Outcome | None:
        """Words in answer to what is asked; None when they say nothing about it."""
        draft = self.draft
        if draft.what == "side" and could_not_tell(self.kb, text):
            return self.on("unknown")
        if (chosen := option_said(self.options(), text)) is not None:
            return chosen.then()
        if draft.what in ("mark", "confirm", "side") and (side := side_said(self.kb, draft, text)):
            return self.on(side) if draft.what == "side" else Move(replace(draft, side=side))
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
            return self.sided(replace(self.draft, sure=True))
        draft = redescribed(self.kb, self.draft, text)
        if draft is None:
            sized = self.sizes(replace(self.draft, text=text))
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
        return Move(replace(draft, what="confirm")) if self.sizes(draft) else self.sided(draft)

    def dropped(self) -> Outcome:
        """The description is given up."""
        return Move(DESCRIBE, (Line(phrases.LEFT_OUT),))

    def sided(self, draft: Asking) -> Outcome:
        """Place and mark are right; which side is asked where there are two."""
        if self.kb.zones[draft.zone].sided and not draft.side:
            return Move(replace(draft, what="side"))
        return self.record(draft)

    def on(self, side: str) -> Outcome:
        """The mark on this side, on both, or on one that nobody knows."""
        return self.record(replace(self.draft, side=side))

    def record(self, draft: Asking) -> Outcome:
        """The marks that were described become findings. Raises BadSurvey when they cannot be."""
        survey, says, backs, marks = self.state.survey, list[Message](), list[Edit](), list[str]()
        wrong = next((one for one in survey.findings if one.id == draft.mark), None)
        if wrong is not None:
            survey, back = apply_all(self.kb, survey, [RemoveFinding(wrong.id)])
            backs, says = [*back], [Line(phrases.told_instead(named(self.kb, wrong)))]
        for side in _sides(draft, sided=self.kb.zones[draft.zone].sided):
            found = (draft.zone, draft.sign, side)
            mark = next((one.id for one in survey.findings if (one.zone, one.sign, one.side) == found), None)
            if mark is None:
                adding = AddFinding(with_id(survey, Finding("", *found, note=draft.text)))
                survey, back = apply_all(self.kb, survey, [adding])
                backs, mark = [*back, *backs], adding.finding.id
            else:
                says.append(Line(phrases.ALREADY_THERE))
            if wrong is not None:
                survey, kept = carried_over(self.kb, survey, mark, wrong)
                backs = [*kept, *backs]
            survey, sized, told = self.measured(survey, mark, draft)
            backs, marks = [*sized, *backs], [*marks, mark]
            says += [line for line in told if line not in says]
        if len(marks) > 1:
            says.append(Line(phrases.TWO_MARKS))
        asking, standing = begun(self.kb, survey, marks[0], self.state.means)
        return Move(asking, (*says, *standing), survey, tuple(backs))

    def measured(self, survey: Survey, mark: str, draft: Asking) -> tuple[Survey, list[Edit], list[Message]]:
        """The sizes as readings of the mark; one that cannot be is left out and told."""
        backs: list[Edit] = []
        told: list[Message] = []
        for size in self.sizes(draft):
            edit = SetReading(mark, size.scale, reading_of(self.kb.scales[size.scale], size.answer))
            try:
                survey, back = apply_all(self.kb, survey, [edit])
            except BadSurvey as error:
                told.append(Line(phrases.size_left_out(error.problems[0].what, error.problems[0].hint)))
            else:
                backs = [*back, *backs]
        return survey, backs, told

    def sizes(self, draft: Asking) -> tuple[Meant, ...]:
        """The sizes in the words, as readings of the mark; none when they were left out."""
        return readings_meant(self.kb, draft.text, draft.zone, draft.sign) if draft.sized else ()

    def understood(self) -> Understood:
        """What was understood, to be shown before it is kept."""
        draft = self.draft
        place, mark = place_candidate(self.kb, draft.zone), mark_candidate(self.kb, draft.sign)
        sizes = self.sizes(draft)
        used = {size.said for size in sizes}
        left = tuple(one.said for one in understand(draft.text, self.kb).sizes if one.said not in used)
        return Understood(
            place.name,
            place.picture,
            mark.name,
            mark.picture,
            tuple(self.size(size) for size in sizes),
            tuple(phrases.size_not_judged(said) for said in left),
        )

    def size(self, size: Meant) -> str:
        """A size, what it is taken as, and what that means."""
        scale = self.kb.scales[size.scale]
        assert scale.measure is not None
        value = in_unit(size.quantity, scale.measure.unit)
        phrase = scale.words(scale.measure.level(value))
        return phrases.size_taken(size.said, value, scale.measure.unit, phrase, estimated=size.estimated)


def _ids(candidates: Sequence[Candidate]) -> tuple[str, ...]:
    return tuple(one.id for one in candidates)


def _sides(draft: Asking, *, sided: bool) -> Iterator[str | None]:
    """The sides it is on; a part on the centreline has none, whatever was said."""
    if sided and draft.side == "both":
        yield from ("port", "starboard")
    else:
        yield draft.side if sided and draft.side in ("port", "starboard") else None
