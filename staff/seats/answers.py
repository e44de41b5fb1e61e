"""What a request hears that may not go on: a page is led somewhere, a script is told."""

from __future__ import annotations

import json
from urllib.parse import urlencode, urlsplit

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect, JsonResponse
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme

from staff.seats.held import hold
from staff.seats.state import State

PROBLEMS = {
    State.LOCKED: (423, "The desk is locked", "Unlock it; nothing of this was stored."),
    State.ENDED: (401, "This login has ended", "Log in again; nothing of this was stored."),
    State.MUST_CHANGE: (403, "A new password first", "Choose a password of your own first."),
    State.MUST_SET_UP: (403, "A second factor first", "Set up your second factor first."),
}


def turned_away(request: HttpRequest, state: State, first: str) -> HttpResponse:
    """The answer to a request from a seat that is not open; ``first`` is where duty leads."""
    if not wants_page(request):
        return _problem(state)
    if state is State.LOCKED:
        return _to("unlock", next=page_of(request), **_sent(request))
    if state is State.ENDED:
        return _to("login", next=page_of(request))
    return HttpResponseRedirect(reverse(first))


def wants_page(request: HttpRequest) -> bool:
    """Whether a person waits for a page, and not a script or a picture for its answer.

    >>> from django.test import RequestFactory
    >>> wants_page(RequestFactory().get("/desk/", headers={"HX-Request": "true"}))
    False
    """
    heads = request.headers
    if any(name in heads for name in ("HX-Request", "X-Background", "X-Requested-With")):
        return False
    if mode := heads.get("Sec-Fetch-Mode"):
        return mode == "navigate"
    return "text/html" in heads.get("Accept", "text/html")


def page_of(request: HttpRequest) -> str:
    """Where the person was: this page, or the page whose form was sent."""
    if request.method in ("GET", "HEAD"):
        return request.get_full_path()
    referer = request.headers.get("Referer", "")
    if not is_ours(referer, request):
        return ""
    parts = urlsplit(referer)
    return f"{parts.path}?{parts.query}" if parts.query else parts.path


def is_ours(address: str, request: HttpRequest) -> bool:
    """Whether an address leads to a page of this site."""
    return url_has_allowed_host_and_scheme(
        address, allowed_hosts={request.get_host()}, require_https=request.is_secure()
    )


def _sent(request: HttpRequest) -> dict[str, str]:
    """A form that was sent is held, and the lock says so."""
    if request.method in ("GET", "HEAD"):
        return {}
    return {"sent": "held" if hold(request) else "lost"}


def _to(name: str, **query: str) -> HttpResponse:
    asked = urlencode({key: text for key, text in query.items() if text}, safe="/")
    return HttpResponseRedirect(f"{reverse(name)}?{asked}" if asked else reverse(name))


def _problem(state: State) -> HttpResponse:
    """A problem (RFC 9457) that changes nothing on the page, and an event for it to show."""
    status, title, detail = PROBLEMS[state]
    answer = JsonResponse(
        {"type": "about:blank", "title": title, "status": status, "detail": detail},
        status=status,
        content_type="application/problem+json",
    )
    answer["HX-Reswap"] = "none"
    answer["HX-Trigger"] = json.dumps({"desk:locked": {"title": title, "detail": detail}})
    answer["Cache-Control"] = "no-store"
    return answer
