"""What was paid for an order: looked at and written down at the desk."""

from __future__ import annotations

import secrets
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from intake.access import needs
from intake.models import Submission
from intake.selectors import by_reference
from quotes.domain.payments import PaymentErrors
from quotes.models import Quote
from quotes.payments import selectors, services
from quotes.payments.page import LABELS, PaymentsPage
from quotes.selectors import latest_quote

may_take = needs("intake.view_submission", "quotes.add_payment")


@may_take
@require_http_methods(["GET", "HEAD", "POST"])
def payments(request: HttpRequest, reference: str) -> HttpResponse:
    """Everything paid for the newest quote of a request, and one more."""
    submission, quote = _find(reference)
    if request.method != "POST":
        page = PaymentsPage(submission, quote, secrets.token_urlsafe(18))
        return render(request, "quotes/payments.html", {"page": page})
    typed = {box: str(request.POST.get(box, "")) for box in LABELS}
    nonce = str(request.POST.get("nonce", ""))[:40] or secrets.token_urlsafe(18)
    bundle = selectors.bundle_of(quote) if request.POST.get("for") == "bundle" else None
    try:
        new = services.record_payment(
            quote=quote, typed=typed, nonce=nonce, by=cast("User", request.user), bundle=bundle
        )
    except PaymentErrors as wrong:
        page = PaymentsPage(submission, quote, nonce, typed, wrong.errors)
        return render(request, "quotes/payments.html", {"page": page}, status=400)
    messages.success(request, "Written down." if new else "That was written down already.")
    return redirect("payments", reference=submission.reference)


def _find(reference: str) -> tuple[Submission, Quote]:
    try:
        submission = by_reference(reference)
    except Submission.DoesNotExist:
        raise Http404 from None
    quote = latest_quote(submission)
    if quote is None:
        raise Http404("There is no quote yet, so nothing can be paid for it.")
    return submission, quote
