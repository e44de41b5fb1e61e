"""The day's quotes, as a part of the day's page."""

from __future__ import annotations

from datetime import datetime, time

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_GET

from intake.access import staff_required
from quotes.inspecting.selectors import waiting_for_the_desk
from quotes.today import selectors


@staff_required
@require_GET
def quotes_today(request: HttpRequest) -> HttpResponse:
    """A fragment: issued today, waiting for an answer, and shafts that ring the desk."""
    today = timezone.localdate()
    midnight = datetime.combine(today, time(0), timezone.get_current_timezone())
    issued, waiting = selectors.issued_since(midnight), selectors.waiting_for_an_answer()
    shown = waiting[: selectors.SHOWN]
    context = {
        "issued": issued[: selectors.SHOWN],
        "issued_more": len(issued) > selectors.SHOWN,
        "waiting": [(quote, selectors.lapses_soon(quote, today)) for quote in shown],
        "waiting_more": len(waiting) > selectors.SHOWN,
        "rings": waiting_for_the_desk(),
    }
    return render(request, "quotes/desk_today.html", context)
