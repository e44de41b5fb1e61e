"""A page says every half minute that it is open, and hears who else has it open."""

from __future__ import annotations

import re
from typing import cast

from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from intake.access import staff_required
from intake.desk_drafts.presence.services import look

_PLACE = re.compile(r"(draft|request) [A-Za-z0-9_-]{1,40}")


@staff_required
@require_POST
def here(request: HttpRequest) -> HttpResponse:
    """Say that I look at a page; answers who else does."""
    place = request.POST.get("place", "")
    if not _PLACE.fullmatch(place):
        raise Http404
    names = look(place=place, by=cast(User, request.user))
    return render(request, "intake/desk_drafts/_names.html", {"here": names})
