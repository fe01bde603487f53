"""Gear that is renewed mends the damage at its places: of the two, one is paid for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from triage.buying.price_lines import QUOTED, PriceLine
from triage.knowledge.model.purchase import Gear


def paid_once(lines: Sequence[PriceLine], known: Mapping[str, Gear]) -> tuple[PriceLine, ...]:
    """The lines without what is paid for in another one: damage at gear that is missing or spent, or that gear where
    mending is dearer than a new one, so that telling more makes nothing cheaper. A quote stands by itself.
    """
    left = list(lines)
    for one in _renewed(lines):
        mended = [line for line in left if _is_mended_by(line, known[one.gear])]
        if sum(line.mean for line in mended) > one.mean:
            left.remove(one)
        elif mended:
            with_them = replace(one, takes_in=tuple(line.name for line in mended))
            left = [with_them if line is one else line for line in left if line not in mended]
    return tuple(left)


def _renewed(lines: Sequence[PriceLine]) -> Iterator[PriceLine]:
    yield from (line for line in lines if line.kind in ("missing", "spent"))


def _is_mended_by(line: PriceLine, gear: Gear) -> bool:
    damage = line.kind in ("mending", "risk") and not line.rests_on.startswith(QUOTED)
    return damage and set(line.zones) <= set(gear.at)
