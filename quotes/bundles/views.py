"""The yard's page of a bundle, found by an unguessable link and by nothing else."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from intake.said import said
from quotes import selectors as quotes
from quotes.bundles import selectors, services
from quotes.bundles.models import Bundle
from quotes.bundles.page import BundlePage, TypedYes
from quotes.domain.lifecycle import QuoteError
from quotes.links.throttle import too_often
from quotes.private import private

View = Callable[..., HttpResponse]


def yards(view: View) -> View:
    """A private page of one bundle. Guessing is slowed; a link that has run out says so."""

    @private
    @wraps(view)
    def guarded(request: HttpRequest, token: str, **kwargs: object) -> HttpResponse:
        bundle = selectors.by_token(token)
        if bundle is None:
            if too_often(request, "bundle"):
                return render(request, "429.html", status=429)
            raise Http404
        page = BundlePage(bundle, selectors.members(bundle))
        if not page.link_holds:
            return render(request, "quotes/bundle_expired.html", status=410)
        return view(request, page, **kwargs)

    return guarded


@require_safe
@yards
def bundle(request: HttpRequest, page: BundlePage) -> HttpResponse:
    """The boats, the sums, and what can be accepted."""
    looks = request.method == "GET" and page.bundle.opened_at is None
    if looks and not request.user.is_authenticated:  # nor staff, nor a program that only knocks
        services.note_bundle_opened(bundle=page.bundle)
    return render(request, "quotes/bundle.html", {"page": page})


@require_safe
@yards
def bundle_pdf(request: HttpRequest, page: BundlePage, version: int) -> HttpResponse:
    """The paper of one version, as it was sent."""
    found = selectors.version_of(page.bundle, version)
    if found is None or not found.content:
        raise Http404
    return _pdf(bytes(found.content), f"quote-{found.number}-v{version}.pdf")


@require_safe
@yards
def bundle_boat_pdf(request: HttpRequest, page: BundlePage, place: int) -> HttpResponse:
    """The paper of one boat's own quote."""
    row = next((row for row in page.rows if row.place == place), None)
    paper = quotes.document(row.quote.submission, row.quote.version) if row else None
    if paper is None:
        raise Http404
    return _pdf(bytes(paper.content), f"quote-{paper.quote.number}-v{paper.quote.version}.pdf")


def _pdf(content: bytes, name: str) -> HttpResponse:
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    response["X-Content-Type-Options"] = "nosniff"
    return response


@require_POST
@yards
def bundle_accept(request: HttpRequest, page: BundlePage) -> HttpResponse:
    """Accept the boats that are ticked. What was typed is not lost when something is missing."""
    name, boats = request.POST.get("name", ""), request.POST.getlist("boat")
    confirmed = request.POST.getlist("confirm")
    typed = TypedYes(name, boats, confirmed)
    where = f"bundle page, {request.META.get('REMOTE_ADDR', '')}"
    try:
        services.accept_from_bundle(
            bundle=page.bundle, name=name, ticked=_by_boat(boats, confirmed), told_from=where
        )
    except services.NotAllConfirmed as missing:
        wrong = TypedYes(name, boats, confirmed, missing.errors)
        return _again(request, page.bundle, wrong, 400)
    except QuoteError as late:
        messages.error(request, said(late))
        return _again(request, page.bundle, typed, 409)
    messages.success(request, _("Thank you. What you ticked is accepted; the rest waits for you."))
    return redirect("bundle", token=page.bundle.token)


def _by_boat(boats: list[str], confirmed: list[str]) -> dict[int, list[str]]:
    """The statements ticked for each boat that is ticked."""
    keys = [int(text) for text in boats if text.isascii() and text.isdecimal() and len(text) < 18]
    parts = [text.partition(".") for text in confirmed]
    return {key: [short for boat, _dot, short in parts if boat == str(key)] for key in keys}


def _again(request: HttpRequest, one: Bundle, typed: TypedYes, status: int) -> HttpResponse:
    page = BundlePage(one, selectors.members(one), typed)
    return render(request, "quotes/bundle.html", {"page": page}, status=status)
