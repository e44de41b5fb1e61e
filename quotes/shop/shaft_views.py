"""One shaft at the bench: its page, and the presses that move it on."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST, require_safe

from intake.services import Overtaken
from quotes.domain.shop_stages import WORDS, Stage
from quotes.shop import services
from quotes.shop.services import Stopped
from quotes.shop.shafts import (
    any_order_of,
    back_to,
    is_parcel,
    look_required,
    move_required,
    none_to_make,
    person,
    release_required,
    shaft_of,
    show,
    told,
)
from quotes.shop.waiting import parts_awaited

# Shipping has its own form; nothing else is pressed from outside this list.
_PRESSED = {one.value: one for one in (Stage.SAWN, Stage.MADE, Stage.INSPECTED, Stage.PACKED)}


@look_required
@require_safe
def shaft(request: HttpRequest, reference: str) -> HttpResponse:
    """The machinist's page of one shaft. Looking changes nothing."""
    submission, quote = any_order_of(reference)
    if quote is None:
        return none_to_make(request, submission)
    if is_parcel(quote):
        return redirect("shop-parcel", reference=reference)
    return show(request, quote)


@move_required
@require_POST
def move(request: HttpRequest, reference: str) -> HttpResponse:
    """The shaft has come to its next stage."""
    _submission, quote = shaft_of(reference)
    if quote is None:
        return redirect("shop-shaft", reference=reference)
    to = _PRESSED.get(request.POST.get("to", ""))
    if to is None:
        messages.error(request, "Please press one of the buttons of this page.")
        return back_to(quote)
    try:
        services.move_on(quote=quote, to=to, by=person(request))
        messages.success(request, f"{quote.number}: {WORDS[to]}.")
        for words in parts_awaited(quote) if to == Stage.SAWN else ():
            messages.warning(request, f"{quote.number}: {words}")
    except (Stopped, Overtaken) as error:
        told(request, error)
    return redirect("shop") if request.POST.get("from") == "list" else back_to(quote)


@move_required
@require_POST
def take_back(request: HttpRequest, reference: str) -> HttpResponse:
    """A wrong press is taken back."""
    _submission, quote = shaft_of(reference)
    if quote is None:
        return redirect("shop-shaft", reference=reference)
    seen = request.POST.get("seen", "")
    if seen in {stage.value for stage in Stage}:
        try:
            why = request.POST.get("why", "")
            services.take_back(quote=quote, seen=Stage(seen), by=person(request), why=why)
        except (Stopped, Overtaken) as error:
            told(request, error)
    return back_to(quote)


@release_required
@require_POST
def call_off(request: HttpRequest, reference: str) -> HttpResponse:
    """The desk calls a shaft off, or a parcel."""
    _submission, quote = any_order_of(reference)
    if quote is None:
        return redirect("shop-shaft", reference=reference)
    try:
        why = request.POST.get("why", "")
        services.call_off(quote=quote, by=person(request), why=why)
    except (Stopped, Overtaken) as error:
        told(request, error)
    return back_to(quote)


@release_required
@require_POST
def give_word(request: HttpRequest, reference: str) -> HttpResponse:
    """The desk says what no table gives."""
    _submission, quote = shaft_of(reference)
    if quote is None:
        return redirect("shop-shaft", reference=reference)
    try:
        words = request.POST.get("words", "")
        services.give_word(quote=quote, by=person(request), words=words)
    except (Stopped, Overtaken) as error:
        told(request, error)
    return back_to(quote)
