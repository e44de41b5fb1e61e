"""The counter's pages: orders of which nothing was heard, and an answer told on the phone."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from intake.access import needs
from intake.models import Submission
from intake.selectors import by_reference
from quotes.cases.selectors import open_case_of
from quotes.checks.outcomes import it_was_told_how_it_fitted
from quotes.models import Quote
from quotes.outcomes import selectors
from quotes.outcomes.form import FitForm, typed_in
from quotes.outcomes.rows import SilentRow, expected_words
from quotes.outcomes.services import NotTold, tell

# Parts alone leave no gap to ask about.
ASK_OF_PARTS = "Did the parts fit, and was anything different from what you expected?"
outcomes_required = needs("intake.view_submission", "quotes.add_outcome")


@outcomes_required
@require_safe
def silent(request: HttpRequest) -> HttpResponse:
    """Sent more than 30 days ago, nothing heard: to be rung, longest sent first."""
    after = request.GET.get("after", "")
    key = int(after) if after.isdecimal() and len(after) < 19 else None
    page, today = selectors.nothing_heard(key), timezone.localdate()
    context = {
        "rows": [SilentRow(quote, today) for quote in page.quotes],
        "after": page.after,
        "is_first": not after,
        "days": it_was_told_how_it_fitted.limits.after_days,
        "ask": it_was_told_how_it_fitted.ask,
    }
    return render(request, "quotes/desk_silent.html", context)


@outcomes_required
@require_http_methods(["GET", "HEAD", "POST"])
def desk_fit(request: HttpRequest, reference: str) -> HttpResponse:
    """Write down how it fitted, as somebody says it on the phone."""
    submission = _find(reference)
    quote = selectors.order_to_ask_about(submission)
    after = selectors.answer_after(quote) if quote else 0
    if request.method != "POST" or quote is None or not after:
        blank = FitForm(after, {}, {}, has_gap=selectors.has_gap(quote))
        return _page(request, submission, quote, blank)
    typed = typed_in(request.POST)
    try:
        stored = tell(quote=quote, after_days=after, typed=typed, by=cast("User", request.user))
    except NotTold as missing:
        form = FitForm(after, typed, missing.errors, has_gap=selectors.has_gap(quote))
        return _page(request, submission, quote, form, status=400)
    messages.success(request, "Written down." if stored else "That was written down already.")
    opened = open_case_of(quote)
    if opened is not None and request.user.has_perm("quotes.view_case"):
        return redirect("case", opened.number)
    return redirect("desk-fit", reference=submission.reference)


def _page(
    request: HttpRequest,
    submission: Submission,
    quote: Quote | None,
    form: FitForm,
    status: int = 200,
) -> HttpResponse:
    context = {
        "submission": submission,
        "quote": quote,
        "sent": quote.shipment.day if quote else None,
        "expected": expected_words(quote) if quote else "",
        "fit": form if form.after_days else None,
        "outcomes": selectors.outcomes_of(quote) if quote else [],
        "put_offs": selectors.put_offs_of(quote) if quote else [],
        "ask": it_was_told_how_it_fitted.ask if form.has_gap else ASK_OF_PARTS,
    }
    return render(request, "quotes/desk_fit.html", context, status=status)


def _find(reference: str) -> Submission:
    try:
        return by_reference(reference)
    except Submission.DoesNotExist:
        raise Http404 from None
