"""Where the knowledge and the report templates are: beside a checkout, or inside an installed wheel."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Literal

_PACKAGE = Path(__file__).resolve().parent
_IN_CHECKOUT = {"rules": "rules", "templates": "reports/templates"}


def data_dir(kind: Literal["rules", "templates"]) -> Path:
    """The folder of ``kind``; the environment variable TRIAGE_RULES_DIR or TRIAGE_TEMPLATES_DIR overrides it.

    Raises FileNotFoundError when it is nowhere.
    """
    override = os.environ.get(f"TRIAGE_{kind.upper()}_DIR")
    candidates = [Path(override)] if override else [_PACKAGE / "_data" / kind]
    if not override and (_PACKAGE.parent / "pyproject.toml").is_file():
        candidates.insert(0, _PACKAGE.parent / _IN_CHECKOUT[kind])
    for candidate in candidates:
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"no {kind} folder at {', '.join(map(str, candidates))}")
