"""Replays are judged in the test's own process unless a test says otherwise."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from quotes.replay.handlers import crew


@pytest.fixture(autouse=True)
def _one_process(settings: Any) -> Iterator[None]:
    settings.REPLAY_PROCESSES = 0
    crew.cache_clear()
    yield
    crew().end()
    crew.cache_clear()
