"""Choosing another metal or an option: the customer on the private page, staff at the desk."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from intake.said import said
from quotes.choosing.services import NotOffered, choose
from quotes.desk import find_request, quote_page, quoter_required
from quotes.domain.lifecycle import QuoteError
from quotes.models import Quote
from quotes.services import MoveError, Overtaken
from quotes.told import money
from quotes.views import _find as find_by_token
from quotes.views import _page as status_page
from quotes.views import customers


@customers
@require_POST
def choose_on_page(request: HttpRequest, token: str) -> HttpResponse:
    """The customer's choice: a new version with its price. What was ticked is not lost."""
    submission = find_by_token(token)
    try:
        quote = choose(
            submission=submission,
            alloy=request.POST.get("alloy", ""),
            options=request.POST.getlist("option"),
            version=_version(request),
            name=submission.contact_name,
            told_from=f"status page, {request.META.get('REMOTE_ADDR', '')}",
        )
    except NotOffered as refused:
        _tell(request, refused.sentences)
        return status_page(request, submission, status=400)
    except (QuoteError, MoveError, Overtaken) as late:
        _tell(request, (str(late),))
        submission.refresh_from_db(fields=["status", "verdict"])
        return status_page(request, submission, status=409)
    _priced(request, quote)
    return redirect("status", token=token)


@quoter_required
@require_POST
def choose_at_desk(request: HttpRequest, reference: str) -> HttpResponse:
    """The same by staff, who have it from the customer."""
    submission = find_request(reference)
    try:
        quote = choose(
            submission=submission,
            alloy=request.POST.get("alloy", ""),
            options=request.POST.getlist("option"),
            version=_version(request),
            by=cast("User", request.user),
        )
    except NotOffered as refused:
        _tell(request, refused.sentences)
        return quote_page(request, submission, status=400)
    except (QuoteError, MoveError, Overtaken) as late:
        _tell(request, (str(late),))
        submission.refresh_from_db(fields=["status", "verdict"])
        return quote_page(request, submission, status=409)
    _priced(request, quote)
    return redirect("desk-issue", reference=reference)


def _version(request: HttpRequest) -> int | None:
    """The version that was looked at; none where none was."""
    try:
        return int(request.POST.get("version", "")) or None
    except ValueError:
        raise BadRequest("no version") from None


def _tell(request: HttpRequest, sentences: tuple[str, ...]) -> None:
    for sentence in sentences:
        messages.error(request, said(sentence))


def _priced(request: HttpRequest, quote: Quote | None) -> None:
    if quote is None or quote.missing:
        messages.success(request, _("What you chose is kept, and goes into the next version."))
        return
    words = _("Version %(version)s is priced as you chose: %(total)s in all.")
    told = {"version": quote.version, "total": money(quote.total, quote.currency)}
    messages.success(request, words % told)
