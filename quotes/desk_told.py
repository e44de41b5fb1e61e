"""What the counter writes down of a quote: a yes or a no told on the phone, an order called off."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from intake.models import Submission
from quotes import selectors, services
from quotes.desk import find_request, quote_page, quoter_required, typed_prices
from quotes.links.services import send_again
from quotes.models import Quote


@quoter_required
@require_POST
def desk_accept(request: HttpRequest, reference: str, version: int) -> HttpResponse:
    """A yes on the phone: who said it, and every statement read out and ticked."""
    submission = find_request(reference)
    quote, name = _quote(submission, version), request.POST.get("name", "")
    ticked = request.POST.getlist("confirm")
    try:
        services.accept_by_phone(
            quote=quote, name=name, confirmations=ticked, by=cast(User, request.user)
        )
    except services.NotConfirmed as missing:
        return quote_page(request, submission, errors=_named(missing), status=400)
    except services.QuoteError as late:
        return _not_now(request, submission, late)
    messages.success(request, _("Accepted, as told on the phone."))
    return _back(submission)


def _named(missing: services.NotConfirmed) -> dict[str, str]:
    """Statements that are not ticked yet are one error: read them out, one after the other."""
    own = {box: text for box, text in missing.errors.items() if box in ("name", "reason")}
    if len(own) < len(missing.errors):
        own["confirm"] = _("Read out each line, and tick it when it is agreed to.")
    return own


@quoter_required
@require_POST
def desk_decline(request: HttpRequest, reference: str, version: int) -> HttpResponse:
    """A no on the phone, and why."""
    submission, reason = find_request(reference), request.POST.get("reason", "")
    try:
        services.decline_quote(
            quote=_quote(submission, version), reason=reason, by=cast(User, request.user)
        )
    except services.NotConfirmed as missing:
        return quote_page(request, submission, errors=missing.errors, status=400)
    except services.QuoteError as late:
        return _not_now(request, submission, late)
    messages.success(request, _("Declined, as told on the phone."))
    return _back(submission)


@quoter_required
@require_POST
def desk_cancel(request: HttpRequest, reference: str, version: int) -> HttpResponse:
    """An accepted order is called off, and why."""
    submission, reason = find_request(reference), request.POST.get("cancel", "")
    try:
        services.cancel_order(
            quote=_quote(submission, version), reason=reason, by=cast(User, request.user)
        )
    except services.NotConfirmed as missing:
        errors = {"cancel": missing.errors["reason"]}
        return quote_page(request, submission, errors=errors, status=400)
    except services.QuoteError as late:
        return _not_now(request, submission, late)
    messages.success(request, _("The order is cancelled, and what was held for it is free again."))
    return _back(submission)


@quoter_required
@require_POST
def desk_requote(request: HttpRequest, reference: str) -> HttpResponse:
    """Quote again what stands, at today's prices; of an accepted one that makes it void."""
    submission, why = find_request(reference), request.POST.get("why", "").strip()
    prices, errors = typed_prices(request.POST)
    if not why:
        errors["why"] = _("Please write in a few words why: the customer reads it.")
    if errors:
        return quote_page(request, submission, errors=errors, status=400)
    by, before = cast(User, request.user), selectors.latest_quote(submission)
    try:
        quote = services.requote(submission.pk, by=by, why=why, prices=prices)
    except (services.MoveError, services.Overtaken, services.QuoteError) as error:
        return _not_now(request, submission, error)
    if before is not None and quote.pk == before.pk:
        messages.info(request, _("Nothing has changed: the version that stands says it already."))
    else:
        told = {"version": quote.version}
        messages.success(request, _("Version %(version)s is made.") % told)
    return _back(submission)


@quoter_required
@require_POST
def desk_mail_again(request: HttpRequest, reference: str) -> HttpResponse:
    """The mail with the quote did not come, the customer says: it is sent once more."""
    submission = find_request(reference)
    quote = selectors.latest_quote(submission)
    mail = selectors.offer_mail(quote) if quote else None
    if mail is None:
        raise Http404
    send_again(mail=mail)
    messages.success(request, _("The mail is sent once more."))
    return _back(submission)


def _quote(submission: Submission, version: int) -> Quote:
    quote = selectors.quote_version(submission, version)
    if quote is None:
        raise Http404
    return quote


def _not_now(request: HttpRequest, submission: Submission, error: Exception) -> HttpResponse:
    """Say why, on the page as it is now, with what was typed."""
    messages.error(request, str(error))
    submission.refresh_from_db(fields=["status", "verdict"])
    return quote_page(request, submission, status=409)


def _back(submission: Submission) -> HttpResponse:
    return redirect("desk-issue", reference=submission.reference)
