"""What every page behind a private link has in common."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps

from django.http import HttpRequest, HttpResponse
from django.views.decorators.cache import never_cache

View = Callable[..., HttpResponse]


def private(view: View) -> View:
    """Kept by nobody on the way, listed by no search engine, named to no other site.

    (Not "no-referrer": the browser must still tell our own site where a form came from.)
    """

    @never_cache
    @wraps(view)
    def guarded(request: HttpRequest, *args: object, **kwargs: object) -> HttpResponse:
        response = view(request, *args, **kwargs)
        response["Cache-Control"] = "no-store, private"
        response["X-Robots-Tag"] = "noindex, nofollow, noarchive"
        response["Referrer-Policy"] = "same-origin"
        return response

    return guarded
