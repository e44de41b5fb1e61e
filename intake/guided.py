"""The guided path's pages: the shell, its questions, its worker, and what makes it installable."""

from __future__ import annotations

import json

from django.conf import settings
from django.http import HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.shortcuts import render
from django.utils import translation
from django.utils.cache import patch_vary_headers
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_safe

from intake.guided_path import guided_path
from intake.guided_shell import languages, manifest, version, worker_text


@gzip_page
@require_safe
def guided(request: HttpRequest) -> HttpResponseBase:
    """The page, the same for everybody: no session, no token, so that a phone may keep it."""
    with translation.override(_language(request)):
        context = {
            "version": version(),
            "language": translation.get_language(),
            "languages": [(code, _own_name(code)) for code in languages()],
        }
        answer = render(request, "intake/guided.html", context)
        answer["Content-Language"] = translation.get_language() or ""
    answer["Cache-Control"] = "no-cache"
    patch_vary_headers(answer, ["Accept-Language", "Cookie"])
    if request.GET.get("lang") in languages():
        answer.set_cookie(
            settings.LANGUAGE_COOKIE_NAME, request.GET["lang"], max_age=31_536_000,
            secure=settings.SESSION_COOKIE_SECURE, samesite="Lax",
        )  # fmt: skip
    return answer


def _language(request: HttpRequest) -> str:
    """The language asked for in the address, else the one the site speaks to this visitor."""
    wanted, known = request.GET.get("lang", ""), languages()
    if wanted in known:
        return wanted
    now = (translation.get_language() or "").partition("-")[0]
    return now if now in known else known[0]


def _own_name(code: str) -> str:
    return str(translation.get_language_info(code)["name_local"])


@gzip_page
@require_safe
def questions(request: HttpRequest) -> HttpResponseBase:
    """Every screen and word of the path in one language."""
    said = json.dumps(guided_path(_language(request)), ensure_ascii=False, separators=(",", ":"))
    answer = HttpResponse(said, "application/json")
    answer["Cache-Control"] = "no-cache"
    return answer


@gzip_page
@require_safe
def worker(request: HttpRequest) -> HttpResponseBase:
    """The service worker, at the root so that its scope is the whole site. Never kept by caches."""
    answer = HttpResponse(worker_text(), "text/javascript; charset=utf-8")
    answer["Cache-Control"] = "no-cache"
    answer["Service-Worker-Allowed"] = "/"
    return answer


@require_safe
def web_manifest(request: HttpRequest) -> HttpResponse:
    """Name, colours and icons for a phone's first screen."""
    with translation.override(_language(request)):
        answer = JsonResponse(manifest(), content_type="application/manifest+json")
    answer["Cache-Control"] = "max-age=3600"
    return answer
