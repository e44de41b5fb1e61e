"""The customer's pages, found by an unguessable link and by nothing else."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import wraps
from typing import cast

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from intake.answering.services import take_answers, take_second_reading
from intake.domain.sheet import SheetErrors
from intake.models import Submission
from intake.said import said
from intake.selectors import current_sheet, fresh_sheet
from intake.services import MoveError, Overtaken
from quotes import selectors, services
from quotes.domain.lifecycle import QuoteStatus
from quotes.links.selectors import find_link
from quotes.links.views import expired
from quotes.models import Quote
from quotes.outcomes.form import thanks_for, typed_in
from quotes.outcomes.selectors import asked_now
from quotes.outcomes.services import NotTold, tell
from quotes.private import private
from quotes.second_reading import AGAIN, what_happened, what_now
from quotes.status_asks import answers_from, by_boxes
from quotes.status_page import StatusPage, Typed
from quotes.status_words import WHYS

View = Callable[..., HttpResponse]


class LinkGone(Exception):
    """The link was good once; the page offers a new one."""


def customers(view: View) -> View:
    """A private page of one submission; a link that holds no more gets a kind word instead."""

    @private
    @wraps(view)
    def guarded(request: HttpRequest, token: str, **kwargs: object) -> HttpResponse:
        try:
            return view(request, token, **kwargs)
        except LinkGone:
            return expired(request, token)

    return guarded


@customers
@require_safe
def status(request: HttpRequest, token: str) -> HttpResponse:
    """What we have, what we still ask, the quote."""
    return _page(request, _find(token), opens=True)


@customers
@require_POST
def second_reading(request: HttpRequest, token: str) -> HttpResponse:
    """Take the reading that was asked for once more; what was typed is not lost."""
    submission, again = _find(token), {part: request.POST.get(part, "") for part in AGAIN}
    number = _number(request, "sheet_number")
    try:
        take_second_reading(submission=submission, sheet_number=number, again=again)
    except SheetErrors as refused:
        return _page(request, submission, Typed(again=again, errors=_first(refused)), status=400)
    except Overtaken:
        messages.warning(request, _("Your sheet changed a moment ago; here it is as it is now."))
    except MoveError as over:
        messages.error(request, said(over))
    else:
        messages.success(request, what_happened(current_sheet(submission)))
    return redirect("status", token=token)


def _number(request: HttpRequest, box: str) -> int:
    try:
        return int(request.POST.get(box, ""))
    except ValueError:
        raise BadRequest(f"no {box}") from None


@customers
@require_POST
def answer(request: HttpRequest, token: str) -> HttpResponse:
    """Take the answers to what is still open; what was typed is not lost."""
    submission, number = _find(token), _number(request, "sheet_number")
    answers, errors = answers_from(request.POST)
    try:
        if errors:
            raise SheetErrors(errors)
        take_answers(submission=submission, sheet_number=number, answers=answers)
    except SheetErrors as refused:
        typed = Typed(answers=request.POST, answer_errors=by_boxes(refused.errors))
        return _page(request, submission, typed, status=400)
    except Overtaken:
        messages.warning(request, _("Your sheet changed a moment ago; here it is as it is now."))
        return _page(request, _find(token), Typed(answers=request.POST), status=409)
    except MoveError as over:
        messages.error(request, said(over))
    else:
        messages.success(request, what_now(fresh_sheet(submission)))
    return redirect("status", token=token)


@customers
@require_POST
def fit(request: HttpRequest, token: str) -> HttpResponse:
    """Whether it fitted, as the customer tells it."""
    submission, quote = _find(token), None
    quote = selectors.latest_quote(submission)
    after = asked_now(quote) if quote else 0
    if quote is None or not after:
        messages.info(request, _("Thank you. We have it already."))
        return redirect("status", token=token)
    typed = typed_in(request.POST)
    try:
        tell(quote=quote, after_days=after, typed=typed)
    except NotTold as missing:
        return _page(request, submission, Typed(fit=typed, errors=missing.errors), status=400)
    messages.success(request, thanks_for(typed))
    return redirect("status", token=token)


def _first(refused: SheetErrors) -> dict[str, str]:
    """One sentence for each box of the second reading."""
    return {f"again.{box}": " ".join(map(said, lines)) for box, lines in refused.errors.items()}


@customers
@require_safe
def quote_pdf(request: HttpRequest, token: str, version: int) -> HttpResponse:
    """The paper of one version, as it was sent."""
    paper = selectors.document(_find(token), version)
    if paper is None:
        raise Http404
    _note_opened(request, paper.quote)
    name = f"quote-{paper.quote.number}-v{version}.pdf"
    response = HttpResponse(bytes(paper.content), content_type="application/pdf")
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    response["X-Content-Type-Options"] = "nosniff"
    return response


def _note_opened(request: HttpRequest, quote: Quote | None) -> None:
    """The customer sees this version. Staff who look along do not count, nor does a program that
    only asks whether the page is there."""
    unseen = quote is not None and quote.opened_at is None and quote.status == QuoteStatus.ISSUED
    if unseen and request.method == "GET" and not request.user.is_authenticated:
        services.note_opened(quote=cast(Quote, quote))


@customers
@require_POST
def accept(request: HttpRequest, token: str, version: int) -> HttpResponse:
    """Accept this version. What was typed is not lost when something is missing."""
    submission = _find(token)
    name, ticked = request.POST.get("name", ""), request.POST.getlist("confirm")
    where = f"status page, {request.META.get('REMOTE_ADDR', '')}"
    try:
        services.accept_quote(
            quote=_quote(submission, version), name=name, confirmations=ticked, told_from=where
        )
    except services.NotConfirmed as missing:
        return _page(request, submission, Typed(name, ticked, errors=missing.errors), status=400)
    except services.QuoteError as late:
        return _too_late(request, submission, late, Typed(name))
    messages.success(request, _("Thank you. The quote is accepted, and the work is yours."))
    return redirect("status", token=token)


@customers
@require_POST
def decline(request: HttpRequest, token: str, version: int) -> HttpResponse:
    """Decline this version, with a reason."""
    submission, reason = _find(token), request.POST.get("reason", "")
    why = request.POST.get("why", "")
    told = [part for part in (why if why in dict(WHYS) else "", reason.strip()) if part]
    typed = Typed(reason=reason, why=why)
    try:
        services.decline_quote(quote=_quote(submission, version), reason=": ".join(told))
    except services.NotConfirmed as missing:
        return _page(request, submission, replace(typed, errors=missing.errors), status=400)
    except services.QuoteError as late:
        return _too_late(request, submission, late, typed)
    messages.success(request, _("The quote is declined. Thank you for telling us why."))
    return redirect("status", token=token)


def _find(token: str) -> Submission:
    found = find_link(token)
    if found is None:
        raise Http404
    if not found.holds:
        raise LinkGone
    return found.submission


def _quote(submission: Submission, version: int) -> Quote:
    quote = selectors.quote_version(submission, version)
    if quote is None:
        raise Http404
    return quote


def _too_late(
    request: HttpRequest, submission: Submission, error: services.QuoteError, typed: Typed
) -> HttpResponse:
    """Say why on the page as it is now, with what was typed; what is to confirm is ticked anew."""
    messages.error(request, said(error))
    submission.refresh_from_db(fields=["status", "verdict"])
    return _page(request, submission, typed, status=409)


def _page(
    request: HttpRequest,
    submission: Submission,
    typed: Typed | None = None,
    status: int = 200,
    *,
    opens: bool = False,
) -> HttpResponse:
    sheet, quotes = current_sheet(submission), selectors.quotes_of(submission)
    for quote in quotes:
        quote.submission = submission
        if quote.sheet_id == sheet.pk:
            quote.sheet = sheet  # read already
    page = StatusPage(submission, sheet, quotes, typed or Typed())
    if opens:
        _note_opened(request, page.quote)
    return render(request, "quotes/status.html", {"page": page}, status=status)
