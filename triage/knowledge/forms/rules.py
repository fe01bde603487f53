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
    """One sentence of exactly one kind. A caution is said for what may be, the others for what is known."""

    caution: Text | None = None
    do: Text | None = None
    never: Text | None = None
    recheck: Text | None = None


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
    where it is known to hold, the upper bound is ``worst_at_least`` at these, and sentences of these kinds are said.
    """

    id: RuleId
    says: Text
    when: dict[str, Any] | Literal["always"]
    not_answered: list[str] | Literal["named checks"] = []
    at_least: Levels = {}
    worst_at_least: Levels = {}
    advises: list[Literal["caution", "do", "never", "recheck"]] = []
    because: Text
