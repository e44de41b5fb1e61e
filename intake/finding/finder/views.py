"""The finder beside the call: who is on the phone, while the name is being typed."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from intake.access import counter_required
from intake.finding.finder import selectors

SHORTEST = 2


@counter_required
@require_GET
def find(request: HttpRequest) -> HttpResponse:
    """A fragment: boats whose customer, name or number begins like what was typed."""
    text = " ".join(request.GET.get("q", "").replace("\0", "").split())[:200]
    found = selectors.find(text) if len(text) >= SHORTEST else []
    context = {"text": text, "found": found, "short": len(text) < SHORTEST}
    return render(request, "intake/finding/_found.html", context)
