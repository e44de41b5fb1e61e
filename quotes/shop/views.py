"""The machinist's pages: the shafts to make, and the cut sheet of one."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from intake.access import needs
from intake.models import Submission
from intake.selectors import current_sheet
from intake.services import Overtaken
from quotes.models import Quote
from quotes.parcels.page import ParcelRow
from quotes.selectors import latest_quote
from quotes.shop import selectors, services
from quotes.shop.rows import ShopRow
from quotes.shop.shafts import paper_response, request_of
from quotes.shop.standing import why_not
from quotes.shop.waiting import waits_of

shop_required = needs("intake.view_submission", "quotes.view_quote")


@shop_required
@require_safe
def shop(request: HttpRequest) -> HttpResponse:
    """Shafts to make, the longest accepted first."""
    after = request.GET.get("after", "")
    page = selectors.shafts_to_make(int(after) if after.isdecimal() and len(after) < 19 else None)
    parcels = selectors.parcels_to_send() if not after else []
    waits = waits_of(page.quotes)
    context = {
        "parcels": [ParcelRow(quote) for quote in parcels[: selectors.PAGE]],
        "more_parcels": len(parcels) > selectors.PAGE,
        "rows": [ShopRow(quote, waits[quote.pk]) for quote in page.quotes],
        "after": page.after,
        "is_first": not after,
    }
    return render(request, "quotes/desk_shop.html", context)


@shop_required
@require_http_methods(["GET", "HEAD", "POST"])
def cut_sheet(request: HttpRequest, reference: str) -> HttpResponse:
    """The page to cut from, or why there is none. Opening draws nothing new; the button does."""
    submission = request_of(reference)
    quote = selectors.last_accepted(submission.pk)
    reasons = why_not(submission, current_sheet(submission), latest_quote(submission), quote)
    if quote is None or reasons:
        return _said(request, submission, quote, reasons)
    if request.method == "POST":
        return _draw(request, quote)
    kept = selectors.cut_sheet_of(quote)
    if kept is not None:
        return paper_response(bytes(kept.content), f"cut-sheet-{quote.number}-v{quote.version}.pdf")
    facts = services.facts_of(quote)
    if facts.cuttable:
        return _said(request, submission, quote, ())
    return paper_response(services.paper(facts), f"not-to-be-cut-from-{quote.number}.pdf")


def _draw(request: HttpRequest, quote: Quote) -> HttpResponse:
    try:
        services.draw_cut_sheet(quote_id=quote.pk)
    except Overtaken:
        messages.error(request, "The sheet changed a moment ago. Please look again.")
    return redirect("cut-sheet", reference=quote.submission.reference)


def _said(
    request: HttpRequest, submission: Submission, quote: Quote | None, reasons: tuple[str, ...]
) -> HttpResponse:
    context = {"submission": submission, "quote": quote, "reasons": reasons}
    return render(request, "quotes/desk_cut_sheet.html", context)
