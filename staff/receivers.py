"""What follows from a login, a logout and a refusal, whoever asked for it."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.contrib.auth.signals import user_logged_in, user_logged_out, user_login_failed
from django.dispatch import receiver
from django.http import HttpRequest

from staff.seats import services
from staff.seats.guard import SEAT
from staff.security import address_of, tell


@receiver(user_logged_in, dispatch_uid="staff.take_seat")
def take_seat(request: HttpRequest, user: User, **_rest: Any) -> None:
    """Every login has a seat; a session without one is nobody's."""
    second = getattr(request, "second_given", False)
    address, browser = address_of(request), request.META.get("HTTP_USER_AGENT", "")
    seat = services.take_seat(user, address=address, browser=browser, second=second)
    request.session[SEAT] = seat.pk
    request.session.set_expiry(settings.SESSION_HOURS * 3600)
    tell("login", person=user.pk, address=address, seat=seat.pk, second=second)


@receiver(user_logged_out, dispatch_uid="staff.leave_seat")
def leave_seat(request: HttpRequest, user: User | None, **_rest: Any) -> None:
    """The seat ends with the session, also where a locked desk is left to somebody else."""
    pk = request.session.get(SEAT)
    if pk:
        services.leave(pk)


@receiver(user_login_failed, dispatch_uid="staff.tell_refused")
def tell_refused(request: HttpRequest | None = None, **_rest: Any) -> None:
    """The name that was typed is not told: it may be a password."""
    tell("login-refused", address=address_of(request))
