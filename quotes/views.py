"""The customer's pages, found by an unguessable link and by nothing else."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from intake.domain.sheet import SheetErrors
from intake.models import Submission
from intake.selectors import by_token, current_sheet
from intake.services import MoveError, Overtaken, take_second_reading
from quotes import selectors, services
from quotes.models import Quote
from quotes.second_reading import AGAIN, what_happened
from quotes.status_page import StatusPage, Typed

View = Callable[..., HttpResponse]


def private(view: View) -> View:
    """Kept by nobody on the way, listed by no search engine, named to no other site.

    (Not "no-referrer": the browser must still tell our own site where a form came from.)
    """

    @never_cache
    @wraps(view)
    def guarded(request: HttpRequest, *args: object, **kwargs: object) -> HttpResponse:
        response = view(request, *args, **kwargs)
        response["Cache-Control"] = "no-store, private"
        response["X-Robots-Tag"] = "noindex, nofollow, noarchive"
        response["Referrer-Policy"] = "same-origin"
        return response

    return guarded


@private
@require_safe
def status(request: HttpRequest, token: str) -> HttpResponse:
    """What we have, what we still ask, the quote."""
    return _page(request, _find(token))


@private
@require_POST
def second_reading(request: HttpRequest, token: str) -> HttpResponse:
    """Take the reading that was asked for once more; what was typed is not lost."""
    submission, again = _find(token), {part: request.POST.get(part, "") for part in AGAIN}
    try:
        number = int(request.POST.get("sheet_number", ""))
    except ValueError:
        raise BadRequest("no sheet number") from None
    try:
        take_second_reading(submission=submission, sheet_number=number, again=again)
    except SheetErrors as refused:
        return _page(request, submission, Typed(again=again, errors=_first(refused)), status=400)
    except Overtaken:
        messages.warning(request, _("Your sheet changed a moment ago; here it is as it is now."))
    except MoveError as over:
        messages.error(request, str(over))
    else:
        messages.success(request, what_happened(current_sheet(submission)))
    return redirect("status", token=token)


def _first(refused: SheetErrors) -> dict[str, str]:
    """One sentence for each box of the second reading."""
    return {f"again.{box}": " ".join(said) for box, said in refused.errors.items()}


@private
@require_safe
def quote_pdf(request: HttpRequest, token: str, version: int) -> HttpResponse:
    """The paper of one version, as it was sent."""
    paper = selectors.document(_find(token), version)
    if paper is None:
        raise Http404
    name = f"quote-{paper.quote.number}-v{version}.pdf"
    response = HttpResponse(bytes(paper.content), content_type="application/pdf")
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    response["X-Content-Type-Options"] = "nosniff"
    return response


@private
@require_POST
def accept(request: HttpRequest, token: str, version: int) -> HttpResponse:
    """Accept this version. What was typed is not lost when something is missing."""
    submission = _find(token)
    name, ticked = request.POST.get("name", ""), request.POST.getlist("confirm")
    try:
        services.accept_quote(quote=_quote(submission, version), name=name, confirmations=ticked)
    except services.NotConfirmed as missing:
        return _page(request, submission, Typed(name, ticked, errors=missing.errors), status=400)
    except services.QuoteError as late:
        return _too_late(request, token, late)
    messages.success(request, _("Thank you. The quote is accepted, and the work is yours."))
    return redirect("status", token=token)


@private
@require_POST
def decline(request: HttpRequest, token: str, version: int) -> HttpResponse:
    """Decline this version, with a reason."""
    submission, reason = _find(token), request.POST.get("reason", "")
    try:
        services.decline_quote(quote=_quote(submission, version), reason=reason)
    except services.NotConfirmed as missing:
        return _page(request, submission, Typed(reason=reason, errors=missing.errors), status=400)
    except services.QuoteError as late:
        return _too_late(request, token, late)
    messages.success(request, _("The quote is declined. Thank you for telling us why."))
    return redirect("status", token=token)


def _find(token: str) -> Submission:
    try:
        return by_token(token)
    except Submission.DoesNotExist:
        raise Http404 from None


def _quote(submission: Submission, version: int) -> Quote:
    quote = selectors.quote_version(submission, version)
    if quote is None:
        raise Http404
    return quote


def _too_late(request: HttpRequest, token: str, error: services.QuoteError) -> HttpResponse:
    """Say why on the page as it is now."""
    messages.error(request, str(error))
    return redirect("status", token=token)


def _page(
    request: HttpRequest, submission: Submission, typed: Typed | None = None, status: int = 200
) -> HttpResponse:
    page = StatusPage(
        submission=submission,
        sheet=current_sheet(submission),
        quote=selectors.latest_quote(submission),
        typed=typed or Typed(),
    )
    return render(request, "quotes/status.html", {"page": page}, status=status)
