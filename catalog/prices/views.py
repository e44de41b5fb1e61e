"""Prices from a day on: what is to come, and setting one or a whole list."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Any, cast

from django import forms
from django.contrib import messages
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from catalog.prices import selectors
from catalog.prices.forms import PriceForm, TableForm
from catalog.prices.services import NewPrice, PriceRefused, PricesOvertaken, set_prices
from catalog.prices.show import preview
from catalog.prices.table import read_prices
from catalog.selectors import stock
from catalog.tables import TableErrors
from staff.access import needs

may_set = needs("catalog.change_part")
anybody = needs()
_MOST_ERRORS = 50


@anybody
@require_safe
def prices(request: HttpRequest) -> HttpResponse:
    """Prices to come; whoever may set them finds the boxes here too."""
    code = request.GET.get("code", "").replace("\x00", "")[:40]
    return _page(request, one=PriceForm(initial={"code": code, "from_day": timezone.localdate()}))


@may_set
@require_POST
def set_one(request: HttpRequest) -> HttpResponse:
    """Set the price of one part from a day on."""
    form = PriceForm(request.POST)
    if not form.is_valid():
        return _page(request, one=form, status=400)
    typed = form.cleaned_data
    price = Decimal(typed["price"].replace(",", "."))
    new = NewPrice(_as_listed(typed["code"]), price, typed["from_day"])
    return _stored(request, form, [new])


@may_set
@require_POST
def set_table(request: HttpRequest) -> HttpResponse:
    """Look at a table first; with the word that it is sure, set all its prices or none."""
    form = TableForm(request.POST, request.FILES)
    if not form.is_valid():
        return _page(request, table=form, status=400)
    typed, shelf = form.cleaned_data, stock()
    known = {part.code for part in shelf.parts}
    try:
        new = read_prices(
            typed["table"], known=known, usual=typed["from_day"], today=timezone.localdate()
        )
    except TableErrors as refused:
        return _page(request, table=form, faults=refused.errors, status=400)
    if request.POST.get("sure"):
        return _stored(request, form, new)
    context = {"rows": preview(new, shelf), "typed": typed, "seen": selectors.newest_key()}
    return render(request, "catalog/prices_preview.html", context)


def _as_listed(code: str) -> str:
    """The code as the catalogue writes it, however the letters were typed."""
    listed = {part.code.casefold(): part.code for part in stock().parts}
    return listed.get(code.strip().casefold(), code)


def _stored(request: HttpRequest, form: forms.Form, new: Sequence[NewPrice]) -> HttpResponse:
    seen = request.POST.get("seen", "")
    try:
        changed = set_prices(
            prices=new,
            by=cast("User", request.user),
            why=form.cleaned_data["why"],
            seen=int(seen) if seen.isascii() and seen.isdigit() and len(seen) < 18 else None,
        )
    except PriceRefused as refused:
        form.add_error(refused.field if refused.field in form.fields else None, str(refused))
        return _again(request, form, 400)
    except PricesOvertaken as late:
        form.add_error(None, str(late))
        return _again(request, form, 409)
    said = f"{len(changed)} price{'' if len(changed) == 1 else 's'} set."
    messages.success(request, said)
    return redirect("prices")


def _after(text: str) -> tuple[date, int] | None:
    """The place a page goes on after, from its address; None for the first page."""
    day, _, key = text.partition("_")
    try:
        return date.fromisoformat(day), int(key[:18])
    except ValueError:
        return None


def _again(request: HttpRequest, form: forms.Form, status: int) -> HttpResponse:
    """What was typed, with what is wrong about it."""
    if isinstance(form, PriceForm):
        return _page(request, one=form, status=status)
    return _page(request, table=form, status=status)


def _page(
    request: HttpRequest,
    *,
    one: forms.Form | None = None,
    table: forms.Form | None = None,
    faults: Any = (),
    status: int = 200,
) -> HttpResponse:
    today = timezone.localdate()
    coming, more = selectors.to_come(today, _after(request.GET.get("after", "")))
    context = {
        "coming": coming,
        "more": f"{more[0].isoformat()}_{more[1]}" if more else "",
        "one": one or PriceForm(initial={"from_day": today}),
        "table": table or TableForm(initial={"from_day": today}),
        "faults": faults[:_MOST_ERRORS],
        "more_faults": max(0, len(faults) - _MOST_ERRORS),
        "seen": selectors.newest_key(),
        "may_set": request.user.has_perm("catalog.change_part"),
    }
    return render(request, "catalog/prices.html", context, status=status)
