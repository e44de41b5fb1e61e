"""What the views of these pages share: whose request it is, which draft, the page as an answer."""

from __future__ import annotations

import re
from typing import Any, cast

from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from intake.desk_drafts import page, selectors
from intake.models import DeskDraft

_IDENT = re.compile(r"[A-Za-z0-9_-]{16,32}")


def user_of(request: HttpRequest) -> User:
    """Who is logged in; the pages are for nobody else."""
    return cast("User", request.user)


def an_ident(ident: str) -> str:
    """The address of a call as it stands, or Http404."""
    if not _IDENT.fullmatch(ident):
        raise Http404
    return ident


def the_draft(ident: str) -> DeskDraft:
    """The draft of that address, or Http404."""
    found = selectors.by_ident(an_ident(ident))
    if found is None:
        raise Http404
    return found


def call_page(request: HttpRequest, *, status: int = 200, **told: Any) -> HttpResponse:
    """The call page; ``told`` as `page.context` takes it."""
    return render(request, "intake/desk.html", page.context(**told), status=status)
