"""Which language a page speaks.

A customer's page goes by the address (``?lang=es``), then the cookie, then what the browser
accepts; pages of the staff and of programs are English.
"""

from __future__ import annotations

from django.conf import settings
from django.http import HttpRequest, HttpResponseBase
from django.middleware.locale import LocaleMiddleware
from django.utils import translation
from django.utils.cache import patch_cache_control, patch_vary_headers


class PageLanguage(LocaleMiddleware):
    """Django's own, with one language for the staff and a wish in the address."""

    def process_request(self, request: HttpRequest) -> None:
        """Choose, and let the page know whether to offer a choice."""
        request.speaks = [] if _is_english(request) else settings.LANGUAGES  # type: ignore[attr-defined]
        request.here = _without_wish(request)  # type: ignore[attr-defined]
        if _is_english(request):
            _speak(request, settings.LANGUAGE_CODE)
        elif wish := _wish(request):
            _speak(request, wish)
        else:
            super().process_request(request)

    def process_response(
        self, request: HttpRequest, response: HttpResponseBase
    ) -> HttpResponseBase:
        """Say what was chosen, by what, and remember a wish."""
        spoken = response.headers.get("Content-Language")
        response = super().process_response(request, response)
        if spoken:
            response.headers["Content-Language"] = spoken
        if _is_english(request):
            return response
        patch_vary_headers(response, ["Cookie"])
        wish = _wish(request)
        if wish and response.headers.get("Content-Type", "").startswith("text/html"):
            _remember(response, wish)
        return response


def _is_english(request: HttpRequest) -> bool:
    return request.path_info.startswith(settings.ENGLISH_PAGES)


def _wish(request: HttpRequest) -> str:
    wanted = request.GET.get("lang", "")
    return wanted if wanted in dict(settings.LANGUAGES) else ""


def _without_wish(request: HttpRequest) -> str:
    """This page's address, without a language in it: the cookie decides from now on."""
    if not request.GET:
        return request.path
    asked = request.GET.copy()
    asked.pop("lang", None)
    return f"{request.path}?{asked.urlencode()}" if asked else request.path


def _speak(request: HttpRequest, language: str) -> None:
    translation.activate(language)
    request.LANGUAGE_CODE = translation.get_language()  # type: ignore[attr-defined]


def _remember(response: HttpResponseBase, language: str) -> None:
    patch_cache_control(response, private=True)  # a cookie is for one visitor
    response.set_cookie(
        settings.LANGUAGE_COOKIE_NAME,
        language,
        max_age=settings.LANGUAGE_COOKIE_AGE,
        secure=settings.LANGUAGE_COOKIE_SECURE,
        httponly=settings.LANGUAGE_COOKIE_HTTPONLY,
        samesite=settings.LANGUAGE_COOKIE_SAMESITE,
    )
