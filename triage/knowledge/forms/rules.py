"""The shape of rules, presumptions and promises."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from triage.knowledge.forms.atoms import BasisKind, Levels, RuleId, Text, YesNo
from triage.parsing.forms import Form


class SuspectForm(Form):
    """A mark, not yet looked for, that people are sent to."""

    zone: str
    sign: str


class AdviceForm(Form):
    """One sentence of exactly one kind. A caution is said for what may be, the others for what is known.

    ``weeks``: how many after the visit a recheck is due.
    """

    caution: Text | None = None
    do: Text | None = None
    never: Text | None = None
    recheck: Text | None = None
    weeks: float | None = Field(default=None, gt=0, le=104)


class CaseForm(Form):
    """Findings by their words and levels, and whether the rule fires; lists stand for every combination."""

    given: dict[str, Any] = Field(min_length=1)
    expect: Literal["fires", "silent"]


class RuleForm(Form):
    """When the condition holds: raise derived scales, suspect marks or advise; or presume, which does nothing else.

    ``cases`` hold one that fires and one that stays silent. ``published`` needs a ``source`` and ``where`` in it.
    """

    id: RuleId
    when: dict[str, Any] | Literal["always"]
    raises: Levels = {}
    suspects: list[SuspectForm] = []
    advises: list[AdviceForm] = []
    presumes: Levels = {}
    because: Text
    basis: BasisKind
    source: str = ""
    where: str = ""
    by_analogy: YesNo | None = None
    cases: list[CaseForm] = Field(min_length=1)


class PromiseForm(Form):
    """What must hold of every survey; ``triage rules prove`` proves it.

    Whenever ``when`` holds and none of ``not_answered`` has been answered, scales are ``at_least`` at these levels; and
    where it is known to hold, the upper bound is ``worst_at_least`` at these, the lower one of a finding by itself
    ``at_most`` at these, and sentences of these kinds are said. ``answered: well`` speaks only of findings with no
    answer worse than the best, ``speaks_of: suspicions`` only of what rules send people to look for.
    """

    id: RuleId
    says: Text
    when: dict[str, Any] | Literal["always"]
    not_answered: list[str] | Literal["named checks", "passing checks"] = []
    answered: Literal["anyhow", "well"] = "anyhow"
    speaks_of: Literal["findings", "suspicions"] = "findings"
    at_least: Levels = {}
    worst_at_least: Levels = {}
    at_most: Levels = {}
    advises: list[Literal["caution", "do", "never", "recheck"]] = []
    because: Text
