"""Drawings that carry their style themselves, for makers of PDF that give a page's style to no drawing in it.

A page never has them so: its content policy would forbid it.
"""

from __future__ import annotations

import re
from functools import cache

from triage.drawing.svg import style_sheet

_DRAWING = re.compile(r'<svg\b[^>]*\bclass="drawn\b[^>]*>')
_RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")
_AT_RULE = re.compile(r"@[^{]+\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}")
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_OWN = re.compile(r"--([\w-]+):\s*([^;]+);?")
_USED = re.compile(r"var\(--([\w-]+)\)")


def with_style(page: str) -> str:
    """The page with the style of drawings inside each of them."""
    return _DRAWING.sub(lambda found: f"{found[0]}<style>{plain_style()}</style>", page)


@cache
def plain_style() -> str:
    """The style sheet in the colours of daylight, without what only browsers know: variables, media, halos of text."""
    sheet = _AT_RULE.sub("", _COMMENT.sub("", style_sheet()))
    rules = [(selector.strip(), body) for selector, body in _RULE.findall(sheet)]
    colours = dict(_OWN.findall(next(body for selector, body in rules if selector == ".drawn")))
    plain = [(selector, _known(_OWN.sub("", body), colours)) for selector, body in rules]
    return "".join(f"{selector}{{{body}}}" for selector, body in plain if body)


def _known(body: str, colours: dict[str, str]) -> str:
    """The declarations of a rule with colours for variables; a halo that would be drawn over its text is left out."""
    declarations = [part.strip() for part in body.split(";") if part.strip()]
    if any(part.startswith("paint-order") for part in declarations):
        declarations = [part for part in declarations if not part.startswith(("stroke", "paint-order"))]
    return _USED.sub(lambda found: colours[found[1]], ";".join(declarations))
