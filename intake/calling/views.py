"""Pages of the call-backs: whom to call, and the card of one question."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from intake import selectors
from intake.access import counter_required, staff_required
from intake.calling import services
from intake.calling.card import CallCard, card_for
from intake.calling.reading import CallErrors
from intake.desk_show import label_for
from intake.domain.lifecycle import MoveError
from intake.domain.sheet import SheetErrors
from intake.models import Submission
from intake.photos.selectors import photos_of
from intake.services import Overtaken

QUEUE_PAGE = 25


@staff_required
@require_GET
def call_queue(request: HttpRequest) -> HttpResponse:
    """Whom to call, longest wait first."""
    page = Paginator(selectors.call_queue(), QUEUE_PAGE).get_page(request.GET.get("page"))
    for waiting in page:
        for finding in waiting.current.to_ask[:1]:
            finding.about = str(label_for(finding.answer)) if finding.answer else ""
    return render(
        request,
        "intake/calling/queue.html",
        {"page": page, "waiting": selectors.calls_waiting()},
    )


@counter_required
@require_http_methods(["GET", "HEAD", "POST"])
def record_call(request: HttpRequest, reference: str) -> HttpResponse:
    """The card of one question: ask it, write down what came of it."""
    found = _find(reference)
    if request.method != "POST":
        return _card(request, found, card_for(found, request.GET))
    card = card_for(found, request.POST)
    if card.overtaken:
        return _card(request, found, card, status=409)
    if not card.is_valid():
        return _card(request, found, card, status=400)
    try:
        now = services.record_call(submission=found, by=_user(request), **card.entry())
    except (SheetErrors, CallErrors) as error:
        return _card(request, found, card.with_errors(error.errors), status=400)
    except Overtaken:
        return _card(request, found, card_for(_find(reference), request.POST), status=409)
    except MoveError as error:
        return _card(request, found, card.with_errors({"": [str(error)]}), status=409)
    messages.success(request, _("Written down. The checks have run again."))
    return redirect("submission", reference=now.reference)


def _card(
    request: HttpRequest, found: Submission, card: CallCard, status: int = 200
) -> HttpResponse:
    context = {"submission": found, "card": card, "photos": photos_of(found)}
    return render(request, "intake/calling/card.html", context, status=status)


def _find(reference: str) -> Submission:
    try:
        return selectors.by_reference(reference)
    except Submission.DoesNotExist as error:
        raise Http404 from error


def _user(request: HttpRequest) -> User:
    return cast(User, request.user)
