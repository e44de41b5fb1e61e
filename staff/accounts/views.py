"""The people of the desk: who they are, what they may do, and every change with its reason."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST, require_safe

from staff.access import accounts_required
from staff.accounts import forms, selectors, services, show
from staff.errors import Refused
from staff.seats import services as seats
from staff.second import services as second

# What may be done with an account: form, service, and what is said when it is done.
CHANGES: dict[str, tuple[type[forms.ReasonForm], Callable[..., str | None], Any]] = {
    "group": (forms.GroupForm, services.change_group, _("The group was changed.")),
    "password": (forms.ReasonForm, services.reset_password, ""),
    "second": (forms.ReasonForm, services.reset_second, _("The second factor was taken away.")),
    "close": (forms.ReasonForm, services.close_account, _("The account is closed.")),
    "reopen": (forms.ReasonForm, services.reopen_account, _("The account is open again.")),
}


def _me(request: HttpRequest) -> User:
    return cast(User, request.user)


def _person(pk: int) -> User:
    person = selectors.person(pk)
    if person is None:
        raise Http404
    return person


@accounts_required
@require_safe
def people(request: HttpRequest) -> HttpResponse:
    """Everybody who has an account, open or closed."""
    return render(request, "staff/people.html", show.people_page(request))


@accounts_required
@require_POST
@sensitive_post_parameters("proof")
@never_cache
def make(request: HttpRequest) -> HttpResponse:
    """A new account. Its one-time password is shown in this answer and never again."""
    form = forms.PersonForm(request, request.POST, prefix="make")
    if form.is_valid():
        given = {name: form.cleaned_data[name] for name in ("name", "full_name", "group", "why")}
        try:
            person, told = services.open_account(by=_me(request), **given)
        except Refused as refusal:
            form.add_error("name", str(refusal))
        else:
            return _told(request, person, told)
    return render(request, "staff/people.html", show.people_page(request, make=form), status=422)


def _told(request: HttpRequest, person: User, told: str) -> HttpResponse:
    days = services.ONE_TIME_HOLDS.days
    context = {"person": person, "told": told, "days": days}
    return render(request, "staff/one_time.html", context)


@accounts_required
@require_safe
def person(request: HttpRequest, pk: int) -> HttpResponse:
    """One account: what it may do, where it is logged in, what was changed and why."""
    return render(request, "staff/person.html", show.person_page(request, _person(pk)))


@accounts_required
@require_POST
@sensitive_post_parameters("proof")
@never_cache
def change(request: HttpRequest, pk: int, what: str) -> HttpResponse:
    """One change of one account, with its reason and the manager's own password."""
    if what not in CHANGES:
        raise Http404
    form_class, service, done = CHANGES[what]
    one, form = _person(pk), form_class(request, request.POST, prefix=what)
    if form.is_valid():
        given = {name: text for name, text in form.cleaned_data.items() if name != "proof"}
        try:
            told = service(person=one, by=_me(request), **given)
        except Refused as refusal:
            form.add_error(None, str(refusal))
        else:
            if told:
                return _told(request, one, told)
            messages.success(request, str(done))
            return redirect("staff-person", pk=pk)
    context = show.person_page(request, _person(pk), tried=(what, form))
    return render(request, "staff/person.html", context, status=422)


@accounts_required
@require_POST
def end_session(request: HttpRequest, pk: int, seat: int) -> HttpResponse:
    """End one login of somebody else's."""
    if seats.end(seat, person=_person(pk), why="ended by a manager"):
        messages.success(request, _("That login is ended."))
    return redirect("staff-person", pk=pk)


@accounts_required
@require_POST
@sensitive_post_parameters("proof")
@never_cache
def require_second(request: HttpRequest) -> HttpResponse:
    """Ask a second factor of everyone, of some groups, or of nobody."""
    form = forms.RuleForm(request, request.POST, prefix="rule")
    if form.is_valid():
        data = form.cleaned_data
        try:
            second.require(
                everyone=data["asked"] == "everyone",
                groups=data["groups"] if data["asked"] == "groups" else [],
                by=_me(request), why=data["why"], seen=data["seen"],
            )  # fmt: skip
        except Refused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, _("From now on the second factor is asked of whom you said."))
            return redirect("staff-people")
    return render(request, "staff/people.html", show.people_page(request, rule=form), status=422)
