"""Which shaft an address means, and the page that shows it."""

from __future__ import annotations

from typing import Any, cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from intake.access import needs
from intake.models import Submission
from intake.selectors import by_reference
from intake.services import Overtaken
from quotes.inspecting.page import ShownInspection, gap_svg
from quotes.making import order_of
from quotes.models import Quote
from quotes.shop import selectors
from quotes.shop.services import Stopped
from quotes.shop.shaft_page import ShaftPage

look_required = needs("intake.view_submission", "quotes.view_shoporder")
move_required = needs("intake.view_submission", "quotes.change_shoporder")
inspect_required = needs("intake.view_submission", "quotes.add_inspection")
release_required = needs("intake.view_submission", "quotes.add_release")
send_required = needs("intake.view_submission", "quotes.add_shipment")

MOVED = "Somebody else was quicker. Please look again."


def request_of(reference: str) -> Submission:
    """The request behind an address, or 404."""
    try:
        return by_reference(reference)
    except Submission.DoesNotExist:
        raise Http404 from None


def any_order_of(reference: str) -> tuple[Submission, Quote | None]:
    """The request and the quote that is or was made from it, a shaft or parts alone."""
    submission = request_of(reference)
    return submission, selectors.shop_quote(submission.pk)


def shaft_of(reference: str) -> tuple[Submission, Quote | None]:
    """The request and the quote its shaft is made from; None where no shaft is to be made."""
    submission, quote = any_order_of(reference)
    return submission, None if quote is None or is_parcel(quote) else quote


def parts_of(reference: str) -> tuple[Submission, Quote | None]:
    """The request and the quote of its parts; None where a shaft is among them."""
    submission, quote = any_order_of(reference)
    return submission, quote if quote and is_parcel(quote) else None


def is_parcel(quote: Quote) -> bool:
    """Whether it is of parts alone."""
    return order_of(quote).shaft is None


def show(request: HttpRequest, quote: Quote, *, status: int = 200, **changes: Any) -> HttpResponse:
    """The page of one shaft, with what was just typed."""
    page = ShaftPage(quote, person(request), **changes)
    context = {
        "page": page,
        "inspections": [ShownInspection(row) for row in page.inspections],
        "picture": gap_svg(quote, page.looked) if page.looked else "",
    }
    return render(request, "quotes/shop_shaft.html", context, status=status)


def none_to_make(request: HttpRequest, submission: Submission) -> HttpResponse:
    """What is shown where no shaft is to be made."""
    quote = selectors.shop_quote(submission.pk)
    reasons = selectors.standing_now(quote) if quote else (
        "No quote of this request is accepted yet. A shaft is cut from an accepted quote.",
    )  # fmt: skip
    context = {"submission": submission, "quote": quote, "reasons": reasons, "of_shaft": True}
    return render(request, "quotes/desk_cut_sheet.html", context)


def person(request: HttpRequest) -> User:
    """Who is at the bench."""
    return cast("User", request.user)


def told(request: HttpRequest, error: Stopped | Overtaken) -> None:
    """Say on the next page why a press did nothing."""
    reasons = error.reasons if isinstance(error, Stopped) else (MOVED,)
    for reason in reasons:
        messages.error(request, reason)


def back_to(quote: Quote) -> HttpResponse:
    """To the shaft's page."""
    return redirect("shop-shaft", reference=quote.submission.reference)


def paper_response(pdf: bytes, name: str) -> HttpResponse:
    """Shown in the browser, from where it is printed; kept by nobody on the way."""
    response = HttpResponse(pdf, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}"'
    response["X-Content-Type-Options"] = "nosniff"
    response["Cache-Control"] = "no-store, private"
    return response
