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


@dataclass(frozen=True, slots=True)
class Found:
    """A seat with its person, and what is asked of them: all that decides."""

    seat: Seat
    must_change: bool
    has_second: bool
    must_have_second: bool


def state_of(found: Found, now: datetime, terms: Terms) -> State:
    """What a seat may do now. Ended comes before locked, locked before duties."""
    seat = found.seat
    if seat.ended_at or not seat.user.is_active or now - seat.since >= terms.longest:
        return State.ENDED
    if found.has_second and not seat.second:  # half a login, or one from before it was set up
        return State.ENDED
    if seat.locked_at or now - seat.active_at >= terms.idle:
        return State.LOCKED
    if found.must_change:
        return State.MUST_CHANGE
    if found.must_have_second and not found.has_second:
        return State.MUST_SET_UP
    return State.OPEN
