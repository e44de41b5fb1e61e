"""The desk's rates: everybody here may look, a manager changes them from a day on."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.dateparse import parse_date
from django.views.decorators.http import require_POST, require_safe

from intake.access import needs, staff_required
from quotes.domain.rate_fields import FIELDS
from quotes.domain.rate_values import RateErrors
from quotes.rate_sets import selectors, services
from quotes.rate_sets.page import RatesPage

may_change = needs("quotes.add_rateset")
_LONGEST_BOX = 20_000


@staff_required
@require_safe
def rates(request: HttpRequest) -> HttpResponse:
    """The rates in force, those to come, and what was changed."""
    return _page(request, {}, {})


@may_change
@require_POST
def adopt(request: HttpRequest) -> HttpResponse:
    """Go by other rates from a day on. What was typed is not lost when something is wrong."""
    typed = {name: str(text)[:_LONGEST_BOX] for name, text in request.POST.items()}
    based_on = typed.get("based_on", "")
    try:
        row = services.adopt_rates(
            name=typed.get("name", ""),
            reason=typed.get("reason", ""),
            from_day=_day(typed.get("from_day", "")),
            by=cast("User", request.user),
            typed={name: typed[name] for name in FIELDS if name in typed},
            based_on=int(based_on) if based_on.isascii() and based_on.isdigit() else None,
        )
    except RateErrors as refused:
        return _page(request, typed, refused.errors, status=400)
    except services.RatesOvertaken as late:
        return _page(request, typed, {"values": str(late)}, status=409)
    messages.success(request, f"The rates “{row.name}” hold from {row.from_day:%Y-%m-%d}.")
    return redirect("rates")


def _day(text: str) -> date | None:
    try:
        return parse_date(text.strip())
    except ValueError:
        return None


def _page(
    request: HttpRequest, typed: Mapping[str, str], errors: Mapping[str, str], status: int = 200
) -> HttpResponse:
    today = timezone.localdate()
    page = RatesPage(selectors.rates_on(), selectors.all_sets(), today, typed, errors)
    context = {
        "page": page,
        "newest": page.sets[0].number if page.sets else 0,
        "from_day": typed.get("from_day", today.isoformat()),
        "may_change": request.user.has_perm("quotes.add_rateset"),
    }
    return render(request, "quotes/rates.html", context, status=status)
