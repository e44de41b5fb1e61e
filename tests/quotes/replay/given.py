"""Replays for tests: asked for, and done in this process."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from django.contrib.auth.models import User
from django.utils import timezone

from intake.jobs import drain
from quotes.replay import selectors, services
from quotes.replay.models import Replay

TIGHT = {"fit_ask": "0.999"}


def asked(by: User, key: str = "one", **typed: Any) -> Replay:
    """A replay of the last year, asked for."""
    today = timezone.localdate()
    what = services.Asked(
        name=f"Replay {key}",
        first_day=today - timedelta(days=365),
        last_day=today,
        typed=typed,
    )
    return services.ask_replay(asked=what, by=by, ask_key=key)


def done(replay: Replay) -> Replay:
    """The same, carried to its end."""
    while fresh(replay).goes_on and drain():
        pass
    return fresh(replay)


def fresh(replay: Replay) -> Replay:
    """The replay as it is now."""
    found = selectors.replay_of(replay.pk)
    assert found is not None
    return found
