"""The counter's pages of this room: the price beside a call, and a quote issued by hand."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from catalog.selectors import stock
from intake.access import counter_required, needs, staff_required
from intake.desk_check import judge
from intake.desk_drafts.boxes import call_body
from intake.models import Submission
from intake.selectors import by_reference, current_sheet
from quotes import price_show, selectors, services
from quotes.desk_page import DeskQuote
from quotes.domain.money import PriceError, read_price
from quotes.domain.order import read_order
from quotes.domain.pricing import price
from quotes.domain.tax import place_of
from quotes.quote_state import quote_state
from quotes.stock.selectors import left_over_of

quoter_required = needs("intake.view_submission", "quotes.add_quote")


@counter_required
@require_POST
def desk_price(request: HttpRequest) -> HttpResponse:
    """The price of what has been typed so far. Stores nothing; half a number is no hindrance.

    Who may type calls and not quote is told so in its place.
    """
    if not request.user.has_perm("quotes.add_quote"):
        return render(request, "quotes/_price.html", {"barred": True})
    body = call_body(request.POST)
    judged, shown = judge(body), None
    if judged.shown:
        order = read_order(body, judged.shown.outcome)
        left = left_over_of(order)
        place = place_of(body)
        priced = price(order, stock(), selectors.rates(), place=place, left_over=left)
        shown = price_show.of_priced(priced) if priced.lines else None
    return render(request, "quotes/_price.html", {"price": shown})


@quoter_required
@require_http_methods(["GET", "HEAD", "POST"])
def desk_issue(request: HttpRequest, reference: str) -> HttpResponse:
    """Quote by hand: after a call, or with the prices the catalogue lacks."""
    submission = find_request(reference)
    if request.method != "POST":
        return quote_page(request, submission)
    prices, errors = typed_prices(request.POST)
    if errors:
        return quote_page(request, submission, errors=errors, status=400)
    try:
        quote = services.issue_quote(
            submission_id=submission.pk, by=cast("User", request.user), prices=prices
        )
    except (services.MoveError, services.Overtaken, services.QuoteError) as error:
        messages.error(request, str(error))
        return redirect("desk-issue", reference=submission.reference)
    if quote.missing:
        return quote_page(
            request, submission, errors={"": _("A price is still missing.")}, status=400
        )
    messages.success(request, _("Quote %(number)s is issued.") % {"number": quote.number})
    return redirect("desk-issue", reference=submission.reference)


@staff_required
@require_GET
def quote_state_of(request: HttpRequest, reference: str) -> HttpResponse:
    """How far the quote of a request is: a part of its page that asks again until it is final."""
    submission = find_request(reference)
    context = {"submission": submission, "state": quote_state(submission)}
    return render(request, "quotes/_quote_state.html", context)


def typed_prices(typed: QueryDict) -> tuple[dict[str, Decimal], dict[str, str]]:
    """Unit prices by code, and a sentence for each box that cannot be read."""
    prices, errors = {}, {}
    for box, text in typed.items():
        code = box.removeprefix("price.")
        if code == box or not str(text).strip():
            continue
        try:
            prices[code] = read_price(str(text))
        except PriceError as error:
            errors[code] = str(error)
    return prices, errors


def find_request(reference: str) -> Submission:
    try:
        return by_reference(reference)
    except Submission.DoesNotExist:
        raise Http404 from None


def quote_page(
    request: HttpRequest,
    submission: Submission,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
) -> HttpResponse:
    """The page of one quote at the desk, with what was typed and what is wrong with it."""
    typed: dict[str, Any] = request.POST.dict() if request.method == "POST" else {}
    page = DeskQuote(
        submission=submission,
        sheet=current_sheet(submission),
        quote=selectors.latest_quote(submission),
        typed={**typed, "confirm": request.POST.getlist("confirm")},
        errors=errors or {},
    )
    return render(request, "quotes/desk_issue.html", {"page": page}, status=status)
