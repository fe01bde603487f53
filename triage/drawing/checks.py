"""Checks drawn: in two little pictures what the hand does, and what there is then to see, hear or feel."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from triage.drawing.pen import Pen
from triage.drawing.svg import drawings


@dataclass(frozen=True)
class Scene:
    """One of the two pictures, and the few words under it."""

    says: str
    svg: Markup


def draw_check(check: str) -> tuple[Scene, Scene]:
    """The two pictures of a check. Raises jinja2.TemplateNotFound when it is not drawn."""
    own = drawings().get_template(f"checks/{check}.svg").make_module(Pen(f"check/{check}").tools())
    frame = drawings().get_template("check.svg")

    def scene(number: int, says: str, body: str) -> Scene:
        return Scene(says, Markup(frame.render(id=f"check-{check}-{number}", number=number, says=says, body=body)))

    (doing, seeing), hand, outcome = (getattr(own, name) for name in ("says", "doing", "seeing"))
    return scene(1, doing, hand()), scene(2, seeing, outcome())
