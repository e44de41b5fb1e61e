"""Who sits at this screen, and what stands between them and the desk.

Closed unless open: ``request.user`` is somebody only while their seat is open. Locked, half
logged in, ended: nobody, on every page, whatever it is that asks.
"""

from __future__ import annotations

from dataclasses import dataclass

from django.conf import settings
from django.contrib.auth import HASH_SESSION_KEY, SESSION_KEY
from django.contrib.auth.middleware import AuthenticationMiddleware
from django.contrib.auth.models import AnonymousUser, User
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.crypto import constant_time_compare
from django.utils.functional import SimpleLazyObject

from staff.models import Seat
from staff.seats import answers, selectors, services
from staff.seats.state import State, state_of

SEAT = "seat"  # in the session
# Where a person may go who must first change the password or set up a second factor.
FIRST = {
    State.MUST_CHANGE: ("my-password", frozenset({"my-password", "logout"})),
    State.MUST_SET_UP: ("my-second", frozenset({"my-second", "logout"})),
}


@dataclass(frozen=True, slots=True)
class Sitting:
    """A login as this request finds it."""

    seat: Seat | None
    state: State
    has_second: bool = False


class SeatMiddleware(AuthenticationMiddleware):
    """In the place of Django's own: one query, which also knows locks, ends and duties."""

    def process_request(self, request: HttpRequest) -> None:
        """Nothing is read until somebody asks: customers' pages cost nothing more."""
        request.user = SimpleLazyObject(lambda: _who(request))  # type: ignore[assignment]

    def process_view(
        self, request: HttpRequest, view: object, args: object, kwargs: object
    ) -> HttpResponse | None:
        """Lead a person at a staff page to what comes first, or note that they are here."""
        if not request.path_info.startswith(settings.STAFF_PAGES):
            return None
        found = sitting(request)
        if found is None:
            return None  # nobody: the view itself asks for a login
        if found.state is State.OPEN and found.seat is not None:
            if not is_background(request):
                services.stay(found.seat, timezone.now())
            return None
        if found.state in FIRST and _name(request) in FIRST[found.state][1]:
            return None
        return answers.turned_away(request, found.state, FIRST.get(found.state, ("",))[0])

    def process_response(self, request: HttpRequest, response: HttpResponse) -> HttpResponse:
        """What the staff sees is kept nowhere: the next one at the desk may be somebody else."""
        kept = response.get("Cache-Control", "")
        if request.path_info.startswith(settings.STAFF_PAGES) and "no-store" not in kept:
            response["Cache-Control"] = "no-store, private"
        return response


def sitting(request: HttpRequest) -> Sitting | None:
    """The login of this request, read once; None where nobody has logged in."""
    if not hasattr(request, "_sitting"):
        request._sitting = _sitting(request)  # type: ignore[attr-defined]
    found: Sitting | None = request._sitting  # type: ignore[attr-defined]
    return found


def _sitting(request: HttpRequest) -> Sitting | None:
    session = request.session
    if SESSION_KEY not in session:
        return None
    found = selectors.seat_of(session.get(SEAT) or 0, int(session[SESSION_KEY]))
    if found and _still_holds(found.seat.user, session.get(HASH_SESSION_KEY, "")):
        state = state_of(found, timezone.now(), selectors.terms())
        if state is not State.ENDED:
            return Sitting(found.seat, state, found.has_second)
    session.flush()
    return Sitting(None, State.ENDED)


def _still_holds(person: User, kept: str) -> bool:
    """Whether the password is the one the login was made with."""
    now = (person.get_session_auth_hash(), *person.get_session_auth_fallback_hash())
    return any(constant_time_compare(kept, each) for each in now)


def _who(request: HttpRequest) -> User | AnonymousUser:
    found = sitting(request)
    if found is None or found.seat is None:
        return AnonymousUser()
    is_led = found.state in FIRST and _name(request) in FIRST[found.state][1]
    return found.seat.user if found.state is State.OPEN or is_led else AnonymousUser()


def _name(request: HttpRequest) -> str:
    match = request.resolver_match
    return (match.url_name or "") if match is not None else ""


def is_background(request: HttpRequest) -> bool:
    """Whether a page asks by itself: marked so, or one of BACKGROUND_PAGES. No sign of a person."""
    return "X-Background" in request.headers or _name(request) in settings.BACKGROUND_PAGES


def seat_number(request: HttpRequest) -> int | None:
    """The number of the seat this request comes from."""
    found = sitting(request)
    return found.seat.pk if found is not None and found.seat is not None else None
