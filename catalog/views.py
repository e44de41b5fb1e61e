"""Two pages to read: the published tables, for everybody, and the catalogue, for the desk."""

from __future__ import annotations

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalog import selectors, show
from catalog.models import KINDS
from catalog.tables import write_parts


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
def catalog_csv(request: HttpRequest) -> HttpResponse:
    answer = HttpResponse(write_parts(selectors.all_parts()), content_type="text/csv")
    answer["Content-Disposition"] = 'attachment; filename="catalogue.csv"'
    return answer
