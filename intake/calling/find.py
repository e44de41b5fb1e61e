"""What every page of call-backs begins with: the request, and who asks."""

from __future__ import annotations

from typing import cast

from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.http import urlencode

from intake import selectors
from intake.calling.show import key_of, next_open
from intake.models import Submission


def find(reference: str) -> Submission:
    """The request of this reference, or Http404."""
    try:
        return selectors.by_reference(reference)
    except Submission.DoesNotExist as error:
        raise Http404 from error


def user_of(request: HttpRequest) -> User:
    """Who is logged in; the guard of the view has seen to that."""
    return cast(User, request.user)


def to_card(found: Submission, check: str = "", answer: str = "") -> HttpResponse:
    """Go to the card of one question; to its first open one where none is named."""
    if not check:
        first = next_open(selectors.fresh_sheet(found), ("", ""))
        if first is None:
            return redirect("submission", reference=found.reference)
        check, answer = key_of(first)
    card = reverse("record-call", args=[found.reference])
    return redirect(f"{card}?{urlencode({'check': check, 'answer': answer})}")
