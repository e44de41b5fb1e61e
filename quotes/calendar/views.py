"""The shop's calendar: everybody here may look, whoever may close days may change it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from intake.access import needs, staff_required
from quotes.calendar import selectors, services
from quotes.calendar.forms import CloseForm, WeekForm
from quotes.domain.calendar import CalendarError, week_words

LOOK_BACK = timedelta(days=31)
may_close = needs("intake.view_submission", "quotes.add_closedday")


@staff_required
@require_safe
def calendar(request: HttpRequest) -> HttpResponse:
    """The week, the closed days to come and those of the last month."""
    return _page(request)


@may_close
@require_POST
def close(request: HttpRequest) -> HttpResponse:
    """Close a day or several."""
    form = CloseForm(request.POST, auto_id="close-%s")
    if not form.is_valid():
        return _page(request, close=form, status=400)
    try:
        count = services.close_days(by=cast("User", request.user), **form.cleaned_data)
    except CalendarError as error:
        form.add_error("last" if form.cleaned_data["last"] else "first", str(error))
        return _page(request, close=form, status=400)
    said = f"{count} day{'' if count == 1 else 's'} closed." if count else "Closed already."
    messages.success(request, said)
    return redirect("calendar")


@may_close
@require_POST
def reopen(request: HttpRequest) -> HttpResponse:
    """Take closed days away again."""
    days = [day for text in request.POST.getlist("day") if (day := _day(text))]
    if not days:
        messages.error(request, "Tick the days that are to be open again.")
        return _page(request, status=400)
    count = services.open_days(days=days, by=cast("User", request.user))
    messages.success(request, f"{count} day{'' if count == 1 else 's'} open again.")
    return redirect("calendar")


@may_close
@require_POST
def week(request: HttpRequest) -> HttpResponse:
    """Choose the weekdays that are worked."""
    form = WeekForm(request.POST, auto_id="week-%s")
    if not form.is_valid():
        return _page(request, week=form, status=400)
    try:
        services.change_week(days=form.cleaned_data["days"], by=cast("User", request.user))
    except CalendarError as error:
        form.add_error("days", str(error))
        return _page(request, week=form, status=400)
    messages.success(request, "From now on days are counted by this week.")
    return redirect("calendar")


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _page(
    request: HttpRequest,
    *,
    close: CloseForm | None = None,
    week: WeekForm | None = None,
    status: int = 200,
) -> HttpResponse:
    now = selectors.calendar()
    context = {
        "week_words": week_words(now.week),
        "days": selectors.closed_days(timezone.localdate() - LOOK_BACK),
        "next_open": now.after(timezone.localdate(), 1),
        "close": close or CloseForm(auto_id="close-%s"),
        "week": week or WeekForm(initial={"days": sorted(now.week)}, auto_id="week-%s"),
        "may_close": request.user.has_perm("quotes.add_closedday"),
    }
    return render(request, "quotes/calendar.html", context, status=status)
