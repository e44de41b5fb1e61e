"""Two pages to read: the published tables, for everybody, and the catalogue, for the desk."""

from __future__ import annotations

from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalog import selectors, show
from catalog.models import KINDS
from catalog.prices.selectors import prices_of
from catalog.selectors import PAGE
from catalog.services import TRAIL
from catalog.tables import write_parts
from staff.trail.selectors import changes_of


@require_safe
def standards(request: HttpRequest) -> HttpResponse:
    return render(request, "catalog/standards.html", {"tables": show.tables()})


@login_required
@require_safe
def catalog(request: HttpRequest) -> HttpResponse:
    kind, after = request.GET.get("kind", ""), request.GET.get("after", "")
    kind = kind if kind in dict(KINDS) else ""
    parts, more = selectors.parts_page(kind=kind, after=after.replace("\x00", ""))
    rows = [show.part_row(part) for part in parts]
    context = {"rows": rows, "more": more, "kind": kind, "kinds": KINDS}
    return render(request, "catalog/catalog.html", context)


@login_required
@require_safe
def part_changes(request: HttpRequest, code: str) -> HttpResponse:
    """What was changed of one part, by whom and why; also of one that is gone."""
    changes = list(changes_of(TRAIL, code)[:PAGE])
    if not changes and not selectors.stock().part(code):
        raise Http404
    context = {
        "code": code,
        "changes": changes,
        "prices": prices_of(code),
        "today": timezone.localdate(),
        "may_set": request.user.has_perm("catalog.change_part"),
    }
    return render(request, "catalog/changes.html", context)


@login_required
@require_safe
def catalog_csv(request: HttpRequest) -> HttpResponse:
    answer = HttpResponse(write_parts(selectors.all_parts()), content_type="text/csv")
    answer["Content-Disposition"] = 'attachment; filename="catalogue.csv"'
    return answer
