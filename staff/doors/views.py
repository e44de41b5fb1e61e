"""The pages at the door. They say as little as they can to who does not belong."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import SESSION_KEY
from django.contrib.auth import login as log_in
from django.contrib.auth import logout as log_out
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.models import User
from django.contrib.auth.views import LoginView, LogoutView
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render, resolve_url
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST

from staff.access import anybody_here
from staff.accounts.selectors import is_stale
from staff.doors import half, proof
from staff.models import Seat
from staff.seats import held
from staff.seats import services as seats
from staff.seats.answers import is_ours, page_of
from staff.seats.guard import Sitting, sitting
from staff.seats.state import State
from staff.second.selectors import has_factor, recovery_codes_left
from staff.second.services import Taken, take_code
from staff.security import address_of


class DoorForm(AuthenticationForm):
    """Name and password. A one-time password that waited too long is refused like a wrong one."""

    def confirm_login_allowed(self, user: User) -> None:
        super().confirm_login_allowed(user)
        if is_stale(user):
            raise self.get_invalid_login_error()


class Login(LoginView):
    """Name and password; whoever has a second factor is asked for a code before they are in."""

    authentication_form = DoorForm

    def get(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        """A locked desk is unlocked, not logged into a second time."""
        found = sitting(request)
        if found is not None and found.state is State.LOCKED:
            asked = urlencode({"next": self.get_redirect_url()}, safe="/")
            return redirect(f"{reverse('unlock')}?{asked}")
        return super().get(request, *args, **kwargs)

    def form_valid(self, form: AuthenticationForm) -> HttpResponse:
        person, then = form.get_user(), self.get_success_url()
        if SESSION_KEY in self.request.session:
            log_out(self.request)  # who sat here before is gone, whoever comes
        if has_factor(person):
            half.begin(self.request, person, person.backend, then)
            return redirect("second")
        log_in(self.request, person)
        return redirect(then)


class Logout(LogoutView):
    """The end of a login. The browser forgets the pages it has seen, for whoever sits here next."""

    def post(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        answer = super().post(request, *args, **kwargs)
        answer["Clear-Site-Data"] = '"cache"'
        return answer


@sensitive_post_parameters("code")
@never_cache
def second(request: HttpRequest) -> HttpResponse:
    """The code after the password. Until it is given nobody is logged in."""
    found = half.read(request)
    if found is None:
        half.forget(request)
        return redirect("login")
    person, backend, then = found
    if request.method != "POST":
        return render(request, "registration/second.html")
    taken = take_code(person, request.POST.get("code", ""), address=address_of(request))
    if not taken.is_right:
        context = {"said": proof.CODE_SAID[taken]}
        return render(request, "registration/second.html", context, status=422)
    half.forget(request)
    request.second_given = True  # type: ignore[attr-defined]
    log_in(request, person, backend=backend)
    if taken is Taken.RECOVERY:
        messages.warning(request, _codes_left(recovery_codes_left(person)))
    return redirect(then)


def _codes_left(count: int) -> str:
    left = ngettext("{n} recovery code is left.", "{n} recovery codes are left.", count)
    return left.format(n=count) + " " + _("Make new ones on your account's page in time.")


@sensitive_post_parameters("password", "code")
@never_cache
def unlock(request: HttpRequest) -> HttpResponseBase:
    """A locked desk: the password, or a code, and one is back where one was."""
    found, then = sitting(request), _then(request)
    if found is None or found.seat is None or found.state is State.ENDED:
        return redirect(f"{reverse('login')}?{urlencode({'next': then}, safe='/')}")
    if found.state is not State.LOCKED:
        return redirect(then)
    context = _unlock_page(request, found, then)
    if request.method != "POST":
        return render(request, "registration/unlock.html", context)
    if said := _unlock_fault(request, found.seat):
        return render(request, "registration/unlock.html", {**context, "said": said}, status=422)
    seats.unlock(found.seat, address=address_of(request))
    request.session.cycle_key()  # the CSRF token stays: forms that are open elsewhere still hold
    return redirect("unlock-held") if held.held(request) else redirect(then)


def _unlock_page(request: HttpRequest, found: Sitting, then: str) -> dict[str, Any]:
    return {
        "name": found.seat.user.get_username() if found.seat else "",
        "next": then,
        "switch": f"{reverse('login')}?{urlencode({'next': then}, safe='/')}",
        "sent": request.POST.get("sent", request.GET.get("sent", "")),
        "has_second": found.has_second,
        "minutes": settings.DESK_LOCK_MINUTES,
    }


def _unlock_fault(request: HttpRequest, seat: Seat) -> str:
    """Why it stays locked, in words; "" when it may open."""
    if code := request.POST.get("code", "").strip():
        return proof.code_fault(request, seat.user, code)
    right = proof.knows_password(request, seat.user, request.POST.get("password", ""))
    return "" if right else proof.NOT_YOURS


def _then(request: HttpRequest) -> str:
    then = request.POST.get("next", request.GET.get("next", ""))
    return then if then and is_ours(then, request) else resolve_url(settings.LOGIN_REDIRECT_URL)


@anybody_here
@never_cache
def unlock_held(request: HttpRequest) -> HttpResponse:
    """What was sent to the locked desk: shown, and sent on by the browser when asked to."""
    found = held.held(request)
    if found is None:
        return redirect(settings.LOGIN_REDIRECT_URL)
    if request.method != "POST":
        shown = [(_told(name), value) for name, value in found["pairs"] if value and _is_told(name)]
        return render(request, "registration/held.html", {"held": found, "shown": shown})
    held.drop(request)
    if "held-dropped" in request.POST:
        return redirect(settings.LOGIN_REDIRECT_URL)
    answer = redirect(found["to"])
    answer.status_code = 307  # the browser sends the same form to where it was going
    return answer


def _is_told(name: str) -> bool:
    """Whether a box means something to its reader."""
    return not name.endswith(("seen", "changed", "next", "based_on", "key"))


def _told(name: str) -> str:
    """A box's name as words: ``make-full_name`` is the full name."""
    return name.rsplit("-", 1)[-1].replace("_", " ").replace(".", " ")


@require_POST
def lock(request: HttpRequest) -> HttpResponse:
    """Lock this desk now; its person stays logged in behind the lock."""
    found = sitting(request)
    if found is not None and found.seat is not None:
        seats.lock(found.seat.pk)
    asked = urlencode({"next": page_of(request)}, safe="/")
    return redirect(f"{reverse('unlock')}?{asked}")
