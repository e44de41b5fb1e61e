"""A part's page: a manager changes it, adds one, takes one out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from catalog.editing import services
from catalog.editing.page import boxes
from catalog.editing.touched import what_rests_on
from staff.access import needs

may_change = needs("catalog.change_part")
_LONGEST_BOX = 1000


@may_change
@require_http_methods(["GET", "HEAD", "POST"])
def edit_part(request: HttpRequest, code: str) -> HttpResponse:
    """Change one part, with what rests on it in view."""
    part = services.known(code)
    if part is None:
        raise Http404
    return _page(request, code, services.cells_of(part), services.mark_of(part))


@may_change
@require_http_methods(["GET", "HEAD", "POST"])
def new_part(request: HttpRequest) -> HttpResponse:
    """Add a part."""
    return _page(request, "", services.cells_of(None), "")


@may_change
@require_POST
def remove_part(request: HttpRequest, code: str) -> HttpResponse:
    """Take a part out, with a reason."""
    try:
        services.take_out(
            code=code, why=request.POST.get("why", "")[:400], by=cast("User", request.user)
        )
    except services.PartErrors as refused:
        for words in refused.errors.values():
            messages.error(request, words)
        return redirect("part-edit", code=code)
    messages.success(request, f"{code} is out of the catalogue. Its changes stay on record.")
    return redirect("catalog")


def _page(request: HttpRequest, code: str, now: Mapping[str, str], mark: str) -> HttpResponse:
    if request.method != "POST":
        return _show(request, code, now, now, mark, {})
    typed = {name: request.POST.get(name, "")[:_LONGEST_BOX] for name in now}
    typed["code"] = code or typed["code"]
    try:
        changed = services.store_part(
            cells=typed,
            why=request.POST.get("why", "")[:_LONGEST_BOX],
            by=cast("User", request.user),
            seen=request.POST.get("seen", ""),
            is_new=not code,
        )
    except services.PartErrors as refused:
        seen = request.POST.get("seen", "")[:16]
        return _show(request, code, now, typed, seen, refused.errors, status=400)
    except services.PartOvertaken as late:
        return _show(request, code, now, typed, mark, {"": str(late)}, status=409)
    messages.success(request, "Stored." if changed else "Nothing was changed by this.")
    return redirect("part-changes", code=typed["code"])


def _show(
    request: HttpRequest,
    code: str,
    now: Mapping[str, str],
    typed: Mapping[str, str],
    mark: str,
    errors: Mapping[str, str],
    status: int = 200,
) -> HttpResponse:
    context = {
        "code": code,
        "boxes": boxes(typed, now, errors),
        "errors": errors,
        "why": request.POST.get("why", ""),
        "seen": mark,
        "touched": what_rests_on(code) if code else [],
    }
    return render(request, "catalog/part.html", context, status=status)
