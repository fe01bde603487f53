"""How a finding is mended, as the rules have it: the kind of work, who does it, and what it may cost."""

from __future__ import annotations

from dataclasses import dataclass

from triage.knowledge.model import Basis


@dataclass(frozen=True)
class RepairAdvice:
    """How a finding is mended: the kind of work and no recipe.

    ``hours`` of work, ``materials`` for an owner and what a ``repairer`` asks in all run from the least to the most,
    each for one of ``per``; money is in ``unit`` of ``year``. None means that there is no figure. ``who`` names the
    level of hands that it needs, ``who_role`` the role of that level.
    """

    id: str
    name: str
    who: str
    who_role: str
    outline: tuple[str, ...]
    workshop: tuple[str, ...]
    hours: tuple[float, float] | None
    materials: tuple[float, float] | None
    repairer: tuple[float, float] | None
    per: str
    wait: str
    year: int | None
    unit: str
    note: str
    meanwhile: str
    holding: str
    hazards: tuple[str, ...]
    stop_when: tuple[str, ...]
    basis: Basis

    @property
    def is_work(self) -> bool:
        """Whether anything is mended: what takes neither hours nor money is a matter of asking."""
        return any((self.hours, self.materials, self.repairer))
