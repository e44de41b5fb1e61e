"""Typing on from a request that is stored."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from intake.access import counter_required
from intake.desk_drafts.answers import user_of
from intake.desk_drafts.going_on import services
from intake.domain.lifecycle import MoveError
from intake.models import Submission
from intake.selectors import by_reference


@counter_required
@require_POST
def take_up(request: HttpRequest, reference: str) -> HttpResponse:
    """Open the request's sheet on the call page; two clerks land on the same page."""
    try:
        found = by_reference(reference)
        goes_on = services.take_up(submission=found, by=user_of(request))
    except Submission.DoesNotExist as error:
        raise Http404 from error
    except MoveError as error:
        messages.error(request, str(error))
        return redirect("submission", reference=reference.strip().upper())
    return redirect("desk-draft", ident=goes_on.ident)
