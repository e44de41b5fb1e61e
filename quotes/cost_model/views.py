"""Costs and targets: a manager looks, and changes them from a day on."""

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

from intake.access import manager_required, needs
from quotes.cost_model import selectors, services
from quotes.cost_model.page import CostsPage
from quotes.domain.cost_fields import FIELDS, CostErrors

may_change = needs("intake.view_insights", "quotes.add_costset")
_LONGEST_BOX = 500


@manager_required
@require_safe
def costs(request: HttpRequest) -> HttpResponse:
    """What is in force, and what was changed when and why."""
    return _page(request, {}, {})


@may_change
@require_POST
def adopt(request: HttpRequest) -> HttpResponse:
    """Reckon with other figures from a day on. What was typed is not lost."""
    typed = {name: str(text)[:_LONGEST_BOX] for name, text in request.POST.items()}
    based_on = typed.get("based_on", "")
    try:
        row = services.adopt_costs(
            name=typed.get("name", ""),
            reason=typed.get("reason", ""),
            from_day=_day(typed),
            by=cast("User", request.user),
            typed={name: typed[name] for name in FIELDS if name in typed},
            based_on=int(based_on) if based_on.isascii() and based_on.isdigit() else None,
        )
    except CostErrors as refused:
        return _page(request, typed, refused.errors, status=400)
    except services.CostsOvertaken as late:
        return _page(request, typed, {"values": str(late)}, status=409)
    messages.success(request, f"“{row.name}” holds from {row.from_day:%Y-%m-%d}.")
    return redirect("costs")


def _day(typed: Mapping[str, str]) -> date | None:
    try:
        return parse_date(typed.get("from_day", "").strip())
    except ValueError:
        return None


def _page(
    request: HttpRequest, typed: Mapping[str, str], errors: Mapping[str, str], status: int = 200
) -> HttpResponse:
    context = {
        "page": CostsPage(selectors.costs_on(), selectors.all_sets(), typed, errors),
        "from_day": typed.get("from_day", timezone.localdate().isoformat()),
        "may_change": request.user.has_perm("quotes.add_costset"),
    }
    return render(request, "quotes/costs.html", context, status=status)
