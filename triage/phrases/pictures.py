"""What the pictures say: their titles, and in words whatever is told by hatching, shape or hue."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from textwrap import shorten

from triage.conclusions.assessment import Assessment, Job, Suspicion
from triage.conclusions.diagnosis import Story
from triage.conclusions.repairs import RepairAdvice
from triage.phrases.boat import story_part
from triage.phrases.jobs import headline, title
from triage.phrases.words import at_side, capital, counted, listed, span

THE_BOAT = "The boat"
VIEWS = {
    "deck": "The deck from above, bow up, port on the left, with the stern folded down behind it",
    "inside": "The inside from above, with the deck off",
    "under": "The underside, seen through her from above, so that port stays on the left",
    "rig": "Her side with the rig, the rig from behind, and what stays on land",
}
SHORT = {"deck": "deck", "inside": "inside, deck off", "under": "underneath, seen through", "rig": "rig and wheels"}
STANDS = {
    "not_looked": "not looked at",
    "seen": "looked at, not tried",
    "tried": "tried, and nobody could tell",
    "passed": "passed",
    "found": "a mark was found",
}
COUNTED = {**STANDS, "tried": "tried in vain", "seen": "looked at and not tried", "found": "with a mark"}
EXAMPLE = (((0, 2), "at first"), ((1, 2), "the lines start at a bolt"), ((1, 1), "a whole, dry pad behind it"))
EXAMPLE_IN_WORDS = "An example: each answer rules something out, until one verdict is left"
AT_FIRST = "at first"
COSTS = "What mending may cost"
LONGEST_SUM = 46
"""Letters that one line of a picture holds."""

NOT_CLEARED = "not cleared"
SUSPECTED = "not looked for yet, and suspected"


def stands(place: str, side: str | None, status: str) -> str:
    """A place with how it stands."""
    return f"{at_side(place, side)}: {STANDS[status]}"


def others(views: Iterable[tuple[str, int]]) -> str:
    """The other views, each with how many marks it shows."""
    told = (f"{name} ({counted(marks, 'marker')})" if marks else name for name, marks in views)
    return f"Other views: {'; '.join(told)}"


def where(place: str) -> str:
    """What a picture of a single place shows."""
    return f"Where it is: {place}"


def job_marker(number: int, job: Job, assessment: Assessment) -> str:
    """A marker of a job: its number, what it is and where, and what it comes to."""
    return f"{number}: {title(job, assessment)}. {headline(job, assessment)}"


def suspicion_marker(suspicion: Suspicion) -> str:
    """A marker where nobody has looked and something is suspected."""
    return f"{at_side(suspicion.place, suspicion.side)}: {SUSPECTED}: {suspicion.mark}"


def sum_of(number: int, job: Job, repair: RepairAdvice, *, paid: bool) -> str:
    """What a sum is for: the number and the place of the job, and who asks for it or what it buys."""
    each = f" for each {repair.per}" if repair.per else ""
    whose = f": {'repairer' if paid else 'materials'}{each}"
    room = LONGEST_SUM - len(f"{number} {whose}")
    return f"{number} {shorten(at_side(job.places[0].place, job.side), room, placeholder=' …')}{whose}"


def all_of_it(repairs: Iterable[RepairAdvice]) -> str:
    """What the sum of all sums is called."""
    return "all of it, one of each" if any(repair.per for repair in repairs) else "all of it"


def costs_in_words(sums: Iterable[tuple[str, float, float]]) -> str:
    """The picture of what mending may cost, for those who cannot see it."""
    return f"{COSTS}. {'; '.join(f'{says} {span((least, most))}' for says, least, most in sums)}."


def costs_note(repair: RepairAdvice, without: int) -> str:
    """What has to be known of the figures; ``without``: how many jobs have none."""
    lacking = f" For {counted(without, 'job')} there is no figure." if without else ""
    return f"In {repair.unit}, {repair.year}, from the least to the most. Ask for a quote.{lacking}"


def story_in_words(story: Story, assessment: Assessment) -> str:
    """The picture of a story, for those who cannot see it."""
    return f"{story.name}. {' '.join(story_part(part, assessment) for part in story.parts)}"


def suspected(places: Iterable[tuple[str, str | None]]) -> str:
    """Where something is suspected that nobody has looked for."""
    named = dict.fromkeys(at_side(place, side) for place, side in places)
    return f"? {capital(SUSPECTED)}: {'; '.join(named)}." if named else ""


def narrowing_in_words(best: str, worst: str) -> str:
    """A range as it stands, for those who cannot see it."""
    return f"As it stands: {best}." if best == worst else f"As it stands: between {best} and {worst}."


def counts(found: Mapping[str, int]) -> str:
    """How many places stand how, as one sentence."""
    told = [(number, COUNTED[status]) for status, number in found.items() if number]
    parts = [f"{number if rank else counted(number, 'place')} {how}" for rank, (number, how) in enumerate(told)]
    return f"{listed(parts)}." if parts else ""
