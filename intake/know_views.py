"""The know-how pages over HTTP: the same for everybody, so that phones and proxies may keep them.

No session is touched and no cookie set; the page needs no script.
"""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.utils import translation
from django.utils.translation import get_supported_language_variant
from django.views.decorators.cache import cache_control
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import conditional_page, require_safe
from django.views.decorators.vary import vary_on_headers

from intake.know import BY_SLUG, PAGES

_kept = cache_control(public=True, max_age=3600, stale_while_revalidate=86_400)
# The language comes from the reader's cookie, else from the browser.
_by_language = vary_on_headers("Accept-Language", "Cookie")


@require_safe
@_by_language
@_kept
@gzip_page
@conditional_page
def know_index(request: HttpRequest) -> HttpResponse:
    """All pages, with what each helps with."""
    return _page(request, "intake/know/index.html", {"pages": PAGES})


@require_safe
@_by_language
@_kept
@gzip_page
@conditional_page
def know(request: HttpRequest, slug: str) -> HttpResponse:
    """One page; 404 for one that is not there."""
    page = BY_SLUG.get(slug)
    if page is None:
        raise Http404(slug)
    others = [other for other in PAGES if other is not page]
    return _page(request, page.template, {"page": page, "others": others})


def _page(request: HttpRequest, template: str, context: dict[str, object]) -> HttpResponse:
    """Rendered without the request: what a template cannot see, it cannot put into the page."""
    with translation.override(_language(request)):
        answer = HttpResponse(render_to_string(template, context))
        answer["Content-Language"] = translation.get_language() or ""
    return answer


def _language(request: HttpRequest) -> str | None:
    """The language asked for in the address (``?lang=es``), else the one the site speaks."""
    try:
        return get_supported_language_variant(request.GET.get("lang", ""))
    except LookupError:
        return translation.get_language()
