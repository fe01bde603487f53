"""The calibration of a class as a picture."""

from __future__ import annotations

from markupsafe import Markup

from triage.drawing.reliability import Reliable, draw_reliability
from triage.drawing.self_contained import with_style
from triage.phrases import marking as phrases
from triage.teaching.marking import MarkedClass


def reliability_picture(marked: MarkedClass) -> str:
    """How often the class was right, by how sure it was, as SVG with its own style."""
    return with_style(str(reliability_drawn(marked)))


def reliability_drawn(marked: MarkedClass) -> Markup:
    """The same for a page that has the style of drawings."""
    bands = [
        Reliable(one.confidence, one.right.value, one.right.low or 0.0, one.right.high or 0.0, one.right.n)
        for one in marked.bins
    ]
    says = phrases.reliability([(one.said, one.right, one.n) for one in bands])
    return draw_reliability(bands, says, phrases.ALONG, phrases.UP)
