"""Checks drawn: in two little pictures what the hand does, and what there is then to see, hear or feel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from markupsafe import Markup

from triage.drawing.pen import Pen
from triage.drawing.svg import drawings, drawn


@dataclass(frozen=True)
class Scene:
    """One of the two pictures, and the few words under it."""

    says: str
    svg: Markup


def draw_check(check: str, name: str = "check") -> Sequence[Scene]:
    """The two pictures of a check; none of what is not drawn. ``name`` comes before every id."""
    if check not in _drawn():
        return ()
    frame = drawings().get_template("check.svg")
    return tuple(
        Scene(says, Markup(frame.render(id=f"{name}-{check}-{number}", number=number, says=says, body=body)))
        for number, (says, body) in enumerate(_bodies(check), start=1)
    )


@cache
def _bodies(check: str) -> tuple[tuple[str, str], tuple[str, str]]:
    """What is said under each picture, and what is in it."""
    own = drawings().get_template(f"checks/{check}.svg").make_module(Pen(f"check/{check}").tools())
    (doing, seeing), hand, outcome = (getattr(own, part) for part in ("says", "doing", "seeing"))
    return (doing, hand()), (seeing, outcome())


@cache
def _drawn() -> frozenset[str]:
    return drawn("checks")
