"""The tables over which the tests of the readers run."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any


def rows_of(test: Callable[..., Any]) -> Iterator[tuple[Any, ...]]:
    """Every row of a test's ``parametrize``."""
    for mark in getattr(test, "pytestmark", ()):
        yield from (row if isinstance(row, tuple) else (row,) for row in mark.args[1])
