"""A parcel of parts in the shop: its page, and the presses that move it on."""

from __future__ import annotations

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from intake.services import Overtaken
from quotes.models import Quote
from quotes.parcels import services
from quotes.parcels.page import ParcelPage
from quotes.sending.services import NotSent
from quotes.shop.services import Stopped
from quotes.shop.shafts import (
    any_order_of,
    is_parcel,
    look_required,
    move_required,
    none_to_make,
    parts_of,
    person,
    send_required,
    told,
)


@look_required
@require_safe
def parcel(request: HttpRequest, reference: str) -> HttpResponse:
    """What goes into it and where it stands. Looking changes nothing."""
    submission, quote = any_order_of(reference)
    if quote is None:
        return none_to_make(request, submission)
    if not is_parcel(quote):
        return redirect("shop-shaft", reference=reference)
    return _show(request, ParcelPage(quote))


@move_required
@require_POST
def pack(request: HttpRequest, reference: str) -> HttpResponse:
    """Everything is in it."""
    done = _pressed(
        request, reference, lambda quote: services.pack(quote=quote, by=person(request))
    )
    return redirect("shop") if request.POST.get("from") == "list" else done


@move_required
@require_POST
def open_again(request: HttpRequest, reference: str) -> HttpResponse:
    """A wrong press is taken back."""
    why = request.POST.get("why", "")
    return _pressed(
        request,
        reference,
        lambda quote: services.open_again(quote=quote, by=person(request), why=why),
    )


@send_required
@require_POST
def send(request: HttpRequest, reference: str) -> HttpResponse:
    """The parcel has gone."""
    typed = {box: request.POST.get(box, "") for box in ("day", "carrier", "tracking", "weight")}

    def it_goes(quote: Quote) -> HttpResponse | None:
        try:
            services.send_parcel(quote=quote, by=person(request), **typed)
        except NotSent as refused:
            return _show(request, ParcelPage(quote, typed, refused.errors), status=400)
        return None

    return _pressed(request, reference, it_goes)


def _pressed(request: HttpRequest, reference: str, step: Callable[[Quote], object]) -> HttpResponse:
    """Take one step and go back to the parcel's page; a step may answer with a page of its own."""
    _submission, quote = parts_of(reference)
    if quote is not None:
        try:
            page = step(quote)
            if isinstance(page, HttpResponse):
                return page
            messages.success(request, f"{quote.number}: {services.stage_now(quote)}.")
        except (Stopped, Overtaken) as error:
            told(request, error)
    return redirect("shop-parcel", reference=reference)


def _show(request: HttpRequest, page: ParcelPage, status: int = 200) -> HttpResponse:
    return render(request, "quotes/shop_parcel.html", {"page": page}, status=status)
