"""From the words of an offer to the text of an offer file."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import yaml

from triage.files import write_whole


def write_offer(entries: Mapping[str, Any], file: Path) -> None:
    """Write an offer to a file, whole or not at all."""
    write_whole(file, yaml.safe_dump({"offer": 1, **entries}, allow_unicode=True, sort_keys=False, width=110))
