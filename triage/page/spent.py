"""Words of the knowledge of which everything was made beforehand; the page does not carry them a second time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NoReturn


class Spent(Mapping[str, Any]):
    """Stands for what is not there. Whoever still wants it is told so, and never given nothing instead."""

    def __getitem__(self, key: str) -> NoReturn:
        self._gone()

    def __iter__(self) -> Iterator[str]:
        self._gone()

    def __len__(self) -> int:
        self._gone()

    def _gone(self) -> NoReturn:
        raise RuntimeError("These words were left out of the page: have page/beforehand make what is wanted of them.")
