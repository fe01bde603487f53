"""What a trainer is told about a class: figures with how sure they are, in words for small classes."""

from __future__ import annotations

from collections.abc import Sequence

from triage.phrases.words import counted

WIDE, ROUGH = 0.4, 0.2
"""From which width of an interval on a share says next to nothing, or is only rough."""

NO_RUNS = "Nobody has judged a case in this class yet."
AGAIN = "Every figure takes each verdict for a fresh one; the same few learners make it less sure than it looks."
EASY = {
    "too easy": "everybody was right: it tells learners nothing apart",
    "too hard": "nobody was right: the lesson has to come first, or the key is wrong",
    "misleading": "most were wrong and sure of it: talk about this one first",
}


def percent(value: float) -> str:
    """A share in percent."""
    return f"{100 * value:.0f}%"


def how_sure(width: float, n: int) -> str:
    """What an interval of this width is good for."""
    if width >= WIDE:
        return f"{counted(n, 'verdict')} {'says' if n == 1 else 'say'} next to nothing yet"
    if width >= ROUGH:
        return f"{counted(n, 'verdict')} tell it only roughly"
    return f"from {counted(n, 'verdict')}"


def share(what: str, value: float, low: float | None, high: float | None, n: int) -> str:
    """A share with its interval: likely between these, and how much that is worth."""
    if low is None or high is None:
        return f"{what}: {percent(value)}; {counted(n, 'verdict')}, too few or too much alike for an interval."
    return f"{what}: {percent(value)}, likely {percent(low)} to {percent(high)}; {how_sure(high - low, n)}."


def figure(what: str, value: float, low: float | None, high: float | None, n: int) -> str:
    """A figure that is no share, with its interval."""
    if low is None or high is None:
        return f"{what}: {value:.2f}; {counted(n, 'verdict')}, too few or too much alike for an interval."
    return f"{what}: {value:.2f}, likely {low:.2f} to {high:.2f}; {how_sure(high - low, n)}."


def nothing(what: str, why: str) -> str:
    """A figure that cannot be told, and why."""
    return f"{what}: {why}."


def of_all(what: str, found: int, of: int) -> str:
    """A share as a plain count."""
    return f"{what}: {found} of {of}."


def held_open(number: int) -> str:
    """How many verdicts were that it is not cleared."""
    return f"Held open: {number}."


def practised(tries: int, right: int) -> str:
    """Cases that were played again, which no figure counts."""
    again = "Played again, which counts as practice and in no figure"
    return f"{again}: {tries}, of which {right} right."


def fleiss(value: float) -> str:
    """Agreement where everybody judged the same cases."""
    return f"The same on the cases that all have judged (Fleiss' kappa): {value:.2f}."


def missed(missed: int, called_fine: int) -> str:
    """What weighs most: structural marks that were called milder."""
    if not missed:
        return "No structural mark was called milder than it is."
    fine = f", {called_fine} of them mere looks" if called_fine else ""
    was = "structural mark was" if missed == 1 else "structural marks were"
    return f"{missed} {was} called milder than {'it is' if missed == 1 else 'they are'}{fine}: talk about these first."


def bin_line(low: int, high: int, confidence: float, right: float, n: int) -> str:
    """How often learners were right who were about so sure."""
    said = f"{low} to {high}% sure: right {percent(right)} of the time"
    return f"{said}, said {percent(confidence)} ({counted(n, 'verdict')})"


def calibration(off: float, said: float, right: float) -> str:
    """Whether learners are as often right as they say."""
    if abs(said - right) < 0.05:  # a difference of a few percent is nothing that anybody means
        lean = "they are right about as often as they say"
    else:
        lean = "they are surer than they are right" if said > right else "they are right more often than they say"
    return f"Brier score {off:.2f} (0 is best; who always says 50% has 0.25): {lean}."


def change(before: float, after: float, low: float, high: float, n: int) -> str:
    """What a lesson may have changed."""
    said = f"Right before: {percent(before)}; after: {percent(after)}."
    likely = f"{100 * low:+.0f} to {100 * high:+.0f} points, {how_sure(high - low, n)}."
    return f"{said} {'That may be chance: likely' if low <= 0 <= high else 'Likely'} {likely}"


def reliability(bins: Sequence[tuple[float, float, int]]) -> str:
    """The picture of calibration in words: said, came true, of how many."""
    told = "; ".join(f"said {percent(said)}, right {percent(right)} of {n}" for said, right, n in bins)
    return f"How often learners were right, by how sure they were. {told or 'Nothing yet'}."


ALONG, UP = "how sure they said they were", "how often they were right"
