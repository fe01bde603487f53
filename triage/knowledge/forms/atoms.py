"""What forms are made of: names, texts, levels as they may be written, and where a statement comes from."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

Id = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$")]
RuleId = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*(/[a-z0-9]+(-[a-z0-9]+)*)+$")]
Text = Annotated[str, StringConstraints(min_length=1, strip_whitespace=True)]
YesNo = Literal["yes", "no"]
Fraction = Annotated[float, Field(gt=0, lt=1)]
Parts = Annotated[float, Field(ge=0)]
BasisKind = Literal["common practice", "estimate", "published"]
LevelSaid = int | str
Levels = dict[str, LevelSaid]
