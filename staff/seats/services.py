"""Taking a seat, staying, locking, leaving. Each change is one conditional update."""

from __future__ import annotations

from datetime import datetime, timedelta
from importlib import import_module

from django.conf import settings
from django.contrib.auth.models import User
from django.utils import timezone

from staff.models import Seat
from staff.seats.selectors import terms
from staff.security import tell

KEPT = timedelta(days=90)  # ended seats, to look back at


def take_seat(person: User, *, address: str, browser: str, second: bool) -> Seat:
    """Somebody has logged in. Their seats that ended long ago are thrown away."""
    old = Seat.objects.filter(user=person, since__lt=timezone.now() - KEPT)
    old.delete()
    return Seat.objects.create(user=person, address=address, browser=browser[:300], second=second)


def stay(seat: Seat, now: datetime) -> None:
    """The person has done something. Kept to the minute, so that looking seldom writes."""
    if now - seat.active_at < terms().stamp_every:
        return
    # A desk that was locked meanwhile is not woken by a request that was already on its way.
    Seat.objects.filter(pk=seat.pk, locked_at=None, ended_at=None).update(active_at=now)


def lock(pk: int) -> None:
    """Lock one desk now."""
    if Seat.objects.filter(pk=pk, locked_at=None).update(locked_at=timezone.now()):
        tell("locked", seat=pk)


def unlock(seat: Seat, *, address: str) -> bool:
    """Open a locked desk; False when the login was ended meanwhile."""
    mine = Seat.objects.filter(pk=seat.pk, ended_at=None)
    opened = mine.update(locked_at=None, active_at=timezone.now())
    tell("unlocked", person=seat.user_id, address=address, seat=seat.pk)
    return bool(opened)


def mark_second(pk: int) -> None:
    """This login has given a code: it is a whole one."""
    Seat.objects.filter(pk=pk, ended_at=None).update(second=True)


def leave(pk: int) -> None:
    """Somebody has logged out, or left a locked desk to somebody else."""
    if Seat.objects.filter(pk=pk, ended_at=None).update(
        ended_at=timezone.now(), ended_why="logged out"
    ):
        tell("logout", seat=pk)


def end(pk: int, *, person: User, why: str) -> bool:
    """End one login of one person; False where it is over already or is not theirs."""
    mine = Seat.objects.filter(pk=pk, user=person, ended_at=None)
    if not mine.update(ended_at=timezone.now(), ended_why=why):
        return False
    tell("session-ended", person=person.pk, seat=pk, why=why.replace(" ", "-"))
    return True


def end_all(person: User, *, why: str, but: int | None = None) -> int:
    """End every login of one person, all but one where it is named; how many they were."""
    theirs = Seat.objects.filter(user=person, ended_at=None).exclude(pk=but or 0)
    count = theirs.update(ended_at=timezone.now(), ended_why=why)
    if count:
        tell("sessions-ended", person=person.pk, count=count, why=why.replace(" ", "-"))
    return count


def end_everybodys(*, why: str, database: str = "default") -> int:
    """End every login there is; how many they were."""
    now = timezone.now()
    count = Seat.objects.using(database).filter(ended_at=None).update(ended_at=now, ended_why=why)
    tell("sessions-ended", count=count, why=why.replace(" ", "-"))
    return count


def forget_old_sessions() -> None:
    """Throw away sessions that are over, and with them forms that were held and not sent."""
    import_module(settings.SESSION_ENGINE).SessionStore.clear_expired()
