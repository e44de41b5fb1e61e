"""Measuring a finished shaft: look, keep, sign, release."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from intake.services import Overtaken
from quotes.domain.as_made_read import BOXES, NotRead
from quotes.inspecting import services
from quotes.models import Quote
from quotes.shop.services import Stopped
from quotes.shop.shafts import (
    back_to,
    inspect_required,
    person,
    release_required,
    shaft_of,
    show,
    told,
)


@inspect_required
@require_POST
def inspect(request: HttpRequest, reference: str) -> HttpResponse:
    """What the typed numbers say: shown at once, or stored."""
    _submission, quote = shaft_of(reference)
    if quote is None:
        return redirect("shop-shaft", reference=reference)
    typed = {box: request.POST.get(box, "") for box in (*BOXES, "tool")}
    try:
        looked = services.look(quote=quote, typed=typed)
        if request.POST.get("do") != "keep":
            return show(request, quote, typed=typed, looked=looked)
        services.keep_inspection(
            quote=quote, typed=typed, seen=_number(request), by=person(request)
        )
    except NotRead as refused:
        return show(request, quote, typed=typed, errors=refused.errors, status=400)
    except (Stopped, Overtaken) as error:
        told(request, error)
        return show(request, quote, typed=typed)
    messages.success(request, "The inspection is stored.")
    return back_to(quote)


@inspect_required
@require_POST
def sign(request: HttpRequest, reference: str) -> HttpResponse:
    """A second person stands by the numbers."""
    _submission, quote = shaft_of(reference)
    if quote is None:
        return redirect("shop-shaft", reference=reference)
    return _done(request, quote, lambda: services.sign(
        quote=quote, number=_number(request), by=person(request)
    ))  # fmt: skip


@release_required
@require_POST
def release(request: HttpRequest, reference: str) -> HttpResponse:
    """The desk lets a shaft go that says to ring it."""
    _submission, quote = shaft_of(reference)
    if quote is None:
        return redirect("shop-shaft", reference=reference)
    why = request.POST.get("why", "")
    return _done(request, quote, lambda: services.release(
        quote=quote, number=_number(request), by=person(request), why=why
    ))  # fmt: skip


def _done(request: HttpRequest, quote: Quote, do: services.Do) -> HttpResponse:
    try:
        do()
    except (Stopped, Overtaken) as error:
        told(request, error)
    return back_to(quote)


def _number(request: HttpRequest) -> int:
    """Which inspection the page showed last."""
    text = request.POST.get("seen", "")
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 5 else 0
