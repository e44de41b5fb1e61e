"""Every address. The rooms bring their own; what belongs to no room stands here."""

from __future__ import annotations

from typing import Any

from csp.decorators import csp_update
from django.contrib import admin
from django.http import HttpRequest, HttpResponseBase
from django.urls import include, path
from django.views.i18n import set_language

from config import health


def _openapi(request: HttpRequest, **told: Any) -> HttpResponseBase:
    from config import openapi  # here: it loads half of Django's test kit, which no start needs

    return openapi.description(request, **told)


# The documentation page styles itself from its script; no other page may.
@csp_update({"style-src": ["'self'", "'unsafe-inline'"], "img-src": ["'self'", "data:"]})
def _docs(request: HttpRequest, **told: Any) -> HttpResponseBase:
    from config import openapi

    return openapi.page(request, **told)


urlpatterns = [
    path("health/live", health.live, name="health-live"),
    path("health/ready", health.ready, name="health-ready"),
    path("language/", set_language, name="set_language"),
    path("", include("staff.urls")),  # before the admin: its door is the same as everybody's
    path("admin/", admin.site.urls),
    path("api/v1/openapi.json", _openapi, name="openapi"),
    path("api/v1/docs/", _docs, name="api-docs"),
    path("api/v1/", include("intake.api_urls")),
    path("", include("catalog.urls")),
    path("", include("quotes.urls")),  # before intake: it takes every one word below /desk/
    path("", include("intake.urls")),
]

handler500 = "config.views.server_error"
