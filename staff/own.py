"""One's own account: where one is logged in, password, second factor."""

from __future__ import annotations

from typing import Any, cast

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST, require_safe

from staff.access import anybody_here
from staff.accounts import forms
from staff.accounts import services as accounts
from staff.accounts.selectors import group_of
from staff.seats import services as seats
from staff.seats.guard import seat_number, sitting
from staff.seats.selectors import open_seats
from staff.seats.show import seat_rows
from staff.seats.state import State
from staff.second import selectors, totp
from staff.second import services as second
from staff.second.secrets import secrets_of
from staff.second.square import square


def _me(request: HttpRequest) -> User:
    return cast(User, request.user)


@anybody_here
@require_safe
def account(request: HttpRequest) -> HttpResponse:
    """Who one is here, and where one is logged in."""
    me = _me(request)
    context = {
        "group": group_of(me),
        "factor": selectors.factor_of(me),
        "left": selectors.recovery_codes_left(me),
        "seats": seat_rows(open_seats(me), seat_number(request)),
    }
    return render(request, "staff/me.html", context)


@anybody_here
@sensitive_post_parameters("proof", "new", "again")
@never_cache
def password(request: HttpRequest) -> HttpResponse:
    """A new password. Every other login of this person is ended by it."""
    form = forms.OwnPasswordForm(request, request.POST or None)
    if request.method == "POST" and form.is_valid():
        me = _me(request)
        accounts.change_own_password(
            person=me, password=form.cleaned_data["new"], seat=seat_number(request)
        )
        update_session_auth_hash(request, me)  # this login goes on, under a new key
        messages.success(request, _("Your password is changed. All your other logins are ended."))
        return redirect("my-account")
    context = {"form": form, "is_led": _is(request, State.MUST_CHANGE)}
    return render(request, "staff/password.html", context, status=422 if form.errors else 200)


def _is(request: HttpRequest, state: State) -> bool:
    found = sitting(request)
    return found is not None and found.state is state


@anybody_here
@require_POST
def end_session(request: HttpRequest, seat: int) -> HttpResponse:
    """End one of one's own logins."""
    if seats.end(seat, person=_me(request), why="ended by the person"):
        messages.success(request, _("That login is ended."))
    return redirect("my-account")


@anybody_here
@require_POST
def end_others(request: HttpRequest) -> HttpResponse:
    """End all of one's own logins but this one."""
    seats.end_all(_me(request), why="ended by the person", but=seat_number(request))
    messages.success(request, _("All your other logins are ended."))
    return redirect("my-account")


@anybody_here
@sensitive_post_parameters("proof", "code")
@never_cache
def my_second(request: HttpRequest) -> HttpResponse:
    """Set the second factor up, change phone, make new recovery codes, or turn it off."""
    what = request.POST.get("what", "") if request.method == "POST" else ""
    if what == "confirm":
        return _confirm(request)
    if what in ("begin", "codes", "off"):
        return _proven(request, what)
    return _second_page(request)


def _confirm(request: HttpRequest) -> HttpResponse:
    """The first code of the new phone puts it in force; the codes on paper are shown once."""
    codes = second.confirm(_me(request), request.POST.get("code", ""))
    if not codes:
        return _second_page(request, said=_("This is not the code of that square. Try the next."))
    seat = seat_number(request)
    if seat is not None:
        seats.mark_second(seat)
    seats.end_all(_me(request), why="second factor changed", but=seat)
    request.session.cycle_key()
    return render(request, "staff/recovery.html", {"codes": codes, "is_new": True})


def _proven(request: HttpRequest, what: str) -> HttpResponse:
    """What needs the password, and a code where there is a second factor already."""
    me, factor = _me(request), selectors.factor_of(_me(request))
    form = forms.FactorForm(request, request.POST, prefix=what, is_on=factor.is_on)
    if not form.is_valid():
        return _second_page(request, tried=(what, form))
    if what == "begin":
        second.propose(me)
        return redirect("my-second")
    if what == "codes" and factor.is_on:
        codes = second.new_recovery_codes(me)
        return render(request, "staff/recovery.html", {"codes": codes})
    if what == "off" and not selectors.is_required_of(me):
        second.remove(me, by=me, why="turned off by the person")
        messages.success(request, _("Your second factor is turned off."))
    return redirect("my-account")


def _second_page(
    request: HttpRequest, said: str = "", tried: tuple[str, forms.FactorForm] | None = None
) -> HttpResponse:
    me, factor = _me(request), selectors.factor_of(_me(request))
    what, form = tried or ("", None)
    names = ("begin", "codes", "off") if factor.is_on else ("begin",)
    context: dict[str, Any] = {
        "factor": factor,
        "said": said,
        "is_led": _is(request, State.MUST_SET_UP),
        "is_required": selectors.is_required_of(me),
        "left": selectors.recovery_codes_left(me),
        "tried": form,
        "forms": {
            name: form
            if name == what
            else forms.FactorForm(request, prefix=name, is_on=factor.is_on)
            for name in names
        },
    }
    if selectors.is_proposed(factor, timezone.now()):
        context |= _shown_secret(factor.proposed, me)
    return render(request, "staff/second.html", context, status=422 if said or tried else 200)


def _shown_secret(salt: str, me: User) -> dict[str, Any]:
    secret = next(secrets_of(salt))
    side, path = square(
        totp.address_for(secret, person=me.get_username(), desk=str(settings.SHOP["name"]))
    )
    fours = " ".join(secret[at : at + 4] for at in range(0, len(secret), 4))
    return {"secret": fours, "side": side, "path": path}
