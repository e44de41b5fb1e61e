"""What every test may ask for. People, parts and sheets are in tests/given.py."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest


@pytest.fixture
def do_jobs() -> Callable[[], int]:
    """Do all work that is due, as the job thread would: ``do_jobs()``."""
    from intake.jobs import drain

    return drain


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    """A page leaves its language behind in this thread; the next test begins as a server does."""
    yield
    from django.utils import translation

    translation.deactivate()
