"""What a seat may do at a moment. Pure, but for the model it reads."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum

from staff.models import Seat

MINUTE = timedelta(minutes=1)


class State(StrEnum):
    """What stands between the person and the desk."""

    OPEN = "open"
    LOCKED = "locked"  # the password, or a code, opens it again
    MUST_CHANGE = "must change"  # a password of their own, before anything else
    MUST_SET_UP = "must set up"  # a second factor, before anything else
    ENDED = "ended"


@dataclass(frozen=True, slots=True)
class Terms:
    """How long a desk may stand idle before it locks, and how long a login lasts at most."""

    idle: timedelta
    longest: timedelta

    @property
    def stamp_every(self) -> timedelta:
        """How finely activity is kept: to the minute, finer where desks lock sooner."""
        return min(MINUTE, self.idle / 10)


def state_of(seat: Seat, now: datetime, terms: Terms) -> State:
    """The state of a seat as ``selectors.seat_of`` reads it: with its person and the rule."""
    factor = getattr(seat.user, "second", None)
    has_factor = factor is not None and factor.is_on
    if seat.ended_at or not seat.user.is_active or now - seat.since >= terms.longest:
        return State.ENDED
    if has_factor and not seat.second:  # half a login, or one from before it was set up
        return State.ENDED
    if seat.locked_at or now - seat.active_at >= terms.idle:
        return State.LOCKED
    account = getattr(seat.user, "desk_account", None)
    if account is not None and account.must_change:
        return State.MUST_CHANGE
    if not has_factor and getattr(seat, "must_have_second", False):
        return State.MUST_SET_UP
    return State.OPEN
