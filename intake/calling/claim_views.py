"""Who calls: taking a call, keeping it, giving it back, taking it over."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from intake.access import counter_required
from intake.calling.claims import services
from intake.calling.claims.selectors import claim_of
from intake.calling.find import find, to_card, user_of
from intake.domain.lifecycle import MoveError


@counter_required
@require_POST
def claim_call(request: HttpRequest, reference: str) -> HttpResponse:
    """I call: it is theirs, and the card opens."""
    return _taken(request, reference, services.claim)


@counter_required
@require_POST
def take_over_call(request: HttpRequest, reference: str) -> HttpResponse:
    """Call instead of whoever has it; the history says so."""
    return _taken(request, reference, services.take_over)


def _taken(request: HttpRequest, reference: str, take: services.Take) -> HttpResponse:
    found = find(reference)
    try:
        take(submission=found, by=user_of(request))
    except (services.Claimed, MoveError) as error:
        messages.warning(
            request, error.in_short if isinstance(error, services.Claimed) else str(error)
        )
    return to_card(found, request.POST.get("check", "")[:40], request.POST.get("answer", "")[:40])


@counter_required
@require_POST
def give_back_call(request: HttpRequest, reference: str) -> HttpResponse:
    """Not now after all: anybody may call."""
    if services.give_back(submission=find(reference), by=user_of(request)):
        messages.success(request, _("Given back. Anybody may call."))
    return redirect("call-queue")


@counter_required
@require_POST
def keep_call(request: HttpRequest, reference: str) -> HttpResponse:
    """Somebody types on the card: their lease is whole again. Says whose it is now."""
    found = find(reference)
    services.renew(submission=found, by=user_of(request))
    claim = claim_of(found)
    is_mine = claim is not None and claim.by_id == request.user.pk
    return render(request, "intake/calling/_held.html", {"claim": claim, "is_mine": is_mine})
