"""The day on one screen: whom to call, what was called, what is left open, what is needed."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_GET

from intake.access import needs
from intake.finding.day.selectors import Day

reader_required = needs("intake.view_submission")


@reader_required
@require_GET
def today(request: HttpRequest) -> HttpResponse:
    """Everything of today; each list is read once."""
    day = Day(timezone.now())
    context = {
        "now": day.now,
        "today": day.today,
        "late": day.late,
        "to_make": day.to_make,
        "promised": day.promised,
        "made": day.made,
        "drafts": day.drafts,
        "needed": day.needed,
    }
    return render(request, "intake/finding/today.html", context)
