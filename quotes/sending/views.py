"""Papers that go with a shaft, and the day it goes."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from intake.services import Overtaken
from quotes.parcels import services as parcels
from quotes.sending import services
from quotes.shop.services import Stopped
from quotes.shop.shafts import (
    any_order_of,
    back_to,
    is_parcel,
    look_required,
    none_to_make,
    paper_response,
    person,
    send_required,
    shaft_of,
    show,
    told,
)


@look_required
@require_safe
def packing_list(request: HttpRequest, reference: str) -> HttpResponse:
    """What goes into the tube or the parcel, to be ticked off."""
    submission, quote = any_order_of(reference)
    if quote is None:
        return none_to_make(request, submission)
    make = parcels.packing_list if is_parcel(quote) else services.packing_list
    pdf = make(quote)
    return paper_response(pdf, f"packing-list-{quote.number}-v{quote.version}.pdf")


@look_required
@require_safe
def fitting_card(request: HttpRequest, reference: str) -> HttpResponse:
    """The card that lies with the shaft: how it goes in, and what to mind."""
    submission, quote = shaft_of(reference)
    if quote is None:
        return none_to_make(request, submission)
    pdf = services.fitting_card(quote)
    return paper_response(pdf, f"fitting-card-{quote.number}-v{quote.version}.pdf")


@send_required
@require_POST
def send(request: HttpRequest, reference: str) -> HttpResponse:
    """The shaft has gone."""
    _submission, quote = shaft_of(reference)
    if quote is None:
        return redirect("shop-shaft", reference=reference)
    typed = {box: request.POST.get(box, "") for box in ("day", "carrier", "tracking", "weight")}
    try:
        services.send(quote=quote, by=person(request), **typed)
    except services.NotSent as refused:
        return show(request, quote, send_typed=typed, send_errors=refused.errors, status=400)
    except (Stopped, Overtaken) as error:
        told(request, error)
        return back_to(quote)
    messages.success(request, f"{quote.number}: shipped.")
    return back_to(quote)
