"""Pages of the shop's metal: which bar for which shaft, and what is to be ordered."""

from __future__ import annotations

import csv
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from catalog.pieces.selectors import reorder_points
from catalog.pieces.services import set_reorder_point
from catalog.tables import plain_cell
from quotes.checks.bars import nothing_is_wasted
from quotes.stock import services
from quotes.stock.forms import PointForm
from quotes.stock.planning import bar_plan
from quotes.stock.reordering import reorder_rows
from quotes.stock.rows import ALLOWANCE, MetalRow
from staff.access import needs
from staff.errors import Refused

may_look = needs("catalog.view_piece", "quotes.view_hold")
may_hold = needs("catalog.view_piece", "quotes.change_hold")
may_set = needs("catalog.change_reorderpoint")
_COLUMNS = ("code", "what", "quantity", "on_hand", "held", "why")


@may_look
@require_safe
def bars(request: HttpRequest) -> HttpResponse:
    """Every shaft that waits, what is held for it, and what would be better."""
    made = bar_plan()
    context = {
        "metals": [MetalRow(one) for one in made.metals],
        "made": made,
        "ask": nothing_is_wasted.ask,
        "allowance": ALLOWANCE,
    }
    return render(request, "quotes/desk_bars.html", context)


@may_hold
@require_POST
def bars_hold(request: HttpRequest) -> HttpResponse:
    """Hold all as the page has planned it, if nothing has changed since."""
    try:
        services.hold_as_planned(seen=request.POST.get("seen", ""), by=_me(request))
    except Refused as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, "Every shaft is held as planned. Mark the pieces in the rack.")
    return redirect("bars")


@may_look
@require_safe
def reorder(request: HttpRequest) -> HttpResponse:
    """What is to be ordered, how much, and why."""
    return _reorder(request, PointForm())


def _reorder(request: HttpRequest, form: PointForm, status: int = 200) -> HttpResponse:
    context = {"rows": reorder_rows(), "points": reorder_points(), "form": form}
    return render(request, "quotes/desk_reorder.html", context, status=status)


@may_look
@require_safe
def reorder_csv(request: HttpRequest) -> HttpResponse:
    """The same as a table."""
    answer = HttpResponse(content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = 'attachment; filename="to-order.csv"'
    sheet = csv.writer(answer)
    sheet.writerow(_COLUMNS)
    for row in reorder_rows():
        cells = (row.code, row.what, row.quantity, row.on_hand, row.held, "; ".join(row.why))
        sheet.writerow([plain_cell(cell) for cell in cells])
    return answer


@may_hold
@require_POST
def reorder_hold(request: HttpRequest) -> HttpResponse:
    """What has come is held for who waits, the longest accepted first."""
    found = services.hold_what_waits()
    said = f"{found} held now for who waits." if found else "Nothing that is waited for is there."
    messages.success(request, said)
    return redirect("reorder")


@may_set
@require_POST
def reorder_point(request: HttpRequest) -> HttpResponse:
    """At how many free a part is to be ordered."""
    form = PointForm(request.POST)
    if not form.is_valid():
        return _reorder(request, form, status=422)
    said = form.cleaned_data
    set_reorder_point(
        part=said["part"], at=said["at"], to=said["to"] or 0, by=_me(request), why=said["why"]
    )
    messages.success(request, f"{said['part'].code}: written down.")
    return redirect("reorder")


def _me(request: HttpRequest) -> User:
    return cast(User, request.user)
