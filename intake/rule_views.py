"""The rules of the desk on two pages: what is checked, and the limits it is checked by."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from intake.access import counter_required, manager_required, staff_required
from intake.check_book import chapters
from intake.domain.limit_rules import rule_names
from intake.domain.limit_values import LimitErrors, limit_fields
from intake.limit_sets import selectors, services
from intake.limits_page import LimitsPage


@staff_required
@require_safe
def checks(request: HttpRequest) -> HttpResponse:
    """Every check with its why, its question and the limits it goes by now."""
    limits = selectors.current_limits()
    context = {"chapters": chapters(limits), "limits": limits}
    return render(request, "intake/checks.html", context)


@counter_required
@require_safe
def limits(request: HttpRequest) -> HttpResponse:
    """The limits in force, and what they were before."""
    return _page(request, {}, {})


@manager_required
@require_POST
def adopt(request: HttpRequest) -> HttpResponse:
    """Go by other limits from now on. What was typed is not lost when something is wrong."""
    typed = {name: text[:100] for name, text in request.POST.items() if isinstance(text, str)}
    names = (*limit_fields(), *rule_names())
    values = {name: typed[name] for name in names if typed.get(name, "").strip()}
    try:
        row = services.adopt_limits(
            name=typed.get("name", ""),
            reason=request.POST.get("reason", ""),
            by=cast(User, request.user),
            values=values,
            based_on=request.POST.get("based_on"),
        )
    except LimitErrors as refused:
        return _page(request, _typed(request), refused.errors, status=400)
    except services.LimitsOvertaken as late:
        return _page(request, _typed(request), {"values": str(late)}, status=409)
    return _adopted(request, row.name)


@manager_required
@require_POST
def learn(request: HttpRequest) -> HttpResponse:
    """Weigh slips by what the desk has recorded, from now on."""
    try:
        row = services.learn_causes(
            by=cast(User, request.user),
            reason=request.POST.get("reason") or _("Taken over from the desk's own records"),
            based_on=request.POST.get("based_on"),
        )
    except LimitErrors as refused:
        return _page(request, {}, refused.errors, status=400)
    except services.LimitsOvertaken as late:
        return _page(request, {}, {"values": str(late)}, status=409)
    return _adopted(request, row.name)


def _adopted(request: HttpRequest, name: str) -> HttpResponse:
    told = _("From now on every sheet is judged by the limits “%(name)s”.") % {"name": name}
    messages.success(request, told)
    return redirect("limits")


def _typed(request: HttpRequest) -> dict[str, str]:
    return {name: str(text) for name, text in request.POST.items()}


def _page(
    request: HttpRequest, typed: dict[str, str], errors: dict[str, str], status: int = 200
) -> HttpResponse:
    page = LimitsPage(
        limits=selectors.current_limits(),
        sets=list(selectors.limit_sets()),
        counts=selectors.cause_counts(),
        typed=typed,
        errors=errors,
    )
    context = {"page": page, "may_change": request.user.has_perm("intake.view_insights")}
    return render(request, "intake/limits.html", context, status=status)
